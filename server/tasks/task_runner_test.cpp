#include "server/tasks/task_runner.h"

#include <gtest/gtest.h>

#include <future>

#include "server/storage/store_for_test.h"

namespace outbye {
namespace {

// Waits for what another thread does, with an end to the patience.
bool comes_to(const TaskRunner& tasks, const std::string& id, const std::string& state) {
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(20);
  while (std::chrono::steady_clock::now() < until) {
    if (const auto task = tasks.task(id); task && task->state == state) return true;
    std::this_thread::yield();
  }
  return false;
}

Answer<void> until_cancelled(const std::string&, const Progress& progress) {
  progress.tell("digging", 0.25);
  while (!progress.is_cancelled()) std::this_thread::yield();
  return trouble(Trouble::Kind::cancelled, "hole", "was stopped");
}

struct Tasks : ::testing::Test {
  test::StoreFolder folder;
  OpenStore open{test::open_for_test(folder.path())};
  std::string ride{*open.store->make_ride({R"({"name": "Hollin Dale"})"}, "made")};

  std::map<std::string, TaskWork> works{{"quick", [](const std::string&, const Progress&) { return Answer<void>{}; }},
                                        {"bad",
                                         [](const std::string&, const Progress&) -> Answer<void> {
                                           return trouble(Trouble::Kind::bad_input, "map.pbf", "is damaged");
                                         }},
                                        {"long", until_cancelled}};
};

TEST_F(Tasks, AreDoneOneAfterAnother) {
  TaskRunner tasks(*open.store, works);
  const auto first = tasks.start(ride, "quick");
  const auto second = tasks.start(ride, "bad");
  ASSERT_TRUE(first && second);
  EXPECT_TRUE(comes_to(tasks, first->id, "done"));
  EXPECT_TRUE(comes_to(tasks, second->id, "failed"));
  EXPECT_NE(tasks.task(second->id)->problems.find("is damaged"), std::string::npos);
}

TEST_F(Tasks, TellHowFarTheyAre) {
  TaskRunner tasks(*open.store, works);
  const auto started = tasks.start(ride, "long");
  ASSERT_TRUE(started);
  ASSERT_TRUE(comes_to(tasks, started->id, "running"));
  while (tasks.task(started->id)->step.empty()) std::this_thread::yield();
  EXPECT_EQ(tasks.task(started->id)->step, "digging");
  EXPECT_EQ(tasks.task(started->id)->share, 0.25);
}

TEST_F(Tasks, StopWhenCancelledWhetherRunningOrWaiting) {
  TaskRunner tasks(*open.store, works);
  const auto running = tasks.start(ride, "long");
  ASSERT_TRUE(comes_to(tasks, running->id, "running"));
  const auto waiting = tasks.start(ride, "quick");
  ASSERT_TRUE(tasks.cancel(waiting->id));
  EXPECT_EQ(tasks.task(waiting->id)->state, "cancelled");
  ASSERT_TRUE(tasks.cancel(running->id));
  EXPECT_TRUE(comes_to(tasks, running->id, "cancelled"));
}

TEST_F(Tasks, ThatWaitAreNotAskedForTwice) {
  TaskRunner tasks(*open.store, works);
  ASSERT_TRUE(comes_to(tasks, tasks.start(ride, "long")->id, "running"));
  EXPECT_EQ(tasks.start(ride, "quick")->id, tasks.start(ride, "quick")->id);
}

TEST_F(Tasks, AreRefusedForAnUnknownKindOrRide) {
  TaskRunner tasks(*open.store, works);
  EXPECT_EQ(tasks.start(ride, "knitting").error().front().kind, Trouble::Kind::bad_input);
  EXPECT_EQ(tasks.start("r0", "quick").error().front().kind, Trouble::Kind::not_found);
  EXPECT_EQ(tasks.cancel("t0").error().front().kind, Trouble::Kind::not_found);
}

TEST_F(Tasks, ThatRanWhenTheServerWasKilledAreFailedWithWhatToDo) {
  ASSERT_TRUE(open.store->put_task({"t1", ride, "long", "running", "digging", 0.5}));
  ASSERT_TRUE(open.store->put_task({"t2", ride, "quick", "waiting"}));
  ASSERT_TRUE(open.store->put_task({"t3", ride, "quick", "done"}));
  const TaskRunner tasks(*open.store, works);
  for (const char* id : {"t1", "t2"}) {
    EXPECT_EQ(tasks.task(id)->state, "failed");
    EXPECT_NE(tasks.task(id)->problems.find("run it again"), std::string::npos);
  }
  EXPECT_EQ(tasks.task("t3")->state, "done");
}

TEST_F(Tasks, ThatRunWhenTheServerEndsAreStoredAsFailed) {
  std::string id;
  {
    TaskRunner tasks(*open.store, works);
    id = tasks.start(ride, "long")->id;
    ASSERT_TRUE(comes_to(tasks, id, "running"));
  }
  const auto stored = open.store->tasks();
  ASSERT_TRUE(stored);
  EXPECT_EQ(stored->front().id, id);
  EXPECT_EQ(stored->front().state, "failed");
}

}  // namespace
}  // namespace outbye
