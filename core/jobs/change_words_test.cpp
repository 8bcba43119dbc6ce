#include "core/jobs/change_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/jobs/check_stop_schedule.h"
#include "core/jobs/usual_stops.h"

namespace outbye {
namespace {

using testing::Contains;
using testing::Each;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

std::vector<Helper> crew(std::size_t n) {
  std::vector<Helper> helpers;
  for (const char* name : {"Ann", "Bob", "Cat", "Dan"}) {
    if (helpers.size() < n) helpers.push_back(helper_of_all_work(name));
  }
  return helpers;
}

CrewStop gate(std::size_t n) { return *usual_stop({StopKind::vet_gate, true, false, 2, minutes(10)}, crew(n)); }

Seconds work_kept(const StopSchedule& planned, const StopSchedule& now) {
  Seconds kept{};
  for (const ScheduledTask& is : now.tasks) {
    for (const ScheduledTask& was : planned.tasks) {
      if (was.task != is.task) continue;
      for (const HelperId hand : is.hands) {
        if (std::find(was.hands.begin(), was.hands.end(), hand) != was.hands.end()) kept += is.end - is.start;
      }
    }
  }
  return kept;
}

TEST(ChangedStop, KeepsPeopleAtTheirTasksWhenTheyOnlyChangedPlaces) {
  const CrewStop stop = gate(3);
  const StopSchedule planned = *schedule_stop(stop);
  // The same schedule with everybody in the place of the next one.
  StopSchedule turned = planned;
  const auto next = [](HelperId& helper) { helper = HelperId{(helper.value + 1) % 3}; };
  for (ScheduledTask& one : turned.tasks) std::for_each(one.hands.begin(), one.hands.end(), next);
  if (turned.holder) next(*turned.holder);
  for (HelperId& helper : turned.at_horse) next(helper);
  RestOfStop rest{stop, {}, {}};
  for (std::uint32_t i = 0; i < stop.tasks.size(); ++i) rest.old.push_back(TaskId{i});
  for (std::uint32_t h = 0; h < 3; ++h) rest.helpers.push_back(HelperId{h});
  ASSERT_LT(work_kept(planned, turned), work_kept(planned, planned));
  keep_people(planned, rest, turned);
  EXPECT_EQ(work_kept(planned, turned), work_kept(planned, planned));
  EXPECT_EQ(turned.work, planned.work);
  EXPECT_THAT(check_stop_schedule(stop, turned), IsEmpty());
}

TEST(ChangedStop, GivesNoTaskToSomebodyWithoutTheSkill) {
  CrewStop stop = gate(4);
  stop.helpers[2].skills = {skill_holds_horse, skill_driver, skill_lifts};
  const StopSchedule planned = *schedule_stop(stop);
  for (std::uint32_t h = 0; h < 4; ++h) {
    const auto change = when_helper_is_missing(stop, planned, HelperId{h});
    ASSERT_TRUE(change) << change.error().what;
    EXPECT_THAT(check_stop_schedule(change->stop, change->schedule), IsEmpty()) << h;
  }
}

TEST(ChangedStop, IsToldInAFewSentencesAtAGate) {
  const CrewStop stop = gate(3);
  const StopSchedule planned = *schedule_stop(stop);
  for (std::uint32_t h = 0; h < 3; ++h) {
    const auto change = when_helper_is_missing(stop, planned, HelperId{h});
    ASSERT_TRUE(change);
    EXPECT_LE(change->words.size(), 7U) << h;
    EXPECT_GT(change->details.size(), change->words.size()) << h;
    EXPECT_THAT(change->words, Contains(HasSubstr(" takes over: "))) << h;
    EXPECT_THAT(change->words, Contains(HasSubstr("The horse stands "))) << h;
  }
}

TEST(ChangedStop, SaysByHowMuchWorkAtTheHorseIsLater) {
  const CrewStop stop = gate(3);
  const auto change = when_helper_is_missing(stop, *schedule_stop(stop), HelperId{0});
  ASSERT_TRUE(change);
  EXPECT_THAT(change->words, Contains(testing::MatchesRegex("While the horse stands, [0-9]+:[0-9]+ min later: .*")));
}

TEST(ChangedStop, SaysFirstWhenTheHorseComesAndHowLongItWaits) {
  const CrewStop stop = gate(2);
  const auto change = when_horse_is_early(stop, *schedule_stop(stop), Seconds{0});
  ASSERT_TRUE(change);
  ASSERT_GE(change->words.size(), 2U);
  EXPECT_EQ(change->words[0], "The horse comes 10:00 min earlier than planned, as the car stops.");
  EXPECT_THAT(change->words[1], HasSubstr("The horse waits "));
}

TEST(ChangedStop, NamesEveryTaskThatChangesHandsInTheWholeList) {
  const CrewStop stop = gate(3);
  const StopSchedule planned = *schedule_stop(stop);
  const auto change = when_helper_is_missing(stop, planned, HelperId{1});
  ASSERT_TRUE(change);
  for (const ScheduledTask& was : planned.tasks) {
    if (was.hands != std::vector<HelperId>{HelperId{1}}) continue;
    EXPECT_THAT(change->details, Contains(HasSubstr(at(stop.tasks, was.task).name + ": now ")));
  }
  EXPECT_THAT(change->details, Each(Not(HasSubstr(" more."))));
}

}  // namespace
}  // namespace outbye
