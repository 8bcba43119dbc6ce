#include "formats/packed_ride/packed_ride.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/text.h"
#include "formats/plan_json/plan_json.h"
#include "formats/rule_book/rule_book_file.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;

// The small ride with a bit of everything that a plan can hold: two horses and cars, an errand, rules, weather.
RideInputs full_inputs() {
  RideInputs inputs = test::small_inputs();
  Ride& ride = inputs.ride;
  ride.clock = {"Europe/London", {{ride.start - Seconds{86400.0 * 300}, std::chrono::minutes{60}}}};
  ride.course_files = {"small.gpx"};
  ride.weather_file = "weather.csv";
  ride.horses.push_back({"Brimstone", "Ann", "5", Seconds{0}, std::nullopt});
  ride.horses.push_back({"Juno", "Bea", "6", minutes(20), std::nullopt});
  ride.cars.resize(2);
  ride.cars[0].name = "Van";
  ride.cars[1].name = "Estate";
  ride.cars[1].back_by = ride.start + minutes(600);
  ride.errands.push_back({"Ice", test::from_venue(Metres{500}, Metres{700}), minutes(5), 0.5, {}});
  ride.weather = {
      {ride.start, Celsius{21.5}, Percent{60}, MetresPerSecond{2.5}, WattsPerSquareMetre{640}, 0.25, {}, {}},
      {ride.start + minutes(180), Celsius{29}, Percent{55}, {}, {}, {}, {}, {}},
      {ride.start + minutes(360), Celsius{31}, Percent{50}, {}, {}, {}, {}, {}}};
  ride.rules.emplace();
  ride.rules->book = "british";
  ride.rules->level = preset_books()[1].levels.front().name;
  inputs.rule_books = preset_books();
  DriveTable drives({"Venue", "Ash", "Birch", "Cedar", "Damson", "Ice"});
  for (std::uint32_t i = 0; i < drives.size(); ++i) {
    for (std::uint32_t j = 0; j < drives.size(); ++j) {
      const double time = 8.1 + 0.3 * i + 0.7 * j;
      if (i != j && !(i == 3 && j == 1)) drives.set(PlaceId{i}, PlaceId{j}, Drive{minutes(time), kilometres(time)});
    }
  }
  inputs.drive_times = drives;
  return inputs;
}

struct Packed {
  RideInputs inputs = full_inputs();
  RidePlan plan;
  std::string text;
};
const Packed& full() {
  static const Packed made = [] {
    Packed packed;
    auto plan = plan_ride(packed.inputs);
    EXPECT_TRUE(plan) << plan.error().where << " " << plan.error().what;
    packed.plan = std::move(*plan);
    packed.text = *packed_ride(packed.inputs, packed.plan);
    return packed;
  }();
  return made;
}

// The document with one part replaced, and what is said of it.
std::string said_of(const char* pointer, const Json& value) {
  Json document = Json::parse(full().text);
  document[Json::json_pointer(pointer)] = value;
  const auto opened = open_packed_ride(document.dump());
  return opened ? "" : opened.error().where + " " + opened.error().what;
}

TEST(PackedRide, BringsBackThePlanAsItWas) {
  const auto opened = open_packed_ride(full().text);
  ASSERT_TRUE(opened) << opened.error().where << " " << opened.error().what;
  EXPECT_EQ(write_plan_json(*opened, {}), write_plan_json(full().plan, {}));
}

TEST(PackedRide, BringsBackTheSimulatedDaysToTheBit) {
  const auto opened = open_packed_ride(full().text);
  ASSERT_TRUE(opened);
  ASSERT_EQ(opened->task.horses.size(), 2u);
  for (std::size_t h = 0; h < 2; ++h) {
    EXPECT_EQ(opened->task.horses[h].base, full().plan.task.horses[h].base);
    EXPECT_EQ(opened->task.horses[h].stand, full().plan.task.horses[h].stand);
  }
}

TEST(PackedRide, BringsBackErrandsAndWhatWasLeftOut) {
  const auto opened = open_packed_ride(full().text);
  ASSERT_TRUE(opened);
  const ErrandPlan& before = full().plan.errands;
  ASSERT_EQ(opened->errands.cars.size(), before.cars.size());
  std::size_t run = before.left_out.size();
  for (std::size_t c = 0; c < before.cars.size(); ++c) {
    ASSERT_EQ(opened->errands.cars[c].stops.size(), before.cars[c].stops.size());
    run += before.cars[c].stops.size();
    for (std::size_t s = 0; s < before.cars[c].stops.size(); ++s) {
      EXPECT_EQ(opened->errands.cars[c].stops[s].latest_start, before.cars[c].stops[s].latest_start);
    }
  }
  EXPECT_EQ(run, 1u);  // the one errand is run or left out
}

