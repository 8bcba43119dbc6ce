#include "formats/pack/page_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "core/jobs/stop_task.h"
#include "formats/kit_catalogue/kit_catalogue.h"
#include "formats/picture/sketch.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using ::testing::AnyOf;
using ::testing::HasSubstr;

// The small ride, planned, with what a ride file says of cars, helpers and one crew point.
RidePlan crewed_plan() {
  RideInputs inputs = test::small_inputs();
  Ride& ride = inputs.ride;
  ride.cars.emplace_back().name = "Van";
  for (const char* name : {"Ann", "Bob"}) {
    RideHelper& helper = ride.helpers.emplace_back();
    helper.name = name;
    helper.skills = {skill_holds_horse, skill_first_aid, skill_driver, skill_lifts, skill_pulse, skill_tack};
  }
  for (const char* name : {"Ash", "Birch", "Cedar", "Damson"}) ride.crew_points.emplace_back().name = name;
  RideCrewPoint& point = ride.crew_points[0];
  point.note = "narrow lane";
  point.hazards = {{"wire", test::from_venue(Metres{3100}, Metres{3300})}, {"deep ditch", std::nullopt}};
  point.photos = {{"ford.jpg", "the ford"}, {"lost.jpg", "the gate"}};
  return *plan_ride(inputs);
}

// Few placements are tried: the load is planned for its shape here.
LoadSearch short_search() {
  LoadSearch search;
  search.max_evaluations = 200'000;
  return search;
}

struct Packed {
  RidePlan plan = crewed_plan();
  PaperParts parts =
      work_out_parts(plan, preset_kit(), {std::begin(all_sheets), std::end(all_sheets)}, nullptr, short_search);
  Json page = page_json({plan,
                         parts,
                         nullptr,
                         {{"crew-book", "Crew book", "sheets/crew-book.pdf", 10}},
                         "day.ics",
                         [](const std::string& file) { return file == "ford.jpg" ? "photos/1-ford.jpg" : ""; },
                         {}},
                        plan.ride.start - minutes(600));
};

const Packed& packed() {
  static const Packed one;
  return one;
}

TEST(PageJson, HasAMapOfTheAreaAndOneOfEachPlace) {
  const Json& page = packed().page;
  ASSERT_EQ(page["maps"].size(), page["places"].size() + 1);
  EXPECT_TRUE(page["maps"][0]["place"].is_null());
  for (std::size_t p = 0; p < page["places"].size(); ++p) {
    EXPECT_EQ(page["maps"][p + 1]["place"], page["places"][p]["name"]);
  }
}

