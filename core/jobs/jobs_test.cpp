#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/jobs/check_stop_schedule.h"
#include "core/jobs/stop_cards.h"
#include "core/jobs/stop_changes.h"
#include "core/jobs/usual_stops.h"

namespace outbye {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

StopTask task(const std::string& name, double seconds, std::size_t hands = 1, RoutineStep step = RoutineStep::serve) {
  StopTask made;
  made.name = name;
  made.step = step;
  made.modes = {{Seconds{seconds}, std::vector<Hand>(hands)}};
  return made;
}

std::vector<Helper> crew(std::size_t n) {
  std::vector<Helper> helpers;
  for (const char* name : {"Ann", "Bob", "Cat", "Dan"}) {
    if (helpers.size() < n) helpers.push_back(helper_of_all_work(name));
  }
  return helpers;
}

CrewStop stop_of(std::vector<StopTask> tasks, std::size_t helpers) {
  CrewStop stop;
  stop.helpers = crew(helpers);
  stop.tasks = std::move(tasks);
  return stop;
}

TEST(Schedule, SharesThreeEqualTasksOfTwoHelpersInTwoRounds) {
  const auto answer = schedule_stop(stop_of({task("a", 30), task("b", 30), task("c", 30)}, 2));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->end, Seconds{60});
  EXPECT_TRUE(answer->is_shortest_proven);
}

TEST(Schedule, FollowsTheRoutineStepByStep) {
  const auto stop = stop_of(
      {task("pack", 10, 1, RoutineStep::clear), task("pour", 10), task("lay out", 10, 1, RoutineStep::set_up)}, 3);
  const auto answer = schedule_stop(stop);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->tasks[0].task, TaskId{2});
  EXPECT_EQ(answer->tasks[2].task, TaskId{0});
  EXPECT_EQ(answer->end, Seconds{30});
}

TEST(Schedule, WaitsForTheHorse) {
  CrewStop stop = stop_of({task("pour", 10)}, 1);
  stop.horse_at = Seconds{300};
  EXPECT_EQ(schedule_stop(stop)->end, Seconds{310});
}

TEST(Schedule, TakesTheWayByTwoWhenItIsShorter) {
  CrewStop stop = stop_of({task("pour", 90)}, 2);
  stop.tasks[0].modes.push_back({Seconds{45}, std::vector<Hand>(2)});
  EXPECT_EQ(schedule_stop(stop)->end, Seconds{45});
}

// Once a longer way without hands was taken for as good as a shorter one with a helper.
TEST(Schedule, TakesTheShorterWayWithAHelperBeforeALongerOneWithoutHands) {
  CrewStop stop = stop_of({task("soak", 190)}, 2);
  stop.tasks[0].modes.push_back({Seconds{230}, {}});
  EXPECT_EQ(schedule_stop(stop)->end, Seconds{190});
}

TEST(Schedule, KeepsWhoeverHoldsTheHorseFreeOfOtherTasks) {
  CrewStop stop = stop_of({task("a", 30), task("b", 30)}, 2);
  stop.holder = Holder::helper;
  EXPECT_EQ(schedule_stop(stop)->end, Seconds{60});
}

TEST(Schedule, LetsNoMoreHelpersAtTheHorseThanTheRulesAllow) {
  CrewStop stop = stop_of({task("a", 30), task("b", 30), task("c", 30)}, 3);
  for (StopTask& one : stop.tasks) one.is_at_horse = true;
  stop.most_at_horse = 1;
  EXPECT_EQ(schedule_stop(stop)->end, Seconds{90});
}

TEST(Schedule, GivesTheTaskToWhoeverHasWorkedLess) {
  CrewStop stop = stop_of({task("a", 30)}, 2);
  stop.helpers[0].carried = Seconds{600};
  EXPECT_EQ(schedule_stop(stop)->tasks[0].hands[0], HelperId{1});
}

TEST(Schedule, GivesHalfTheWorkForHalfTheShare) {
  CrewStop stop = stop_of({task("a", 30), task("b", 30), task("c", 30)}, 2);
  for (StopTask& one : stop.tasks) one.step = RoutineStep::set_up;
  stop.tasks[1].after = {TaskId{0}};
  stop.tasks[2].after = {TaskId{1}};
  stop.helpers[0].share = 0.5;
  EXPECT_EQ(schedule_stop(stop)->work[0], Seconds{30});
}

TEST(Schedule, SaysThatNothingIsProvenWhenTheNodesRunOut) {
  std::vector<StopTask> tasks;
  for (int i = 0; i < 9; ++i)
    tasks.push_back(task("t" + std::to_string(i), 20 + 10 * (i % 3), 1 + static_cast<std::size_t>(i % 2)));
  const CrewStop stop = stop_of(tasks, 3);
  const auto hasty = schedule_stop(stop, {1, 0}), thorough = schedule_stop(stop);
  ASSERT_TRUE(hasty && thorough);
  EXPECT_LE(hasty->bound, thorough->end);
  EXPECT_EQ(hasty->is_shortest_proven, hasty->end == hasty->bound);
  EXPECT_TRUE(thorough->is_shortest_proven);
}

