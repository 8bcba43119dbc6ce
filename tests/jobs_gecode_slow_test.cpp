// 200 random stops of up to 20 tasks and 4 helpers, beside MiniZinc with Gecode: same makespan. Gecode gets our
// makespan as the longest that it may look at, and must find a schedule of that length and prove that none is shorter;
// what it cannot decide in its time is counted and printed, and must stay few.
#include <gtest/gtest.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "core/jobs/check_stop_schedule.h"
#include "tests/support/random_stops.h"

namespace outbye {
namespace {

constexpr std::size_t stops = 200;

template <class Items, class Text>
std::string list_of(const Items& items, const Text& text) {
  std::string list = "[";
  for (const auto& item : items) list += (list.size() > 1 ? "," : "") + text(item);
  return list + "]";
}

std::string yes_no(bool is) { return is ? "true" : "false"; }

bool has(const Helper& helper, const std::string& skill) {
  return std::find(helper.skills.begin(), helper.skills.end(), skill) != helper.skills.end();
}

void write_stop(const CrewStop& stop, Seconds known, const std::string& path) {
  const auto whole = [](Seconds s) { return std::to_string(static_cast<long>(s.count())); };
  const auto number = [](int n) { return std::to_string(n); };
  std::vector<int> way_task, hand_way;
  std::vector<Seconds> durations;
  std::string can;
  for (std::size_t i = 0; i < stop.tasks.size(); ++i) {
    for (const TaskMode& mode : stop.tasks[i].modes) {
      way_task.push_back(static_cast<int>(i + 1));
      durations.push_back(mode.duration);
      for (const Hand& hand : mode.hands) {
        hand_way.push_back(static_cast<int>(way_task.size()));
        for (const Helper& helper : stop.helpers) {
          can += (can.empty() ? "" : ",") + yes_no(std::all_of(hand.skills.begin(), hand.skills.end(),
                                                               [&](const auto& skill) { return has(helper, skill); }));
        }
      }
    }
  }
  std::string after;
  for (const StopTask& task : stop.tasks) {
    for (std::uint32_t j = 0; j < stop.tasks.size(); ++j) {
      after += (after.empty() ? "" : ",") +
               yes_no(std::find(task.after.begin(), task.after.end(), TaskId{j}) != task.after.end());
    }
  }
  const std::string n = std::to_string(stop.tasks.size()), helpers = std::to_string(stop.helpers.size());
  std::ofstream file(path);
  file << "helpers=" << helpers << ";tasks=" << n << ";hands=" << hand_way.size() << ";ways=" << way_task.size()
       << ";\n"
       << "step=" << list_of(stop.tasks, [&](const StopTask& t) { return number(static_cast<int>(t.step)); }) << ";\n"
       << "way_task=" << list_of(way_task, number) << ";\nway_duration=" << list_of(durations, whole) << ";\n"
       << "hand_way=" << list_of(hand_way, number) << ";\n"
       << "can=array2d(1.." << hand_way.size() << ",1.." << helpers << ",[" << can << "]);\n"
       << "after=array2d(1.." << n << ",1.." << n << ",[" << after << "]);\n"
       << "at_horse=" << list_of(stop.tasks, [](const StopTask& t) { return yes_no(t.is_at_horse); }) << ";\n"
       << "can_hold=" << list_of(stop.helpers, [](const Helper& h) { return yes_no(has(h, skill_holds_horse)); })
       << ";\n"
       << "needs_holder=" << yes_no(stop.holder == Holder::helper) << ";most_at_horse=" << stop.most_at_horse << ";\n"
       << "horse_at=" << whole(stop.horse_at) << ";horizon=" << whole(known) << ";known=" << whole(known) << ";\n";
}

TEST(JobsBesideGecode, HaveTheSameMakespan) {
  if (std::system("minizinc --version > /dev/null 2>&1 && fzn-gecode --help > /dev/null 2>&1") != 0) {
    GTEST_SKIP() << "minizinc with Gecode is not installed (Debian: minizinc, flatzinc)";
  }
  const std::filesystem::path folder = std::filesystem::path(OUTBYE_BUILD) / "jobs_gecode";
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  std::vector<StopSchedule> ours;
  for (std::size_t k = 0; k < stops; ++k) {
    Rng rng(Seed{k + 1});
    const CrewStop stop = random_stop(rng);
    const auto answer = schedule_stop(stop, {200000, 0});
    ASSERT_TRUE(answer) << "seed " << k + 1;
    ASSERT_TRUE(check_stop_schedule(stop, *answer).empty()) << "seed " << k + 1;
    char name[24];
    std::snprintf(name, sizeof name, "%03zu", k);
    write_stop(stop, answer->end, (folder / (std::string(name) + ".dzn")).string());
    ours.push_back(*answer);
  }
  const std::string tools = std::string(OUTBYE_SOURCE) + "/tests/tools/";
  const std::string answers = (folder / "answers.txt").string();
  ASSERT_EQ(std::system(("python3 " + tools + "jobs_gecode.py " + folder.string() + " " + tools + "jobs_stop.mzn 1 > " +
                         answers)
                            .c_str()),
            0);
  std::ifstream file(answers);
  std::size_t k = 0, decided = 0, open_here = 0, wrong = 0;
  for (std::string name, makespan, proof; file >> name >> makespan >> proof; ++k) {
    ASSERT_LT(k, ours.size());
    const std::string mine = std::to_string(static_cast<long>(ours[k].end.count()));
    if (proof == "proven") ++decided;
    if (!ours[k].is_shortest_proven) ++open_here;
    // A shorter schedule refutes a proof of ours; one that is not there when Gecode is through refutes the schedule.
    const bool is_shorter = makespan != "none" && makespan != mine;
    const bool is_refuted = proof == "proven" && makespan == "none";
    if ((is_shorter && ours[k].is_shortest_proven) || is_refuted) {
      ++wrong;
      ADD_FAILURE() << "seed " << k + 1 << ": ours " << mine << ", Gecode " << makespan << " " << proof;
    }
    if (is_shorter) std::printf("seed %zu: ours %s, not proven; Gecode %s\n", k + 1, mine.c_str(), makespan.c_str());
  }
  std::printf("%zu stops: Gecode decides %zu, all but %zu as ours; ours without a proof %zu\n", k, decided, wrong,
              open_here);
  EXPECT_EQ(k, stops);
  EXPECT_GE(decided, 50U);
}

}  // namespace
}  // namespace outbye