TEST(PageJson, SaysWhatTheRideFileSaysOfAPlace) {
  const Json& place = packed().page["places"][1];
  EXPECT_EQ(place["note"], "narrow lane");
  ASSERT_EQ(place["hazards"].size(), 2U);
  EXPECT_EQ(place["hazards"][0]["what"], "wire");
  EXPECT_NEAR(place["hazards"][0]["position"][0].get<double>(), test::small_venue.latitude + 3100 / 111'320.0, 1e-6);
  EXPECT_TRUE(place["hazards"][1]["position"].is_null());
}

TEST(PageJson, LeavesOutAPhotoThatIsNotThere) {
  const Json& photos = packed().page["places"][1]["photos"];
  ASSERT_EQ(photos.size(), 1U);
  EXPECT_EQ(photos[0]["file"], "photos/1-ford.jpg");
  EXPECT_EQ(photos[0]["alt"], "the ford");
}

TEST(PageJson, HasAStopForEachMeetInOrderOfTime) {
  const auto& [plan, parts, page] = packed();
  ASSERT_EQ(page["stops"].size(), plan.plan.days[0].stops.size());
  std::string before;
  for (const Json& stop : page["stops"]) {
    EXPECT_LE(before, stop["arrive"].get<std::string>());
    before = stop["arrive"].get<std::string>();
  }
}

TEST(PageJson, GivesEachPersonAndTheRiderACardAtEachStop) {
  for (const Json& stop : packed().page["stops"]) {
    if (stop["cards"].empty()) {
      EXPECT_FALSE(stop["notes"].empty());
      continue;
    }
    ASSERT_EQ(stop["cards"].size(), 3U) << stop["label"];
    EXPECT_EQ(stop["cards"][0]["who"], "Ann");
    EXPECT_EQ(stop["cards"][2]["who"], "rider");
  }
}

TEST(PageJson, SaysOfEachThingToGetOutWhereItLies) {
  ASSERT_TRUE(packed().parts.load);
  std::size_t things = 0;
  for (const Json& stop : packed().page["stops"]) {
    std::size_t moved = 0;
    for (const Json& thing : stop["get_out"]) {
      EXPECT_THAT(thing["where"].get<std::string>(), AnyOf(HasSubstr("step "), "beside the boot")) << thing;
      EXPECT_GE(thing["moved_first"].size(), moved) << "what is reached first comes first";
      moved = thing["moved_first"].size();
      ++things;
    }
  }
  EXPECT_GT(things, 10U);
}

TEST(PageJson, GetsOutAtAStopWhatTheKitListNeedsThereAndNothingElse) {
  const auto& [plan, parts, page] = packed();
  for (const Json& stop : page["stops"]) {
    std::set<std::string> needed, out;
    for (const KitEntry& entry : parts.kit->list.taken) {
      for (const KitNeed need : entry.item.needed) {
        if (kit_need_word(need) == stop["kind"].get<std::string>()) needed.insert(entry.item.name);
      }
    }
    for (const Json& thing : stop["get_out"]) {
      std::vector<std::string> names = thing["contents"];
      if (names.empty()) names = {thing["name"]};
      for (const std::string& name : names) {
        const auto whose = std::find_if(needed.begin(), needed.end(),
                                        [&](const std::string& one) { return name.find(one) != std::string::npos; });
        EXPECT_NE(whose, needed.end()) << name << " at " << stop["label"];
        if (whose != needed.end()) out.insert(*whose);
      }
    }
    // What stays at home is left out; nests go by the name of their outermost.
    EXPECT_GE(out.size() + parts.load->elsewhere.size() + 3, needed.size()) << stop["label"];
    EXPECT_GT(out.size(), 3U);
  }
}

TEST(PageJson, SaysInTheKitListWhereEachPieceIs) {
  std::size_t placed = 0, pieces = 0;
  for (const Json& group : packed().page["kit"]["groups"]) {
    for (const Json& thing : group["things"]) placed += thing["where"].size();
  }
  for (const CarLoad& car : packed().parts.load->cars) pieces += car.load.placements.size();
  EXPECT_GE(placed, pieces);  // buckets in one another are several things in one place
}

TEST(PageJson, HasNoStopsPeopleOrKitWhereNothingIsKnownAndSaysWhy) {
  const RidePlan plan = sketch_plan({.cars = 0});
  PaperParts parts;
  parts.problems = {{Problem::Kind::bad_input, "kit", "has no figures"}};
  const Json page = page_json({plan, parts, nullptr, {}, "", {}, {"one more"}}, plan.ride.start);
  EXPECT_TRUE(page["stops"].empty());
  EXPECT_TRUE(page["kit"]["groups"].empty());
  EXPECT_THAT(page["notes"].dump(), HasSubstr("kit has no figures"));
  EXPECT_EQ(page["notes"].back(), "one more");
}

TEST(RideKey, StaysWhenTheRideIsPlannedAnew) {
  Ride ride = crewed_plan().ride;
  const std::string key = ride_key(ride);
  EXPECT_EQ(key.size(), 16U);
  ride.setup = minutes(9);
  ride.start += minutes(30);
  EXPECT_EQ(ride_key(ride), key);
}

TEST(RideKey, IsAnotherOnAnotherDay) {
  Ride ride = crewed_plan().ride;
  const std::string key = ride_key(ride);
  ride.start += minutes(24 * 60);
  EXPECT_NE(ride_key(ride), key);
}

}  // namespace
}  // namespace outbye