TEST(BadStop, NamesTheTasksOfACycle) {
  CrewStop stop = stop_of({task("pour", 10), task("fetch", 10), task("scrape", 10)}, 2);
  stop.tasks[0].after = {TaskId{2}};
  stop.tasks[2].after = {TaskId{1}};
  stop.tasks[1].after = {TaskId{0}};
  const auto answer = schedule_stop(stop);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().kind, Problem::Kind::bad_input);
  EXPECT_EQ(answer.error().what, "goes in a circle: pour -> fetch -> scrape -> pour; take one of these out");
}

TEST(BadStop, SaysWhichSkillIsMissingAndWhoCouldLearnIt) {
  CrewStop stop = stop_of({task("bandage", 10)}, 2);
  stop.tasks[0].modes[0].hands[0].skills = {skill_tack, "vet nurse"};
  stop.helpers[0].skills.clear();
  const auto answer = schedule_stop(stop);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().kind, Problem::Kind::impossible);
  EXPECT_THAT(answer.error().what, HasSubstr("needs \"vet nurse\"; Bob could do it"));
}

TEST(BadStop, RefusesANegativeDuration) {
  const auto answer = schedule_stop(stop_of({task("pour", -5)}, 1));
  ASSERT_FALSE(answer);
  EXPECT_THAT(answer.error().what, HasSubstr("is -5 s: a time cannot be negative"));
}

TEST(BadStop, SaysHowManyPeopleAreMissing) {
  const auto answer = schedule_stop(stop_of({task("lift", 10, 2)}, 1));
  ASSERT_FALSE(answer);
  EXPECT_THAT(answer.error().what, HasSubstr("needs 2 people at once and there are 1"));
}

TEST(BadStop, RefusesAnOrderAgainstTheRoutine) {
  CrewStop stop = stop_of({task("lay out", 10, 1, RoutineStep::set_up), task("pour", 10)}, 1);
  stop.tasks[0].after = {TaskId{1}};
  EXPECT_THAT(schedule_stop(stop).error().what, HasSubstr("cannot come after \"pour\" of the later step \"serve\""));
}

TEST(BadStop, SaysThatTheHolderIsMissingForATaskOfTwo) {
  CrewStop stop = stop_of({task("pour", 10, 2)}, 2);
  stop.holder = Holder::helper;
  EXPECT_THAT(schedule_stop(stop).error().what, HasSubstr("\"pour\" cannot be done while one helper holds the horse"));
}

TEST(Checker, RefusesAHelperInTwoPlaces) {
  const CrewStop stop = stop_of({task("a", 30), task("b", 30)}, 2);
  auto schedule = *schedule_stop(stop);
  ASSERT_THAT(check_stop_schedule(stop, schedule), IsEmpty());
  schedule.tasks[1].hands = schedule.tasks[0].hands;
  EXPECT_THAT(check_stop_schedule(stop, schedule), Contains(HasSubstr("does a and b at once")));
}

TEST(Checker, RefusesAHolderWhoDoesSomethingElse) {
  CrewStop stop = stop_of({task("a", 30)}, 2);
  stop.holder = Holder::helper;
  auto schedule = *schedule_stop(stop);
  schedule.tasks[0].hands = {*schedule.holder};
  EXPECT_THAT(check_stop_schedule(stop, schedule), Contains(HasSubstr("holds the horse and does a")));
}

TEST(Checker, RefusesATaskBeforeItsPredecessor) {
  CrewStop stop = stop_of({task("a", 30), task("b", 30)}, 2);
  const auto schedule = *schedule_stop(stop);
  stop.tasks[1].after = {TaskId{0}};
  EXPECT_THAT(check_stop_schedule(stop, schedule), Contains("b starts before a is done"));
}

TEST(UsualStop, CanBeServedByOneToFourHelpersWithinTheRulesLimit) {
  for (const StopKind kind :
       {StopKind::flying_bottle, StopKind::short_stop, StopKind::drink_stop, StopKind::vet_gate, StopKind::finish}) {
    for (std::size_t n = 1; n <= 4; ++n) {
      for (const std::uint32_t most : {1U, 2U, 3U}) {
        for (const bool is_cold : {false, true}) {
          const auto stop = usual_stop({kind, true, is_cold, most, minutes(10)}, crew(n));
          ASSERT_TRUE(stop) << stop_kind_name(kind) << n << stop.error().what;
          const auto schedule = schedule_stop(*stop);
          ASSERT_TRUE(schedule) << stop_kind_name(kind) << n << schedule.error().what;
          EXPECT_THAT(check_stop_schedule(*stop, *schedule), IsEmpty());
          EXPECT_TRUE(schedule->is_shortest_proven) << stop_kind_name(kind) << n;
        }
      }
    }
  }
}