TEST(PackedRide, IsTheSameAgainWhenWhatWasOpenedIsPacked) {
  const auto opened = open_packed_ride(full().text);
  ASSERT_TRUE(opened);
  RideInputs inputs = full().inputs;
  EXPECT_EQ(*packed_ride(inputs, *opened), full().text);
}

TEST(PackedRide, TakesAPlanThatNoSearchWouldChoose) {
  Packed mine = full();
  mine.plan.plan.days[0].stops.clear();
  mine.plan.errands = {};
  const auto text = packed_ride(mine.inputs, mine.plan);
  ASSERT_TRUE(text);
  const auto opened = open_packed_ride(*text);
  ASSERT_TRUE(opened) << opened.error().what;
  EXPECT_TRUE(opened->plan.days[0].stops.empty());
  EXPECT_FALSE(opened->plan.days[1].stops.empty());
}

TEST(PackedRide, BringsBackWhatKitIsNeededWhen) {
  KitEntry buckets;
  buckets.item.name = "Bucket 12 L";
  buckets.item.needed = {KitNeed::pass, KitNeed::not_on_the_road};
  buckets.count = 2;
  const auto text = packed_ride(full().inputs, full().plan, {buckets});
  ASSERT_TRUE(text);
  const auto day = open_packed_day(Json::parse(*text));
  ASSERT_TRUE(day);
  ASSERT_EQ(day->kit.size(), 1u);
  EXPECT_EQ(day->kit[0].item.name, "Bucket 12 L");
  EXPECT_EQ(day->kit[0].count, 2u);
  EXPECT_EQ(day->kit[0].item.needed, buckets.item.needed);
}

TEST(PackedRide, HoldsNoFileOfTheCoursesOrHeights) {
  EXPECT_LT(full().text.size(), 120'000u);
  EXPECT_EQ(Json::parse(full().text)["ride"]["files"].value("weather", ""), "");
}

TEST(PackedRide, NamesWhatIsWrongAndWhere) {
  EXPECT_THAT(said_of("/format", "outbye plan"), HasSubstr("is some other file"));
  EXPECT_THAT(said_of("/version", 2), HasSubstr("another version"));
  EXPECT_THAT(said_of("/plan", nullptr), HasSubstr("packed ride: plan is not an object"));
  EXPECT_THAT(said_of("/plan/days/0/stops/0/depart", "six"), HasSubstr("plan.days[0].stops[0].depart is not a number"));
  EXPECT_THAT(said_of("/plan/days/0/stops/0/kind", "fly"),
              HasSubstr("plan.days[0].stops[0].kind is none of the words"));
  EXPECT_THAT(said_of("/plan/days/0/stops/0/option", 900), HasSubstr("not among the options"));
  EXPECT_THAT(said_of("/plan/days/0/stops/0/place", 60), HasSubstr("place without drives"));
  EXPECT_THAT(said_of("/plan/weakest", 900), HasSubstr("weakest"));
  EXPECT_THAT(said_of("/plan/days", Json::array()), HasSubstr("one day for each car"));
  EXPECT_THAT(said_of("/course/loops/0/along/3", 1e9), HasSubstr("does not go on at point 5"));
  EXPECT_THAT(said_of("/course/loops/0/lat", Json::array()), HasSubstr("columns of different lengths"));
  EXPECT_THAT(said_of("/course/loops", Json::array()), HasSubstr("has no loop"));
  EXPECT_THAT(said_of("/course/passes/0/loop", 7), HasSubstr("is not there"));
  EXPECT_THAT(said_of("/drives/0", Json::array()), HasSubstr("row and a column"));
  EXPECT_THAT(said_of("/places", Json::array()), HasSubstr("row and a column"));
  EXPECT_THAT(said_of("/ride/start", "never"), HasSubstr("start"));
  EXPECT_THAT(said_of("/rule_books", Json::array()), HasSubstr("is no rule book"));
}

TEST(PackedRide, RefusesTextThatIsCutOff) {
  const auto opened = open_packed_ride(full().text.substr(0, full().text.size() / 2));
  ASSERT_FALSE(opened);
  EXPECT_THAT(opened.error().what, HasSubstr("is not JSON"));
}

TEST(PackedRide, RefusesANumberWithoutEnd) {
  Packed mine = full();
  mine.plan.plan.value.gap = std::numeric_limits<double>::infinity();
  EXPECT_FALSE(packed_ride(mine.inputs, mine.plan));
}

}  // namespace
}  // namespace outbye
