// The drawing of a day beside the plan that it is of, on the demo's ride with its own map, heights and weather.
#include "formats/day_drawing/day_drawing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <memory>
#include <set>

#include "core/geo/sphere.h"
#include "formats/file_io/file_io.h"
#include "tests/support/cli_answers.h"
#include "tests/support/demo_inputs.h"

namespace outbye {
namespace {

struct DemoDay {
  test::DemoInputs made;
  RideInputs& inputs{made.inputs};
  RidePlan plan{};
  Json drawing{};
};

// Made once: the country takes longer than all the tests.
const DemoDay& demo_day() {
  static const DemoDay* const day = [] {
    auto* demo = new DemoDay{test::demo_inputs()};
    auto plan = plan_ride(demo->inputs);
    EXPECT_TRUE(plan) << plan.error().what;
    demo->plan = std::move(*plan);
    demo->drawing = day_drawing_json(demo->plan, demo->made.roads.get());
    return demo;
  }();
  return *day;
}

RidePlan planned_with(const std::function<void(Ride&)>& change) {
  RideInputs inputs = demo_day().inputs;
  change(inputs.ride);
  auto plan = plan_ride(inputs);
  EXPECT_TRUE(plan) << plan.error().what;
  return std::move(*plan);
}

TEST(DayDrawing, FitsItsSchema) {
  if (!has_jsonschema()) GTEST_SKIP() << "python3-jsonschema is not installed";
  FreshFolder folder;
  EXPECT_EQ(validated(folder, "day-drawing-1.json", demo_day().drawing.dump()), "valid\n");
}

TEST(DayDrawing, HasKnotsThatAscendInKilometresAndTimeAndKeepTheirOrder) {
  for (const auto& horse : demo_day().drawing["horses"]) {
    const Json* before = nullptr;
    for (const auto& knot : horse["knots"]) {
      EXPECT_LE(knot["p10_s"], knot["p50_s"]);
      EXPECT_LE(knot["p50_s"], knot["p90_s"]);
      if (before != nullptr) {
        for (const char* field : {"km", "p10_s", "p50_s", "p90_s"}) EXPECT_LE((*before)[field], knot[field]) << field;
      }
      before = &knot;
    }
    EXPECT_EQ(horse["knots"].back()["km"], demo_day().drawing["length_km"]);
  }
}

TEST(DayDrawing, GivesAGateTwoKnotsThatTheHorseStandsBetween) {
  const auto& horse = demo_day().drawing["horses"][0];
  ASSERT_EQ(horse["gates"].size(), 2U);  // three loops
  for (const auto& gate : horse["gates"]) {
    std::vector<Json> at;
    for (const auto& knot : horse["knots"]) {
      if (knot["km"] == gate["km"]) at.push_back(knot);
    }
    ASSERT_EQ(at.size(), 2U);
    EXPECT_EQ(at[0]["p50_s"], gate["in_s"]);
    EXPECT_EQ(at[1]["p50_s"], gate["out_s"]);
    EXPECT_LE(gate["in_s"], gate["accepted_s"]);
    EXPECT_LE(gate["accepted_s"], gate["out_s"]);
  }
}

void expect_one_thing_after_another(const Json& drawing) {
  for (const auto& car : drawing["cars"]) {
    ASSERT_FALSE(car["spans"].empty());
    const Json* before = nullptr;
    for (const auto& span : car["spans"]) {
      EXPECT_LT(span["from_s"], span["to_s"]) << span;
      if (span["kind"] != "drive") {
        EXPECT_EQ(span["from_km"], span["to_km"]) << span;
      }
      if (before != nullptr) {
        EXPECT_LE((*before)["to_s"], span["from_s"]) << *before << span;
        EXPECT_LE(span["from_s"].get<std::int64_t>() - (*before)["to_s"].get<std::int64_t>(), 1) << *before << span;
      }
      before = &span;
    }
  }
}

TEST(DayDrawing, NeverLetsACarDoTwoThingsAtOnceOrNothing) { expect_one_thing_after_another(demo_day().drawing); }

// With a whole evening before it must be back, the car has time for the errand.
TEST(DayDrawing, RunsTheErrandsOfThePlanAndDrivesHome) {
  const auto plan = planned_with([](Ride& ride) {
    ride.cars[0].back_by = ride.start + minutes(16 * 60);
    ride.cars[0].end = ride.crew_points[0].name;
    for (auto& errand : ride.errands) errand.open.clear();
  });
  std::size_t errands = 0, drawn = 0;
  for (const auto& car : plan.errands.cars) errands += car.stops.size();
  ASSERT_GT(errands, 0U) << "the question is idle if nothing fits";
  const Json drawing = day_drawing_json(plan, demo_day().made.roads.get());
  expect_one_thing_after_another(drawing);
  const auto& spans = drawing["cars"][0]["spans"];
  for (const auto& span : spans) drawn += span["kind"] == "errand" ? 1U : 0U;
  EXPECT_EQ(drawn, errands);
  EXPECT_EQ(spans.back()["kind"], "drive");
  EXPECT_EQ(spans.back()["stop"], plan.plan.days[0].stops.size());
  EXPECT_EQ(drawing["cars"][0]["drives"].back()["stop"], plan.plan.days[0].stops.size());
}

TEST(DayDrawing, HasTheMeetsOfThePlanWithTheirTimesAndOdds) {
  const RidePlan& plan = demo_day().plan;
  std::size_t next = 0;
  for (const auto& day : plan.plan.days) {
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const TimedStop& stop = day.stops[s];
      if (!stop.stop.option) continue;
      const Json& meet = demo_day().drawing["meets"].at(next++);
      EXPECT_EQ(meet["label"], at(plan.task.options, *stop.stop.option).label);
      EXPECT_EQ(meet["stop"], s);
      EXPECT_EQ(meet["due_s"], std::llround(stop.due.p50.time_since_epoch().count()));
      EXPECT_EQ(meet["ready_s"], std::llround(stop.ready.time_since_epoch().count()));
      EXPECT_EQ(meet["leave_by_s"].is_null(), !stop.leave_by.has_value());
      EXPECT_NEAR(meet["chance_ready"].get<double>(), stop.chance_ready, 1e-4);
    }
  }
  EXPECT_EQ(next, demo_day().drawing["meets"].size());
}

TEST(DayDrawing, LabelsEveryPassAsItsMeetWouldBe) {
  std::set<std::string> labels;
  for (const auto& point : demo_day().drawing["points"]) {
    for (const auto& pass : point["passes"]) labels.insert(pass["label"].get<std::string>());
  }
  EXPECT_EQ(labels.size(), demo_day().plan.survey.course.passes.size());
  for (const auto& option : demo_day().plan.task.options) {
    if (option.kind == RideEvent::Kind::pass) {
      EXPECT_EQ(labels.count(option.label), 1U) << option.label;
    }
  }
}

// Ten kilometres of sphere stand for ten of the ellipsoid: 0.6 % off at most, and a simplified line is a little
// shorter.
TEST(DayDrawing, SimplifiesALoopWithoutLosingItsLength) {
  for (const auto& loop : demo_day().drawing["loops"]) {
    double metres = 0;
    const auto& line = loop["line"];
    for (std::size_t i = 1; i < line.size(); ++i) {
      metres += sphere_distance({line[i - 1][1], line[i - 1][0]}, {line[i][1], line[i][0]}).value;
    }
    const double drawn = 1000 * (loop["to_km"].get<double>() - loop["from_km"].get<double>());
    EXPECT_NEAR(metres / drawn, 1.0, 0.02);
    EXPECT_EQ(loop["km_marks"].size(), static_cast<std::size_t>(drawn / 1000));
    EXPECT_FALSE(loop["heights"].empty());
  }
}

TEST(DayDrawing, DrivesFromWhereTheCarStandsToWhereItGoes) {
  const auto& drawing = demo_day().drawing;
  for (const auto& car : drawing["cars"]) {
    ASSERT_FALSE(car["drives"].empty());
    const Json* before = nullptr;
    for (const auto& drive : car["drives"]) {
      if (before != nullptr) {  // two snaps of one place, or of a place and an errand beside it
        const auto &end = (*before)["line"].back(), &start = drive["line"].front();
        EXPECT_LE(sphere_distance({end[1], end[0]}, {start[1], start[0]}).value, 1.0);
      }
      before = &drive;
    }
  }
}

TEST(DayDrawing, SaysOddsInTheWordsOfTheirShare) {
  EXPECT_EQ(odds_in_words(0.95), "all but sure");
  EXPECT_EQ(odds_in_words(0.949), "likely");
  EXPECT_EQ(odds_in_words(0.8), "likely");
  EXPECT_EQ(odds_in_words(0.5), "even");
  EXPECT_EQ(odds_in_words(0.499), "unlikely");
}

TEST(PlanChanges, FitTheirSchema) {
  if (!has_jsonschema()) GTEST_SKIP() << "python3-jsonschema is not installed";
  FreshFolder folder;
  const auto later = planned_with([](Ride& ride) { ride.start += minutes(30); });
  EXPECT_EQ(validated(folder, "plan-changes-1.json", plan_changes_json(demo_day().plan, later).dump()), "valid\n");
}

TEST(PlanChanges, AreNoneBetweenAPlanAndItself) {
  const Json changes = plan_changes_json(demo_day().plan, demo_day().plan);
  EXPECT_EQ(changes["worth_change_points"], 0.0);
  EXPECT_EQ(changes["driven_change_km"], 0.0);
  EXPECT_EQ(changes["sentences"].size(), 1U);
  EXPECT_TRUE(changes["meets_gained"].empty() && changes["meets_lost"].empty() && changes["chances"].empty());
}

TEST(PlanChanges, TellALostMeetThatBecomesAGainTheOtherWayRound) {
  const std::string point = demo_day().plan.passes.front().name;
  ASSERT_TRUE(demo_day().plan.passes.front().is_met);
  const auto without = planned_with([&point](Ride& ride) {
    for (auto& typed : ride.crew_points) typed.is_closed = typed.is_closed || typed.name == point;
  });
  const std::string label = point + " loop 1";
  EXPECT_THAT(plan_changes_json(demo_day().plan, without)["meets_lost"], testing::Contains(label));
  EXPECT_THAT(plan_changes_json(without, demo_day().plan)["meets_gained"], testing::Contains(label));
}

TEST(PlanChanges, MatchMeetsByTheirLabelsWhenACrewPointIsGone) {
  const std::string gone = demo_day().plan.survey.course.crew_points.front().name;
  const auto without = planned_with([&gone](Ride& ride) {
    std::erase_if(ride.crew_points, [&gone](const RideCrewPoint& point) { return point.name == gone; });
    std::erase_if(ride.wishes, [&gone](const PassWish& wish) { return wish.crew_point == gone; });
  });
  const PlanChanges changes = changes_between(demo_day().plan, without);
  for (const auto& meet : changes.meets) {
    if (meet.label.rfind(gone, 0) == 0) {
      EXPECT_FALSE(meet.after) << meet.label;
    }
  }
}

TEST(PlanChanges, SayHowMuchLaterTheDayIs) {
  const auto later = planned_with([](Ride& ride) { ride.start += minutes(30); });
  const auto changes = changes_between(demo_day().plan, later);
  const std::string horse = demo_day().plan.ride.horses[0].name;
  EXPECT_THAT(changes.sentences,
              testing::Contains(testing::MatchesRegex(horse + " is due at the finish [23][0-9] min later")));
}

}  // namespace
}  // namespace outbye
