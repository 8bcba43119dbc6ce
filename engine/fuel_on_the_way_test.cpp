#include "engine/fuel_on_the_way.h"

#include <gtest/gtest.h>

#include "core/roads/road_builder.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using test::from_venue;

Instant seven() { return std::chrono::sys_days{std::chrono::year{2026} / 6 / 13} + std::chrono::hours{7}; }

// One car that drives 10 km north from the venue to Ash in 20 minutes, and 10 km back.
RidePlan there_and_back() {
  RidePlan plan;
  plan.places = {{"Venue", test::small_venue, {}, "", {}, ""}, {"Ash", from_venue(kilometres(10), {}), {}, "", {}, ""}};
  CarDay day;
  plan.routes.resize(1);
  for (const std::uint32_t to : {1U, 0U}) {
    TimedStop stop;
    stop.place = PlaceId{to};
    stop.drive = {minutes(20), kilometres(10)};
    stop.drive_planned = minutes(20);
    stop.depart = seven() + (to == 1 ? Seconds{0} : minutes(60));
    day.stops.push_back(stop);
    Route route;
    route.drive = stop.drive;
    route.geometry = {plan.places[1 - to].position, plan.places[to].position};
    plan.routes[0].push_back(route);
  }
  plan.plan.days = {day};
  return plan;
}

RoadGraph roads_with(const std::vector<std::pair<std::string, Position>>& pumps) {
  RoadBuilder builder;
  const std::uint32_t points[] = {builder.add_point(test::small_venue),
                                  builder.add_point(from_venue(kilometres(10), {}))};
  RoadAttributes attributes;
  attributes.forward = attributes.backward = 50;
  builder.add_way(1, points, attributes, builder.name("A1"));
  for (const auto& [name, position] : pumps) builder.add_pump({fixed_position(position), builder.name(name)});
  return *builder.build();
}

TEST(PumpsOnTheWay, SayWhereAndWhenACarPassesFirst) {
  const RoadGraph roads = roads_with({{"Hill Garage", from_venue(kilometres(4), Metres{200})}});
  const auto pumps = pumps_on_the_way(there_and_back(), &roads);
  ASSERT_EQ(pumps.size(), 1U);
  EXPECT_EQ(pumps[0].name, "Hill Garage");
  EXPECT_FALSE(pumps[0].is_marked);
  EXPECT_NEAR(pumps[0].off.value, 200, 2);
  EXPECT_NEAR(pumps[0].driven.value, 4000, 30);
  EXPECT_NEAR((pumps[0].at - (seven() + minutes(8))).count(), 0, 5);
  EXPECT_EQ(pumps[0].drive_to, "Ash");
}

TEST(PumpsOnTheWay, GoByTheNearestWhereNoneIsBesideADrive) {
  const RoadGraph roads = roads_with({{"Far", from_venue(kilometres(4), kilometres(4))},
                                      {"Near", from_venue(kilometres(8), kilometres(2))},
                                      {"Too far", from_venue(kilometres(4), kilometres(7))}});
  const auto pumps = pumps_on_the_way(there_and_back(), &roads);
  ASSERT_EQ(pumps.size(), 1U);
  EXPECT_EQ(pumps[0].name, "Near");
}

TEST(PumpsOnTheWay, KeepWhatTheRideMarksAndDoNotRepeatItFromTheMap) {
  RidePlan plan = there_and_back();
  RideRefill marked;
  marked.name = "Our pump";
  marked.fuel = true;
  marked.position = from_venue(kilometres(6), Metres{100});
  plan.ride.refills = {marked};
  const RoadGraph roads = roads_with({{"The same", from_venue(kilometres(6), Metres{130})}});
  const auto pumps = pumps_on_the_way(plan, &roads);
  ASSERT_EQ(pumps.size(), 1U);
  EXPECT_EQ(pumps[0].name, "Our pump");
  EXPECT_TRUE(pumps[0].is_marked);
}

TEST(PumpsOnTheWay, NameAMarkedOneWithoutRoads) {
  RidePlan plan = there_and_back();
  plan.routes.clear();
  RideRefill marked;
  marked.name = "Our pump";
  marked.fuel = true;
  plan.ride.refills = {marked};
  const auto pumps = pumps_on_the_way(plan, nullptr);
  ASSERT_EQ(pumps.size(), 1U);
  EXPECT_FALSE(pumps[0].car);
}

}  // namespace
}  // namespace outbye
