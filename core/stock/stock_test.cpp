#include "core/stock/stock.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "core/base/water_physics.h"
#include "core/stock/stock_tasks_for_test.h"

namespace outbye {
namespace {

using testing::HasSubstr;

// A ledger of its own: what each container holds, from nothing but the entries.
struct Ledger {
  std::map<std::size_t, std::int64_t> level;
  std::int64_t in{}, out{};
  std::int64_t straight{};  // from a tap and not yet used: nothing in the end
  bool is_within{true};     // never below empty nor above full

  Ledger(const StockTask& task, const StockDay& day) {
    for (std::size_t c = 0; c < task.containers.size(); ++c) {
      const StockContainer& container = task.containers[c];
      const double full =
          container.capacity.value * (container.holds == StockKind::ice ? task.settings.ice_kg_per_litre : 1.0);
      const double start = container.start ? container.start->value : container.ice ? container.ice->value : full;
      level[c] = std::llround(1000.0 * start);
      in += level[c];
    }
    for (const StockEntry& entry : day.entries) {
      const bool is_in = entry.kind == StockEntry::Kind::filled;
      const std::int64_t change = is_in ? entry.amount.value : -entry.amount.value;
      (is_in ? in : out) += entry.amount.value;
      if (entry.amount.value <= 0) is_within = false;
      if (!entry.container) {
        straight += change;
        if (straight < 0) is_within = false;
        continue;
      }
      const StockContainer& container = task.containers[*entry.container];
      const double full =
          container.capacity.value * (container.holds == StockKind::ice ? task.settings.ice_kg_per_litre : 1.0);
      std::int64_t& now = level[*entry.container];
      now += change;
      if (now < 0 || now > std::llround(1000.0 * full)) is_within = false;
    }
  }
};

TEST(StockDay, LosesNoMillilitreOn500Days) {
  Rng rng(Seed{11});
  for (std::size_t d = 0; d < 500; ++d) {
    const StockTask task = any_stock(rng);
    const auto day = simulate_stock_day(task, d);
    ASSERT_TRUE(day) << day.error().where << " " << day.error().what;
    const WaterLedger& w = day->water;
    ASSERT_EQ((w.start + w.filled).value, (w.drunk + w.poured + w.spilt + w.left).value) << "day " << d;
    const IceLedger& i = day->ice;
    ASSERT_EQ((i.start + i.bought).value, (i.used + i.melted + i.left).value) << "day " << d;
  }
}

TEST(StockDay, AgreesWithALedgerKeptFromItsEntries) {
  Rng rng(Seed{12});
  for (std::size_t d = 0; d < 500; ++d) {
    const StockTask task = any_stock(rng);
    const StockDay day = *simulate_stock_day(task, d);
    const Ledger ledger(task, day);
    ASSERT_TRUE(ledger.is_within) << "day " << d;
    std::int64_t left = 0;
    for (std::size_t c = 0; c < task.containers.size(); ++c) {
      ASSERT_EQ(ledger.level.at(c), day.left[c].value) << "day " << d;
      left += day.left[c].value;
    }
    ASSERT_EQ(ledger.in, ledger.out + left) << "day " << d;
    ASSERT_EQ(ledger.straight, 0) << "day " << d;
    ASSERT_EQ(left, (day.water.left + day.ice.left).value) << "day " << d;
  }
}

TEST(StockDay, DrinksWhatIsPlannedWhenNothingIsLeftToChance) {
  StockTask task = small_stock();
  for (StockStop& stop : task.stops) {
    for (StockDemand& demand : stop.water) demand.log_sd = 0.0;
  }
  task.settings.day_log_sd = 0.0;
  task.settings.spill = 0.1;
  const StockDay day = *simulate_stock_day(task, 0);
  // By hand: 51 L at the start, four stops of 5.5 + 8.8 + 2.2 L. At CP2 the tap gives 20 L: 16.5 straight into the
  // buckets, 3.5 into the blue can. That has 25 - 5.5 + 3.5 - 11 = 12 L in the end, less the 6.4 L that the grey can is
  // short of and the 0.6 L of the bottles.
  EXPECT_EQ(day.left[0].value, 5000);
  EXPECT_EQ(day.water.filled.value, 20000);
  EXPECT_EQ(day.water.drunk.value, 20000);
  EXPECT_EQ(day.water.poured.value, 40000);
  EXPECT_EQ(day.water.spilt.value, 6000);
  EXPECT_EQ(day.water.left.value, 51000 + 20000 - 66000);
  EXPECT_TRUE(day.shortages.empty());
}

TEST(StockDay, PoursDrinkingWaterBeforeAHorseGoesUncooled) {
  StockTask task = small_stock();
  task.containers[1].start = Litres{0};
  task.stops.resize(1);
  const StockDay day = *simulate_stock_day(task, 3);
  EXPECT_GT(day.water.poured.value, 6000);
  EXPECT_TRUE(day.shortages.empty());
}

TEST(StockDay, NeverGivesAHorseCoolingWaterToDrink) {
  StockTask task = small_stock();
  task.containers[0].start = Litres{0};
  task.stops.resize(1);
  const StockDay day = *simulate_stock_day(task, 3);
  ASSERT_FALSE(day.shortages.empty());
  EXPECT_EQ(day.shortages[0].use, StockKind::drinking);
}

TEST(StockDay, MeltsIceByTheBoxsLeak) {
  StockTask task;
  task.containers = {{"box", StockKind::ice, {10}, {}, Kilograms{4}, 0.6}};
  StockStop stop;
  stop.label = "CP1";
  stop.since_before = minutes(600);
  stop.air = {25.0};
  task.stops = {stop};
  // 0.6 W/K x 25 K over 10 h: 540 kJ / 333.6 kJ/kg = 1.619 kg (derived from the heat of fusion).
  EXPECT_NEAR(static_cast<double>(simulate_stock_day(task, 0)->ice.melted.value), 1619.0, 1.0);
}

TEST(StockDay, BuysIceWhereItIsSold) {
  StockTask task;
  task.containers = {{"box", StockKind::ice, {10}, {}, Kilograms{1}, 0.6}};
  StockStop shop;
  shop.label = "shop";
  shop.refill = StockRefill{0.0, Seconds{0}, true};
  task.stops = {shop};
  EXPECT_EQ(simulate_stock_day(task, 0)->ice.bought.value, 5000);
}

TEST(StockDay, ServesNobodyAtAStopThatDoesNotHappen) {
  StockTask task = small_stock();
  for (StockStop& stop : task.stops) stop.by_day = {1, 0};
  EXPECT_GT(simulate_stock_day(task, 0)->water.drunk.value, 0);
  EXPECT_EQ(simulate_stock_day(task, 1)->water.drunk.value, 0);
}

TEST(Stock, GivesTheSameAnswerTwice) {
  const StockAnswer a = *work_out_stock(small_stock());
  const StockAnswer b = *work_out_stock(small_stock());
  EXPECT_EQ(a.chance, b.chance);
  EXPECT_EQ(a.mean.left, b.mean.left);
}

TEST(Stock, CountsTheDaysThatRunDry) {
  const StockTask task = small_stock();
  const StockAnswer answer = *work_out_stock(task);
  std::size_t good = 0;
  for (std::size_t d = 0; d < task.settings.days; ++d) good += simulate_stock_day(task, d)->shortages.empty() ? 1U : 0U;
  EXPECT_DOUBLE_EQ(answer.chance, static_cast<double>(good) / static_cast<double>(task.settings.days));
}

TEST(Stock, NamesTheDriestStopAsTheWeakest) {
  const StockAnswer answer = *work_out_stock(small_stock());
  ASSERT_TRUE(answer.weakest);
  for (const StopStock& stop : answer.stops) EXPECT_LE(stop.dry, answer.stops[*answer.weakest].dry);
}

TEST(Stock, RefillsInTheOrderOfTheRoutine) {
  StockTask task = small_stock();
  task.stops[1].refill->time = minutes(10);
  const auto order = [](const StockAnswer& answer) {
    std::vector<std::size_t> containers;
    for (const RefillLine& line : answer.refills) {
      if (line.container) containers.push_back(*line.container);
    }
    return containers;
  };
  EXPECT_THAT(order(*work_out_stock(task)), testing::ElementsAre(0, 1, 2));
  task.settings.order = {StockKind::bottles, StockKind::cooling, StockKind::drinking, StockKind::electrolyte};
  EXPECT_THAT(order(*work_out_stock(task)), testing::ElementsAre(2, 1, 0));
}

TEST(Stock, FillsTheFirstOfTheRoutineWhenTheTimeAtTheTapIsShort) {
  StockTask task = small_stock();
  task.stops[1].water.clear();
  task.stops[1].refill->time = minutes(0.3);
  const StockAnswer answer = *work_out_stock(task);
  ASSERT_FALSE(answer.refills.empty());
  EXPECT_EQ(answer.refills[0].container, 0U);
  EXPECT_GT(answer.refills[0].hurried, 0.9);
}

TEST(Stock, TakesNothingFromTheCansWhereATapGivesEnough) {
  StockTask task = small_stock();
  task.stops.erase(task.stops.begin());
  task.stops.resize(1);
  task.stops[0].refill->time = minutes(20);
  task.containers.clear();
  EXPECT_TRUE(work_out_stock(task)->holds);
}

TEST(Stock, TellsTheMinutesAtTheTap) {
  const StockAnswer answer = *work_out_stock(small_stock());
  for (const RefillLine& line : answer.refills) {
    EXPECT_NEAR(in_minutes(line.time), in_litres(line.high).value / 10.0, 1e-9);
  }
}

Problem problem_of(const StockTask& task) {
  const auto answer = work_out_stock(task);
  return answer ? Problem{} : answer.error();
}

TEST(StockInput, RefusesANegativeCapacity) {
  StockTask task = small_stock();
  task.containers[1].capacity = {-3};
  EXPECT_THAT(problem_of(task).where, HasSubstr("grey can"));
  EXPECT_THAT(problem_of(task).what, HasSubstr("0 to 5000 L"));
}

TEST(StockInput, RefusesACapacityThatIsNotANumber) {
  StockTask task = small_stock();
  task.containers[0].capacity = {std::nan("")};
  EXPECT_THAT(problem_of(task).where, HasSubstr("blue can"));
}

TEST(StockInput, RefusesMoreWaterThanACanHolds) {
  StockTask task = small_stock();
  task.containers[0].start = Litres{26};
  EXPECT_THAT(problem_of(task).what, HasSubstr("0 to 25.0 L"));
}

TEST(StockInput, RefusesTwoContainersOfOneName) {
  StockTask task = small_stock();
  task.containers[1].name = "Blue Can";
  EXPECT_THAT(problem_of(task).what, HasSubstr("own name"));
}

TEST(StockInput, RefusesANegativeTap) {
  StockTask task = small_stock();
  task.stops[1].refill->litres_per_minute = -1;
  EXPECT_THAT(problem_of(task).where, HasSubstr("CP2"));
}

TEST(StockInput, RefusesAnOrderThatForgetsAKind) {
  StockTask task = small_stock();
  task.settings.order[1] = StockKind::drinking;
  EXPECT_THAT(problem_of(task).what, HasSubstr("once"));
}

TEST(StockInput, NamesTheNearestContainerToAnUnknownOne) {
  const auto less = without_container(small_stock(), "blue cann");
  ASSERT_FALSE(less);
  EXPECT_EQ(less.error().kind, Problem::Kind::not_found);
  EXPECT_THAT(less.error().what, HasSubstr("'blue can'"));
}

TEST(StockInput, NamesTheNearestKindToAnUnknownOne) {
  EXPECT_EQ(*parse_stock_kind("Cooling water"), StockKind::cooling);
  const auto kind = parse_stock_kind("drinkin water");
  ASSERT_FALSE(kind);
  EXPECT_THAT(kind.error().what, HasSubstr("'drinking water'"));
}

// Nothing left to chance: 25 L, and 5 L offered at each of four stops to a horse that does not drink.
StockTask refusing_stock() {
  StockTask task = small_stock();
  task.containers = {{"blue can", StockKind::drinking, {25}}};
  for (StockStop& stop : task.stops) {
    stop.refill.reset();
    stop.water = {{StockKind::drinking, {5}, 0.0, true}};
  }
  task.settings.day_log_sd = 0.0;
  task.settings.spill = 0.1;
  return task;
}

TEST(WaterOnlyOffered, IsStillThereButForWhatIsSpilt) {
  const StockDay day = *simulate_stock_day(refusing_stock(), 0);
  EXPECT_EQ(day.water.drunk.value, 0);
  EXPECT_EQ(day.water.spilt.value, 4 * 500);
  EXPECT_EQ(day.left[0].value, 23000);
  EXPECT_TRUE(day.shortages.empty());
}

TEST(WaterOnlyOffered, MustBeThereAllTheSame) {
  StockTask task = refusing_stock();
  task.containers[0].start = Litres{6};
  const StockDay day = *simulate_stock_day(task, 0);
  // 6 L less 0.5 L a stop: at the third 5 L are there before anything is spilt and 4.5 L after.
  ASSERT_EQ(day.shortages.size(), 2U);
  EXPECT_EQ(day.shortages[0].stop, 2U);
  EXPECT_EQ(day.shortages[0].missing.value, 500);
  EXPECT_EQ(day.shortages[1].missing.value, 1000);
}

TEST(WaterOnlyOffered, IsCarriedOnceAndNotForEachStop) {
  const StockAnswer answer = *work_out_stock(refusing_stock());
  ASSERT_EQ(answer.carry.size(), 1U);
  EXPECT_EQ(answer.carry[0].carry.value, 4 * 500 + 5000);
}

}  // namespace
}  // namespace outbye
