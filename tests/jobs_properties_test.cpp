// Stops beside a brute force that tries every order and everybody, and what must hold of any stop.
#include <gtest/gtest.h>

#include <functional>
#include <numeric>

#include "core/jobs/check_stop_schedule.h"
#include "tests/support/random_stops.h"

namespace outbye {
namespace {

// The shortest time of the step "serve" alone (no holder, nobody kept away from the horse): every order of the tasks,
// every way, every helper in every hand; each task starts as soon as those before it in that order allow.
Seconds brute_force(const CrewStop& stop) {
  Seconds best{1e9};
  std::vector<Seconds> end(stop.tasks.size(), Seconds{-1});
  std::vector<Seconds> free(stop.helpers.size());
  std::function<void(std::size_t)> place = [&](std::size_t done) {
    if (done == stop.tasks.size()) {
      best = std::min(best, *std::max_element(end.begin(), end.end()));
      return;
    }
    for (std::size_t i = 0; i < stop.tasks.size(); ++i) {
      const auto& after = stop.tasks[i].after;
      const bool is_next = end[i] < Seconds{0} && std::all_of(after.begin(), after.end(), [&](TaskId before) {
                             return end[before.value] >= Seconds{0};
                           });
      if (!is_next) continue;
      Seconds ready{};
      for (const TaskId before : after) ready = std::max(ready, end[before.value]);
      for (const TaskMode& mode : stop.tasks[i].modes) {
        std::vector<std::size_t> people;
        std::function<void(Seconds)> fill = [&](Seconds start) {
          if (people.size() == mode.hands.size()) {
            const auto before = free;
            end[i] = start + mode.duration;
            for (const std::size_t h : people) free[h] = end[i];
            place(done + 1);
            free = before;
            end[i] = Seconds{-1};
            return;
          }
          for (std::size_t h = 0; h < stop.helpers.size(); ++h) {
            const auto& has = stop.helpers[h].skills;
            const auto& wants = mode.hands[people.size()].skills;
            if (std::count(people.begin(), people.end(), h) > 0) continue;
            if (!std::all_of(wants.begin(), wants.end(), [&](const std::string& skill) {
                  return std::find(has.begin(), has.end(), skill) != has.end();
                })) {
              continue;
            }
            people.push_back(h);
            fill(std::max(start, free[h]));
            people.pop_back();
          }
        };
        fill(ready);
      }
    }
  };
  place(0);
  return best;
}

StopShape small() {
  StopShape shape;
  shape.tasks_to = 4;
  shape.helpers_to = 3;
  shape.is_one_step = true;
  shape.most = 60;
  return shape;
}

TEST(StopsBesideBruteForce, AreAsShort) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Rng rng(Seed{seed});
    CrewStop stop = random_stop(rng, small());
    stop.holder = Holder::mounted_rider;
    stop.most_at_horse = 4;
    stop.horse_at = Seconds{0};
    const auto answer = schedule_stop(stop);
    ASSERT_TRUE(answer) << "seed " << seed;
    EXPECT_TRUE(answer->is_shortest_proven) << "seed " << seed;
    EXPECT_EQ(answer->end, brute_force(stop)) << "seed " << seed;
  }
}

TEST(RandomStops, PassTheChecker) {
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    Rng rng(Seed{seed});
    const CrewStop stop = random_stop(rng);
    const auto answer = schedule_stop(stop, {5000, 2000});
    ASSERT_TRUE(answer) << "seed " << seed;
    for (const std::string& fault : check_stop_schedule(stop, *answer))
      ADD_FAILURE() << "seed " << seed << ": " << fault;
  }
}

// The search for the fairest found a shorter schedule than a search cut short, and the times no longer agreed.
TEST(RandomStops, PassTheCheckerWhenTheSearchForTheShortestIsCutShort) {
  StopShape shape;
  shape.tasks_from = 20;
  shape.helpers_from = 3;
  shape.is_one_step = true;
  for (const std::uint64_t seed : {23U, 34U, 1U, 2U, 3U, 4U, 5U, 6U}) {
    Rng rng(Seed{seed});
    const CrewStop stop = random_stop(rng, shape);
    for (const std::uint64_t nodes : {100U, 200000U}) {
      const auto answer = schedule_stop(stop, {nodes, 40000});
      ASSERT_TRUE(answer) << "seed " << seed;
      for (const std::string& fault : check_stop_schedule(stop, *answer)) {
        ADD_FAILURE() << "seed " << seed << ": " << fault;
      }
    }
  }
}

TEST(RandomStops, AreNotLongerWithAnotherHelperOfAllSkills) {
  StopShape shape;
  shape.tasks_to = 10;
  shape.helpers_to = 3;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    CrewStop stop = random_stop(rng, shape);
    const auto before = schedule_stop(stop, {200000, 0});
    Helper more;
    more.name = "Eve";
    more.skills = {skill_holds_horse, skill_first_aid, skill_driver, skill_tack, skill_pulse};
    stop.helpers.push_back(more);
    const auto after = schedule_stop(stop, {200000, 0});
    ASSERT_TRUE(before && after) << "seed " << seed;
    if (!after->is_shortest_proven) continue;
    EXPECT_LE(after->end, before->end) << "seed " << seed;
  }
}

TEST(RandomStops, AreNotShorterWithALongerTask) {
  StopShape shape;
  shape.tasks_to = 10;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    CrewStop stop = random_stop(rng, shape);
    const auto before = schedule_stop(stop, {200000, 0});
    for (TaskMode& mode : stop.tasks[seed % stop.tasks.size()].modes) mode.duration += Seconds{45};
    const auto after = schedule_stop(stop, {200000, 0});
    ASSERT_TRUE(before && after) << "seed " << seed;
    if (!before->is_shortest_proven) continue;
    EXPECT_GE(after->end, before->end) << "seed " << seed;
  }
}

TEST(RandomStops, HaveNoWorkHigherThanBeforeTheFairestWasLookedFor) {
  StopShape shape;
  shape.tasks_to = 12;
  const auto most = [](const CrewStop& stop, const StopSchedule& schedule) {
    Seconds high{};
    for (std::size_t h = 0; h < stop.helpers.size(); ++h)
      high = std::max(high, stop.helpers[h].carried + schedule.work[h]);
    return high;
  };
  std::size_t better = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    const CrewStop stop = random_stop(rng, shape);
    const auto plain = schedule_stop(stop, {200000, 0}), fair = schedule_stop(stop);
    ASSERT_TRUE(plain && fair) << "seed " << seed;
    EXPECT_EQ(plain->end, fair->end) << "seed " << seed;
    EXPECT_LE(most(stop, *fair), most(stop, *plain)) << "seed " << seed;
    if (most(stop, *fair) < most(stop, *plain)) ++better;
  }
  EXPECT_GT(better, 20U);
}

}  // namespace
}  // namespace outbye
