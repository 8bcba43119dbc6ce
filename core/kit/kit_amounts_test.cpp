#include "core/kit/kit_amounts.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/random.h"
#include "core/base/water_physics.h"
#include "core/kit/kit_facts_for_test.h"
#include "core/welfare/cooling.h"
#include "core/welfare/drinking.h"

namespace outbye {
namespace {

using testing::Contains;
using testing::HasSubstr;

double value_of(const KitFacts& facts, const char* id, const KitSettings& settings = {}) {
  return find_amount(kit_amounts(facts, settings), id)->value;
}
Amount amount_of(const KitFacts& facts, const char* id, const KitSettings& settings = {}) {
  return *find_amount(kit_amounts(facts, settings), id);
}

// 5 stops x 7.6 L drunk at most, and 3.8 L more that make one offer of 11.4 L full (7.6-11.4 L a drink in the field:
// common practice, no source).
TEST(DrinkingWater, IsWhatIsTakenAndOneFullOffer) {
  EXPECT_DOUBLE_EQ(value_of(small_day(), "drinking-water"), 5 * 7.6 + 3.8);
}

TEST(CoolingWater, IsTheSumOfWhatIsPoured) {
  EXPECT_DOUBLE_EQ(value_of(small_day(HeatBand::comfortable, {6}), "cooling-water"), 30.0);
}

// Washing: two gates at 4 L and three passes at 0.5 L (common practice, no source).
TEST(WashingWater, CountsGatesAndPasses) { EXPECT_DOUBLE_EQ(value_of(small_day(), "washing-water"), 9.5); }

// Of 61.8 L a tenth is 6.2 L, so the drink of 8 L for another's horse is the more.
TEST(SpareWater, IsAtLeastOneDrink) { EXPECT_DOUBLE_EQ(value_of(small_day(), "spare-water"), 8.0); }

// From the venue to the gate: Ford and Barn, each 7.6 drunk + 4 poured + 0.5 washed, 3.8 to fill the last offer, 8
// spare.
TEST(CarriedWater, IsTheMostBetweenTwoTaps) {
  EXPECT_DOUBLE_EQ(value_of(small_day(), "carried-water"), 2 * 12.1 + 3.8 + 8.0);
}

TEST(CarriedWater, IsLessWhereTheCarFillsUpOnTheWay) {
  KitFacts facts = small_day();
  facts.stops[1].refilled_before = true;
  EXPECT_DOUBLE_EQ(value_of(facts, "carried-water"), 12.1 + 3.8 + 8.0);
}

// 25 L from 25 to 10 degrees take 4.17 kg of ice (derived from 333.6 kJ/kg and 4.186 kJ/kg/K, both from memory); a box
// of 0.6 W/K (solved ice-chest exercise 3-162) 25 K warmer melts 0.162 kg an hour (derived).
TEST(Ice, CoolsTheWaterAndFeedsTheLeak) {
  KitFacts facts = small_day();
  facts.stops = {facts.stops[2]};
  facts.stops[0].pour = Litres{25};
  facts.stops[0].ice = ice_to_cool(Litres{25}, Celsius{25}, Celsius{10});
  facts.temperatures = {{facts.from, Celsius{25}}, {facts.to, Celsius{25}}};
  KitSettings settings;
  settings.ice_spare = 0.0;
  settings.box_leak_w_per_k = 0.6;
  EXPECT_NEAR(facts.stops[0].ice.value, 4.17, 0.01);
  EXPECT_NEAR(value_of(facts, "ice", settings), 4.17 + 4 * 0.162, 0.01);
}

// Own boxes of 0.3 and 1.2 W/K that take 3 kg each: 4.17 kg go into both, so 1.5 W/K melt 1.5 x 25 K x 4 h / 333.6
// kJ/kg (derived).
TEST(Ice, TakesTheLeaksOfTheBoxesThatAreAtHand) {
  KitFacts facts = small_day();
  facts.stops = {facts.stops[2]};
  facts.stops[0].ice = ice_to_cool(Litres{25}, Celsius{25}, Celsius{10});
  facts.temperatures = {{facts.from, Celsius{25}}, {facts.to, Celsius{25}}};
  facts.boxes = {{"small box", 0.3, Kilograms{3}, "typed in"}, {"old box", 1.2, Kilograms{3}, "measured"}};
  KitSettings settings;
  settings.ice_spare = 0.0;
  const double both = facts.stops[0].ice.value + 1.5 * 25 * 4 * 3.6 / heat_of_fusion_kj_per_kg;
  EXPECT_NEAR(value_of(facts, "ice", settings), both, 1e-9);
  facts.boxes[0].ice = Kilograms{10};  // one is enough: the tightest
  const double one = facts.stops[0].ice.value + 0.3 * 25 * 4 * 3.6 / heat_of_fusion_kj_per_kg;
  EXPECT_NEAR(value_of(facts, "ice", settings), one, 1e-9);
}

TEST(Fuel, NamesThePumpsBesideTheDrivesAndWhen) {
  KitFacts facts = small_day();
  EXPECT_THAT(amount_of(facts, "fuel-van").cautions, Contains(HasSubstr("No pump is known")));
  facts.pumps = {{"Hill Garage", false, 0, Metres{240}, kilometres(11.8), kit_noon(), "Ford"}};
  EXPECT_THAT(amount_of(facts, "fuel-van").steps,
              Contains("Hill Garage (map): 0.2 km off the drive to Ford, 12 km after setting out, about 12:00."));
}

TEST(Ice, IsNoneWhereNoStopWantsIt) { EXPECT_EQ(value_of(small_day(), "ice"), 0.0); }

TEST(Electrolyte, IsNothingUnlessTypedIn) {
  const Amount amount = amount_of(small_day(), "electrolyte");
  EXPECT_EQ(amount.value, 0.0);
  EXPECT_THAT(amount.cautions, Contains(HasSubstr("never to a horse that does not drink")));
}

// Typed in: 40 g from loop 2, whose only gate is the finish.
TEST(Electrolyte, IsExactlyWhatWasTypedIn) {
  KitFacts facts = small_day();
  HorseLike like;
  like.drink = HorseLike::Drink::electrolyte;
  like.from_loop = 2;
  like.electrolyte = Grams{40};
  facts.horses[0].likes = {like};
  const Amount amount = amount_of(facts, "electrolyte");
  EXPECT_EQ(amount.value, 40.0);
  EXPECT_EQ(amount.range, (Interval<double>{40.0, 40.0}));
  EXPECT_THAT(amount.cautions, Contains(HasSubstr("never to a horse that does not drink")));
}

TEST(Likes, KeepThePlainOfferWhereTheHorseDoesNotDrink) {
  KitFacts facts = small_day();
  HorseLike like;
  like.drink = HorseLike::Drink::nothing;
  like.to_loop = 1;
  facts.horses[0].likes = {like};
  const StopWater water = stop_water(facts.stops[0], facts, {});
  EXPECT_EQ(water.drinking, Litres{0});
  EXPECT_EQ(water.drinking_offer, Litres{11.4});
  EXPECT_EQ(like_words(like), "does not drink on loop 1");
}

TEST(Likes, PutElectrolyteBesideThePlainWater) {
  KitFacts facts = small_day();
  HorseLike like;
  like.drink = HorseLike::Drink::electrolyte;
  like.from_loop = 2;
  facts.horses[0].likes = {like};
  EXPECT_EQ(like_words(like), "electrolyte from loop 2");
  EXPECT_EQ(stop_water(facts.stops[0], facts, {}).drinking, Litres{7.6});
  EXPECT_DOUBLE_EQ(stop_water(facts.stops[3], facts, {}).drinking.value, 7.6 + 5.0);
}

// Shreds take 12 h (common practice, no source): for the gate at 10:00 they go in at 22:00.
TEST(SoakedFeed, IsSoakedTheDayBeforeAndKeepsTwelveHoursInCoolWeather) {
  const Amount amount = amount_of(small_day(), "soaked-feed");
  EXPECT_DOUBLE_EQ(amount.value, 1.5);
  ASSERT_EQ(amount.steps.size(), 1U);
  EXPECT_THAT(amount.steps[0], HasSubstr("from 22:00 the day before"));
  EXPECT_THAT(amount.steps[0], HasSubstr("throw away what is left at 22:00"));
}

// In hot humid weather wet feed spoils in as little as 2 h (common practice, no source), so the finish three hours
// later has a batch of its own.
TEST(SoakedFeed, KeepsTwoHoursInTheHeat) {
  const Amount amount = amount_of(small_day(HeatBand::precautions), "soaked-feed");
  ASSERT_EQ(amount.steps.size(), 2U);
  EXPECT_THAT(amount.steps[0], HasSubstr("throw away what is left at 12:00"));
}

// 60-90 g/h of several sugars from 2.5 h (Sports Science Exchange 108): 6 h.
TEST(Carbohydrate, IsWithinThePublishedRangeOfALongRide) {
  const Amount amount = amount_of(small_day(), "rider-carbohydrate");
  EXPECT_DOUBLE_EQ(amount.range.from, 360.0);
  EXPECT_DOUBLE_EQ(amount.range.to, 540.0);
  EXPECT_DOUBLE_EQ(amount.value, 450.0);
}

// 30-60 g/h beyond an hour (Sports Science Exchange 108): 2 h.
TEST(Carbohydrate, IsLessAnHourOnAShortRide) {
  KitFacts facts = small_day();
  facts.horses[0].ridden = Seconds{2 * 3600.0};
  EXPECT_EQ(amount_of(facts, "rider-carbohydrate").range, (Interval<double>{60.0, 120.0}));
}

// 0.4-0.8 L an hour (from memory).
TEST(RiderFluid, StaysWithinTheUsualRange) {
  for (const auto band : {HeatBand::comfortable, HeatBand::extreme}) {
    const double rate = value_of(small_day(band), "rider-fluid") / 6.0;
    EXPECT_GE(rate, 0.4);
    EXPECT_LE(rate, 0.8 + 1e-12);
  }
}

// (60 driven + 80 reserve) km at 8 L/100 km and five stops of 5 min at 1 L/h (common practice and from memory).
TEST(Fuel, IsForTheDrivingTheReserveAndIdling) {
  EXPECT_NEAR(value_of(small_day(), "fuel-Van"), 11.2 + 25.0 / 60.0, 1e-12);
}

// A quarter more when towing (common practice, no source).
TEST(Fuel, IsAQuarterMoreWhenTowing) {
  KitSettings towing;
  towing.is_towing = true;
  EXPECT_NEAR(value_of(small_day(), "fuel-Van", towing), 14.0 + 25.0 / 60.0, 1e-12);
}

TEST(Amounts, OpenToFormulaSourceAndARangeAroundThem) {
  for (const auto& amount : kit_amounts(small_day(HeatBand::hazardous, {13}), {})) {
    EXPECT_FALSE(amount.formula.empty()) << amount.id;
    EXPECT_FALSE(amount.source.empty()) << amount.id;
    EXPECT_LE(amount.range.from, amount.value) << amount.id;
    EXPECT_GE(amount.range.to, amount.value) << amount.id;
    for (const auto& input : amount.inputs) EXPECT_FALSE(input.source.empty()) << amount.id << ": " << input.name;
  }
}

// A day whose stops pour and offer what welfare says for their heat.
KitFacts day_at(double wbgt, std::uint64_t seed) {
  KitFacts facts = small_day();
  Rng rng{Seed{seed}};
  for (auto& stop : facts.stops) {
    const double here = wbgt + 4.0 * uniform(rng);
    const bool is_gate = stop.kind != KitStop::Kind::pass;
    stop.band = band_of_wbgt(Celsius{here});
    CoolingNeed need;
    need.is_gate = is_gate;
    need.band = *stop.band;
    const CoolingAdvice cooling = cooling_at(need);
    stop.pour = cooling.pour;
    stop.pour_range = cooling.pour_range;
    stop.ice = cooling.ice;
    const DrinkOffer drink = drink_offer(is_gate, Celsius{here});
    stop.drink_offer = drink.offer;
    stop.drink_taken = drink.taken;
    facts.temperatures.emplace_back(stop.at, Celsius{here + 3.0});
  }
  return facts;
}

TEST(Amounts, NeverFallWhenItIsHotter) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    std::vector<Amount> cooler = kit_amounts(day_at(14.0, seed), {});
    for (double wbgt = 15.0; wbgt <= 36.0; wbgt += 1.0) {
      const auto hotter = kit_amounts(day_at(wbgt, seed), {});
      for (std::size_t i = 0; i < hotter.size(); ++i) {
        EXPECT_GE(hotter[i].value, cooler[i].value - 1e-9) << hotter[i].id << " at " << wbgt << ", seed " << seed;
      }
      cooler = hotter;
    }
  }
}

// Without a tap at the new stop: one with a tap means less to carry.
TEST(Amounts, NeverFallWithOneMeetMore) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    KitFacts more = day_at(26.0, seed);
    const auto all = kit_amounts(more, {});
    for (std::size_t s = 0; s < more.stops.size(); ++s) {
      if (more.stops[s].has_water) continue;
      KitFacts fewer = more;
      fewer.stops.erase(fewer.stops.begin() + static_cast<std::ptrdiff_t>(s));
      fewer.cars[0].stops -= 1;
      const auto some = kit_amounts(fewer, {});
      for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_GE(all[i].value, some[i].value - 1e-9) << all[i].id << ", seed " << seed << ", without stop " << s;
      }
    }
  }
}

TEST(KitSettings, RefuseNegativeFigures) {
  KitSettings settings;
  settings.wash_at_gate = Litres{-1};
  const auto refused = check_kit_settings(settings);
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().what, HasSubstr("wash_at_gate_litres"));
  EXPECT_TRUE(check_kit_settings({}));
}

}  // namespace
}  // namespace outbye