// Stop lengths: flying bottle 10-20 s, short stop 1-3 min, drink stop 4-6 min (common practice).
TEST(UsualStop, LastsAsLongAsInCommonPracticeForTwoHelpers) {
  const auto stand = [](StopKind kind) {
    const auto schedule = schedule_stop(*usual_stop({kind, false, false, 4, minutes(10)}, crew(2)));
    return schedule->serve_end - schedule->serve_start;
  };
  EXPECT_LE(stand(StopKind::flying_bottle), Seconds{20});
  EXPECT_LE(stand(StopKind::short_stop), minutes(3));
  EXPECT_GE(stand(StopKind::short_stop), minutes(1));
  EXPECT_LE(stand(StopKind::drink_stop), minutes(6));
}

TEST(EarlyHorse, LeavesOutTheLeastNecessaryFirstAndSaysSo) {
  const CrewStop stop = *usual_stop({StopKind::drink_stop, true, false, 4, minutes(15)}, crew(2));
  const StopSchedule planned = *schedule_stop(stop);
  const auto change = when_horse_is_early(stop, planned, planned.ready - Seconds{60});
  ASSERT_TRUE(change);
  ASSERT_FALSE(change->left_out.empty());
  for (const TaskId id : change->left_out) EXPECT_GT(at(stop.tasks, id).necessity, 0U);
  EXPECT_LE(change->schedule.ready, planned.ready - Seconds{60});
  EXPECT_THAT(change->words, Contains(HasSubstr("Leave out: ")));
  EXPECT_THAT(check_stop_schedule(change->stop, change->schedule), IsEmpty());
}

TEST(EarlyHorse, WaitsForWhatIsNecessary) {
  const CrewStop stop = *usual_stop({StopKind::drink_stop, true, false, 4, minutes(15)}, crew(1));
  const auto change = when_horse_is_early(stop, *schedule_stop(stop), Seconds{0});
  ASSERT_TRUE(change);
  EXPECT_THAT(change->words, Contains(HasSubstr("The horse waits ")));
}

TEST(EarlyHorse, LeavesNothingOutWhenThereIsTime) {
  const CrewStop stop = *usual_stop({StopKind::drink_stop, false, false, 4, minutes(30)}, crew(2));
  EXPECT_THAT(when_horse_is_early(stop, *schedule_stop(stop), minutes(20))->left_out, IsEmpty());
}

TEST(MissingHelper, GivesTheirTasksToTheOthers) {
  const CrewStop stop = *usual_stop({StopKind::vet_gate, false, false, 4, minutes(10)}, crew(4));
  const StopSchedule planned = *schedule_stop(stop);
  const auto change = when_helper_is_missing(stop, planned, HelperId{1});
  ASSERT_TRUE(change);
  EXPECT_GE(change->schedule.end, planned.end);
  EXPECT_THAT(change->words, Contains(HasSubstr(" takes over: ")));
  EXPECT_THAT(check_stop_schedule(change->stop, change->schedule), IsEmpty());
}

TEST(MissingHelper, LeavesOutWhatNobodyElseCanDoUnlessItIsNecessary) {
  CrewStop stop = stop_of({task("nail the shoe", 60), task("pour", 10)}, 2);
  stop.tasks[0].modes[0].hands[0].skills = {"farrier"};
  stop.helpers[0].skills.emplace_back("farrier");
  stop.tasks[0].necessity = 1;
  const StopSchedule planned = *schedule_stop(stop);
  EXPECT_THAT(when_helper_is_missing(stop, planned, HelperId{0})->words, Contains("Leave out: nail the shoe."));
  stop.tasks[0].necessity = 0;
  EXPECT_THAT(when_helper_is_missing(stop, planned, HelperId{0}).error().what, HasSubstr("needs \"farrier\""));
}

TEST(MissingHelper, LetsTheRiderHoldWhenNobodyElseCan) {
  CrewStop stop = stop_of({task("pour", 10)}, 2);
  stop.holder = Holder::helper;
  stop.helpers[1].skills.clear();
  const auto change = when_helper_is_missing(stop, *schedule_stop(stop), HelperId{0});
  ASSERT_TRUE(change);
  EXPECT_EQ(change->stop.holder, Holder::rider_on_foot);
}

TEST(Cards, SayToEachWhatWhenAndWithWhom) {
  CrewStop stop = stop_of({task("lift the can", 90, 2, RoutineStep::set_up)}, 2);
  const auto cards = stop_cards(stop, *schedule_stop(stop));
  ASSERT_EQ(cards.size(), 3U);
  EXPECT_THAT(card_text(cards[0]), Contains("  +0:00-1:30  lift the can (with Bob)"));
}

TEST(Cards, TellTheRiderWhoGivesWhat) {
  const CrewStop stop = *usual_stop({StopKind::flying_bottle, false, false, 4, minutes(5)}, crew(1));
  const auto text = card_text(stop_cards(stop, *schedule_stop(stop)).back());
  EXPECT_THAT(text, Contains(HasSubstr("two slosh bottles for the neck (from Ann)")));
}

TEST(Cards, WarnWhoeverWorksAtTheHorse) {
  const CrewStop stop = *usual_stop({StopKind::drink_stop, false, false, 4, minutes(10)}, crew(1));
  EXPECT_THAT(card_text(stop_cards(stop, *schedule_stop(stop)).front()),
              Contains(HasSubstr("never alone behind the horse")));
}

}  // namespace
}  // namespace outbye
