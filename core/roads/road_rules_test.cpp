#include "core/roads/road_rules.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace outbye {
namespace {

// "highway=primary maxspeed=30_mph": an underscore stands for a space.
struct WrittenTags {
  std::vector<std::pair<std::string, std::string>> text;
  std::vector<Tag> tags;
  explicit WrittenTags(std::string_view line) {
    std::string word;
    const auto flush = [&] {
      if (word.empty()) return;
      const std::size_t cut = word.find('=');
      std::string value = word.substr(cut + 1);
      for (char& c : value)
        if (c == '~') c = ' ';
      text.emplace_back(word.substr(0, cut), value);
      word.clear();
    };
    for (const char c : line)
      if (c == ' ')
        flush();
      else
        word += c;
    flush();
    for (const auto& [key, value] : text) tags.emplace_back(key, value);
  }
};

struct Expected {
  const char* tags;
  double forward;  // km/h, 0: closed
  double backward;
};

void check(const std::vector<Expected>& rows, const RoadOptions& options) {
  for (const Expected& row : rows) {
    const auto road = interpret_way(WrittenTags(row.tags).tags, options);
    EXPECT_NEAR(road ? road->forward : 0, row.forward, 0.01) << row.tags;
    EXPECT_NEAR(road ? road->backward : 0, row.backward, 0.01) << row.tags;
  }
}

TEST(WayRules, OpenTheClassesACarUsesAndNoOthers) {
  check({{"highway=motorway", 112, 0},
         {"highway=trunk_link", 96, 96},
         {"highway=primary", 96, 96},
         {"highway=secondary", 88, 88},
         {"highway=tertiary", 80, 80},
         {"highway=unclassified", 64, 64},
         {"highway=residential", 48, 48},
         {"highway=service", 32, 32},
         {"highway=footway", 0, 0},
         {"highway=path", 0, 0},
         {"highway=bridleway", 0, 0},
         {"highway=cycleway", 0, 0},
         {"highway=pedestrian", 0, 0},
         {"highway=steps", 0, 0},
         {"highway=construction", 0, 0},
         {"highway=proposed", 0, 0},
         {"highway=raceway", 0, 0},
         {"building=yes", 0, 0},
         {"highway=living_street", 32.19, 32.19}},
        {});
}

TEST(WayRules, LetTheMostSpecificAccessKeyDecide) {
  check({{"highway=service access=private", 0, 0},
         {"highway=service access=no motor_vehicle=yes", 32, 32},
         {"highway=service access=yes motor_vehicle=no", 0, 0},
         {"highway=service motor_vehicle=no motorcar=yes", 32, 32},
         {"highway=service vehicle=no", 0, 0},
         {"highway=service vehicle=no motor_vehicle=destination", 32, 32},
         {"highway=service motor_vehicle=agricultural", 0, 0},
         {"highway=service motor_vehicle=agricultural;forestry", 0, 0},
         {"highway=service motor_vehicle=agricultural;destination", 32, 32},
         {"highway=service access=permissive", 32, 32},
         {"highway=service access=customers", 32, 32},
         {"highway=service access=delivery", 0, 0},
         {"highway=service access=military", 0, 0},
         {"highway=service foot=no bicycle=no", 32, 32},
         {"highway=service service=emergency_access", 0, 0}},
        {});
}

TEST(WayRules, NoteAccessOnlyForThoseWithBusinessThere) {
  EXPECT_TRUE(interpret_way(WrittenTags("highway=residential motor_vehicle=destination").tags, {})->destination_only);
  EXPECT_FALSE(interpret_way(WrittenTags("highway=residential motor_vehicle=yes").tags, {})->destination_only);
}

TEST(WayRules, KnowOneWaysAndTheirExceptions) {
  check({{"highway=tertiary oneway=yes", 80, 0},
         {"highway=tertiary oneway=true", 80, 0},
         {"highway=tertiary oneway=1", 80, 0},
         {"highway=tertiary oneway=-1", 0, 80},
         {"highway=tertiary oneway=no", 80, 80},
         {"highway=tertiary oneway=reversible", 0, 0},
         {"highway=tertiary oneway=alternating", 80, 80},
         {"highway=tertiary junction=roundabout", 80, 0},
         {"highway=tertiary junction=circular", 80, 0},
         {"highway=tertiary junction=roundabout oneway=no", 80, 80},
         {"highway=tertiary oneway=yes oneway:bicycle=no", 80, 0},
         {"highway=tertiary oneway=yes oneway:motorcar=no", 80, 80},
         {"highway=tertiary oneway=no oneway:motor_vehicle=yes", 80, 0},
         {"highway=tertiary motor_vehicle:backward=no", 80, 0},
         {"highway=tertiary vehicle:forward=no", 0, 80},
         {"highway=motorway oneway=no", 112, 112},
         {"highway=motorway_link", 112, 112}},
        {});
}

TEST(WayRules, NeverPlanFasterThanALimit) {
  check({{"highway=primary maxspeed=50", 50, 50},
         {"highway=primary maxspeed=30~mph", 48.28, 48.28},
         {"highway=primary maxspeed=200", 96, 96},
         {"highway=primary maxspeed=none", 96, 96},
         {"highway=primary maxspeed=walk", 7, 7},
         {"highway=primary maxspeed=50;30", 30, 30},
         {"highway=primary maxspeed=60 maxspeed:forward=40", 40, 60},
         {"highway=primary maxspeed:backward=20~mph", 96, 32.19},
         {"highway=primary maxspeed=signals", 96, 96},
         {"highway=primary maxspeed=GB:urban", 48.28, 48.28},
         {"highway=primary maxspeed:type=GB:nsl_restricted", 48.28, 48.28},
         {"highway=primary source:maxspeed=GB:zone20", 32.19, 32.19}},
        {});
  RoadOptions germany;
  germany.country = "DE";
  check({{"highway=living_street", 7, 7},
         {"highway=tertiary zone:traffic=DE:urban", 50, 50},
         {"highway=tertiary maxspeed=DE:zone30", 30, 30},
         {"highway=motorway", 112, 0}},
        germany);
  RoadOptions france;
  france.country = "FR";
  check({{"highway=primary", 80, 80}, {"highway=trunk oneway=yes", 96, 0}}, france);
}

TEST(WayRules, AdmitTracksThatACarCanManage) {
  check({{"highway=track", 0, 0},
         {"highway=track tracktype=grade1", 30, 30},
         {"highway=track tracktype=grade2", 20, 20},
         {"highway=track tracktype=grade3", 0, 0},
         {"highway=track surface=asphalt", 30, 30},
         {"highway=track surface=grass", 0, 0},
         {"highway=track motor_vehicle=permissive", 30, 30},
         {"highway=track motor_vehicle=forestry tracktype=grade1", 0, 0},
         {"highway=track tracktype=grade2 smoothness=very_bad", 0, 0},
         {"highway=unclassified 4wd_only=yes", 0, 0}},
        {});
  RoadOptions any, never;
  any.tracks = RoadOptions::Tracks::any;
  never.tracks = RoadOptions::Tracks::never;
  check({{"highway=track", 30, 30}, {"highway=track tracktype=grade5", 5, 5}}, any);
  check({{"highway=track tracktype=grade1", 0, 0}}, never);
}

TEST(WayRules, SlowDownOnPoorSurfaces) {
  check({{"highway=unclassified surface=gravel", 40, 40},
         {"highway=unclassified surface=asphalt", 64, 64},
         {"highway=unclassified smoothness=bad", 40, 40},
         {"highway=unclassified smoothness=impassable", 0, 0}},
        {});
}

TEST(WayRules, PlainClassSpeedsUseNothingButClassAndTaggedLimit) {
  RoadOptions plain;
  plain.speeds = plain_class_speeds();
  plain.country = "FR";
  check({{"highway=primary", 96, 96},
         {"highway=living_street", 48, 48},
         {"highway=unclassified surface=mud", 64, 64},
         {"highway=unclassified maxspeed=30", 30, 30},
         {"highway=primary source:maxspeed=FR:urban", 96, 96},
         {"highway=track tracktype=grade1", 0, 0}},
        plain);
}

TEST(WayRules, LeaveFerriesOutUnlessAskedFor) {
  check({{"route=ferry motor_vehicle=yes", 0, 0}}, {});
  RoadOptions options;
  options.ferries = true;
  check({{"route=ferry motor_vehicle=yes", 10, 10}, {"route=ferry foot=yes", 0, 0}}, options);
}

TEST(Limits, AreReadAsTagged) {
  EXPECT_DOUBLE_EQ(parse_limit("30 mph")->value, 48.28032);
  EXPECT_DOUBLE_EQ(parse_limit("30mph")->value, 48.28032);
  EXPECT_DOUBLE_EQ(parse_limit("10 knots")->value, 18.52);
  EXPECT_DOUBLE_EQ(parse_limit("50 km/h")->value, 50);
  EXPECT_DOUBLE_EQ(parse_limit("RO:rural")->value, 90);
  EXPECT_DOUBLE_EQ(parse_limit("GB:nsl_single")->value, 96.56064);
  EXPECT_DOUBLE_EQ(parse_limit("GB_nsl:single")->value, 96.56064);
  EXPECT_DOUBLE_EQ(parse_limit("UK:nsl_dual")->value, 112.65408);
  EXPECT_TRUE(std::isinf(parse_limit("DE:motorway")->value));
  EXPECT_TRUE(std::isinf(parse_limit("none")->value));
  for (const char* text : {"", "signals", "variable", "fast", "0", "-5", "50 leagues", "DE:", "sign", "5000"})
    EXPECT_FALSE(parse_limit(text)) << text;
}

TEST(NationalLimits, AreWholeSortedAndInOrder) {
  const auto table = national_limits_table();
  for (std::size_t i = 0; i + 1 < table.size(); ++i) {
    EXPECT_EQ(table[i].country.size(), 2U);
    EXPECT_EQ(&national_limits(table[i].country), &table[i]) << table[i].country;
    EXPECT_LE(table[i].living_street, table[i].town);
    EXPECT_LE(table[i].town, table[i].open_road);
    EXPECT_LE(table[i].open_road, table[i].dual_carriageway);
    EXPECT_LE(table[i].dual_carriageway, table[i].motorway);
    EXPECT_FALSE(table[i].source.empty());
  }
  EXPECT_EQ(national_limits("XX").country, "");
  EXPECT_GT(national_limits("XX").town, 0);
}

TEST(Barriers, StopACarUnlessTheyOpenForIt) {
  using enum NodeBarrier;
  const std::vector<std::pair<const char*, NodeBarrier>> rows{{"highway=crossing", open},
                                                              {"barrier=gate", gate},
                                                              {"barrier=gate access=private", blocked},
                                                              {"barrier=gate motor_vehicle=no", blocked},
                                                              {"barrier=gate access=no motor_vehicle=permissive", gate},
                                                              {"barrier=gate locked=yes", blocked},
                                                              {"barrier=lift_gate", gate},
                                                              {"barrier=bollard", blocked},
                                                              {"barrier=bollard motor_vehicle=yes", open},
                                                              {"barrier=bollard bicycle=yes", blocked},
                                                              {"barrier=cattle_grid", open},
                                                              {"barrier=toll_booth", open},
                                                              {"barrier=stile", blocked},
                                                              {"barrier=kissing_gate", blocked},
                                                              {"barrier=cycle_barrier", blocked},
                                                              {"barrier=entrance", open}};
  for (const auto& [tags, expected] : rows) EXPECT_EQ(interpret_node(WrittenTags(tags).tags), expected) << tags;
}

TEST(RestrictionTags, ConcernCarsOrNot) {
  using Kind = RestrictionTag::Kind;
  const auto read = [](const char* tags) { return interpret_restriction(WrittenTags(tags).tags); };
  EXPECT_EQ(read("restriction=no_left_turn").restriction->kind, Kind::no);
  EXPECT_EQ(read("restriction=only_straight_on").restriction->kind, Kind::only);
  EXPECT_EQ(read("restriction:motorcar=no_right_turn").restriction->kind, Kind::no);
  EXPECT_FALSE(read("restriction=no_left_turn except=bicycle;motorcar").restriction);
  EXPECT_FALSE(read("restriction=no_left_turn except=motor_vehicle").restriction);
  EXPECT_TRUE(read("restriction=no_left_turn except=psv").restriction);
  EXPECT_FALSE(read("restriction:hgv=no_left_turn").restriction);
  EXPECT_TRUE(read("restriction:conditional=no_left_turn~@~(Mo-Fr)").is_conditional);
  EXPECT_TRUE(read("restriction=no_left_turn hour_on=07:00").is_conditional);
  EXPECT_TRUE(read("restriction=perhaps").is_unknown);
}

TEST(RoadLabel, JoinsNameAndNumber) {
  EXPECT_EQ(road_label(WrittenTags("name=Mill~Lane ref=B640").tags), "Mill Lane (B640)");
  EXPECT_EQ(road_label(WrittenTags("ref=A606").tags), "A606");
  EXPECT_EQ(road_label(WrittenTags("highway=service").tags), "");
}

}  // namespace
}  // namespace outbye
