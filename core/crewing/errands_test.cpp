#include "core/crewing/errands.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "core/base/random.h"

namespace outbye {
namespace {

using Reason = LeftOutErrand::Reason;

Instant clock(double min) { return Instant{Seconds{1'780'000'000.0 + 60.0 * min}}; }  // minutes after the car is ready
double minute(Instant at) { return (at - clock(0)).count() / 60.0; }

// Places on a road, one a minute mark; a drive takes the minutes between the marks. Place 0 is where cars start.
CrewingTask on_a_road(const std::vector<double>& marks) {
  CrewingTask task;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < marks.size(); ++i) names.push_back("place " + std::to_string(i));
  task.drives = DriveTable(names);
  for (std::uint32_t i = 0; i < marks.size(); ++i) {
    for (std::uint32_t j = 0; j < marks.size(); ++j) {
      const double min = std::abs(marks[i] - marks[j]);
      task.drives.set(PlaceId{i}, PlaceId{j}, Drive{minutes(min), kilometres(min)});
    }
  }
  task.settings.drive_allowance = 1.0;
  task.cars.push_back({"car A", PlaceId{0}, clock(0), std::nullopt, std::nullopt, {}, {}, minutes(0), minutes(15)});
  return task;
}

// The next meet of a car: the horse comes at p10 at the earliest; 4 min to set up, 3 min to pack, it stands 3 min.
void add_meet(CrewingTask& task, CarDay& day, std::uint32_t place, double horse) {
  const auto id = MeetOptionId{static_cast<std::uint32_t>(task.options.size())};
  MeetOption option;
  option.label = "CP" + std::to_string(id.value + 1);
  option.place = PlaceId{place};
  task.options.push_back(option);
  const PlaceId from = day.stops.empty() ? at(task.cars, day.car).start : day.stops.back().place;
  TimedStop stop;
  stop.stop = {PlannedStop::Kind::meet, id, std::nullopt};
  stop.place = PlaceId{place};
  stop.drive = *task.drives.drive(from, stop.place);
  stop.drive_planned = task.settings.drive_allowance * stop.drive.time;
  stop.depart = day.stops.empty() ? at(task.cars, day.car).ready_from : day.stops.back().leave;
  stop.arrive = stop.depart + stop.drive_planned;
  stop.ready = stop.arrive + option.setup;
  stop.due = {clock(horse), clock(horse + 5), clock(horse + 10)};
  stop.leave = std::max(stop.ready, clock(horse + 8)) + option.pack;
  day.stops.push_back(stop);
}

Errand errand(std::string label, std::uint32_t place, double min, double worth) {
  return {std::move(label), PlaceId{place}, minutes(min), worth, {}};
}

ErrandPlan planned(const CrewingTask& task, const std::vector<CarDay>& days, const std::vector<Errand>& errands,
                   const ErrandSettings& settings = {}) {
  auto plan = plan_errands(task, days, errands, settings);
  EXPECT_TRUE(plan) << plan.error().where << ": " << plan.error().what;
  return plan ? *plan : ErrandPlan{};
}

// start 0 -- ice 10 -- CP1 20: the horse comes to CP1 at 60, so the car must be there by 60 - 10 - 4 = 46.
TEST(Errands, FitIntoTheFreeTimeBeforeAMeet) {
  CrewingTask task = on_a_road({0, 10, 20});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 60);
  const ErrandPlan plan = planned(task, {day}, {errand("ice", 1, 8, 0.5)});
  ASSERT_EQ(plan.cars[0].stops.size(), 1U);
  const ErrandStop& ice = plan.cars[0].stops[0];
  EXPECT_FALSE(ice.after_stop);
  EXPECT_DOUBLE_EQ(minute(ice.depart), 0);
  EXPECT_DOUBLE_EQ(minute(ice.arrive), 10);
  EXPECT_DOUBLE_EQ(minute(ice.start), 10);
  EXPECT_DOUBLE_EQ(minute(ice.leave), 18);
  EXPECT_DOUBLE_EQ(minute(ice.latest_start), 28);
  ASSERT_EQ(plan.cars[0].later.size(), 1U);
  EXPECT_DOUBLE_EQ(minute(plan.cars[0].later[0].depart), 18);
  EXPECT_DOUBLE_EQ(minute(plan.cars[0].later[0].arrive), 28);
  EXPECT_DOUBLE_EQ(minute(plan.cars[0].later[0].latest_arrive), 46);
  EXPECT_DOUBLE_EQ(plan.worth, 0.5);
  EXPECT_TRUE(plan.is_proven);
  EXPECT_TRUE(plan.left_out.empty());
}

TEST(Errands, KeepTheMarginToTheSecond) {
  CrewingTask task = on_a_road({0, 10, 20});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 60);
  Errand ice = errand("ice", 1, 26, 0.5);  // 10 + 26 + 10 = 46: just in time
  EXPECT_EQ(planned(task, {day}, {ice}).cars[0].stops.size(), 1U);
  ice.duration += Seconds{1};
  const ErrandPlan plan = planned(task, {day}, {ice});
  EXPECT_TRUE(plan.cars[0].stops.empty());
  ASSERT_EQ(plan.left_out.size(), 1U);
  EXPECT_EQ(plan.left_out[0].reason, Reason::too_far);
  EXPECT_EQ(plan.left_out[0].short_by, Seconds{1});
  ErrandSettings bold;
  bold.margin = minutes(5);
  EXPECT_EQ(planned(task, {day}, {ice}, bold).cars[0].stops.size(), 1U);
  ErrandSettings median;
  median.counts_early_horse = false;
  EXPECT_EQ(planned(task, {day}, {ice}, median).cars[0].stops.size(), 1U);
}

TEST(Errands, NeverDelayAMeetThatIsTightAlready) {
  CrewingTask task = on_a_road({0, 10, 20});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 22);  // planned in at 20, ready at 24
  EXPECT_EQ(planned(task, {day}, {errand("on the way, no time", 1, 0, 1)}).cars[0].stops.size(), 1U);
  const ErrandPlan plan = planned(task, {day}, {errand("on the way, a minute", 1, 1, 1)});
  EXPECT_TRUE(plan.cars[0].stops.empty());
  EXPECT_EQ(plan.left_out[0].short_by, minutes(1));
}

TEST(Errands, SayTooFarByHowMuchAndWhere) {
  CrewingTask task = on_a_road({0, 10, 20, 90});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 1, 30);
  add_meet(task, day, 2, 120);
  // After CP1 at 41: 80 there, 10 at the shop, 70 on: 201 where 106 was allowed.
  const ErrandPlan plan = planned(task, {day}, {errand("shop", 3, 10, 1)});
  ASSERT_EQ(plan.left_out.size(), 1U);
  EXPECT_EQ(plan.left_out[0].reason, Reason::too_far);
  EXPECT_EQ(plan.left_out[0].short_by, minutes(95));
  EXPECT_EQ(plan.left_out[0].why, "too far: 95 min short between CP1 and CP2 (car A)");
}

TEST(Errands, WaitForTheShopToOpenOrSayThatItIsClosed) {
  CrewingTask task = on_a_road({0, 10, 20});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 60);
  Errand ice = errand("ice", 1, 8, 0.5);
  ice.open = {{clock(20), clock(28)}};
  const ErrandPlan waits = planned(task, {day}, {ice});
  ASSERT_EQ(waits.cars[0].stops.size(), 1U);
  EXPECT_DOUBLE_EQ(minute(waits.cars[0].stops[0].start), 20);
  EXPECT_DOUBLE_EQ(minute(waits.cars[0].stops[0].latest_start), 20);
  ice.open = {{clock(31), clock(100)}};
  const ErrandPlan late = planned(task, {day}, {ice});
  ASSERT_EQ(late.left_out.size(), 1U);
  EXPECT_EQ(late.left_out[0].reason, Reason::closed);
  EXPECT_EQ(late.left_out[0].why, "closed: 3 min short before CP1 (car A)");
  ice.open = {{clock(15), clock(20)}};
  const ErrandPlan never = planned(task, {day}, {ice});
  EXPECT_EQ(never.left_out[0].reason, Reason::closed);
  EXPECT_EQ(never.left_out[0].why, "closed: never open long enough");
}

TEST(Errands, PreferTheOneWorthMore) {
  CrewingTask task = on_a_road({0, 10, 20});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 60);
  const ErrandPlan plan = planned(task, {day}, {errand("ice", 1, 20, 0.5), errand("feed", 1, 20, 0.7)});
  ASSERT_EQ(plan.cars[0].stops.size(), 1U);
  EXPECT_EQ(plan.cars[0].stops[0].errand, 1U);
  ASSERT_EQ(plan.left_out.size(), 1U);
  EXPECT_EQ(plan.left_out[0].reason, Reason::crowded_out);
  EXPECT_TRUE(plan.is_proven);
}

// Ice and feed lie on the way to CP1, shop on the way from there to CP2: no mile need be driven twice.
TEST(Errands, AreDoneOnTheWayWhereThatSavesDriving) {
  CrewingTask task = on_a_road({0, 5, 10, 15, 20, 30});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 3, 200);
  add_meet(task, day, 5, 400);
  const ErrandPlan plan =
      planned(task, {day}, {errand("shop", 4, 5, 1), errand("feed", 2, 5, 1), errand("ice", 1, 5, 1)});
  ASSERT_EQ(plan.cars[0].stops.size(), 3U);
  EXPECT_EQ(plan.cars[0].stops[0].errand, 2U);
  EXPECT_EQ(plan.cars[0].stops[1].errand, 1U);
  EXPECT_EQ(plan.cars[0].stops[2].errand, 0U);
  EXPECT_EQ(plan.cars[0].stops[2].after_stop, std::optional<std::size_t>{0});
}

TEST(Errands, SayWhenThereIsNoWayOrNothingToGain) {
  CrewingTask task = on_a_road({0, 10, 20});
  task.drives.set(PlaceId{1}, PlaceId{2}, std::nullopt);
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 60);
  const ErrandPlan plan = planned(task, {day}, {errand("ice", 1, 8, 0.5), errand("view", 0, 5, 0)});
  ASSERT_EQ(plan.left_out.size(), 2U);
  EXPECT_EQ(plan.left_out[0].reason, Reason::no_way);
  EXPECT_EQ(plan.left_out[1].reason, Reason::worthless);
}

TEST(Errands, KeepWithinTheFuelRange) {
  CrewingTask task = on_a_road({0, -10, 20});
  task.cars[0].fuel_range = kilometres(39);  // 20 without, 40 with the errand
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 90);
  const std::vector<Errand> wanted{errand("ice", 1, 8, 0.5)};
  const ErrandPlan plan = planned(task, {day}, wanted);
  EXPECT_TRUE(plan.cars[0].stops.empty());
  ASSERT_EQ(plan.left_out.size(), 1U);
  EXPECT_EQ(plan.left_out[0].reason, Reason::out_of_range);
  EXPECT_FALSE(plan.is_proven);
  task.cars[0].fuel_range = kilometres(40);
  EXPECT_EQ(planned(task, {day}, wanted).cars[0].stops.size(), 1U);
}

TEST(Errands, KeepTheDriversBreak) {
  CrewingTask task = on_a_road({0, -10, 20});
  task.cars[0].longest_driving = minutes(35);
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 90);
  EXPECT_TRUE(planned(task, {day}, {errand("ice", 1, 14, 0.5)}).cars[0].stops.empty());
  EXPECT_EQ(planned(task, {day}, {errand("ice", 1, 15, 0.5)}).cars[0].stops.size(), 1U);  // standing there is a break
}

TEST(Errands, AfterTheLastMeetNeedATimeToBeBack) {
  CrewingTask task = on_a_road({0, 10, 20});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 1, 15);
  const std::vector<Errand> wanted{errand("shop", 2, 10, 1)};
  EXPECT_TRUE(planned(task, {day}, wanted).cars[0].stops.empty());
  task.cars[0].end = PlaceId{0};
  task.cars[0].back_by = clock(66);  // leaves CP1 at 26: 10 there, 10 at the shop, 20 home
  const ErrandPlan plan = planned(task, {day}, wanted);
  ASSERT_EQ(plan.cars[0].stops.size(), 1U);
  EXPECT_EQ(plan.cars[0].stops[0].after_stop, std::optional<std::size_t>{0});
  task.cars[0].back_by = clock(65);
  EXPECT_TRUE(planned(task, {day}, wanted).cars[0].stops.empty());
}

TEST(Errands, AreDoneByOneCarOnly) {
  CrewingTask task = on_a_road({0, 10, 20});
  task.cars.push_back(task.cars[0]);
  task.cars[1].name = "car B";
  CarDay a{CarId{0}, {}, {}, {}};
  CarDay b{CarId{1}, {}, {}, {}};
  add_meet(task, a, 2, 60);
  add_meet(task, b, 2, 60);
  const ErrandPlan plan = planned(task, {a, b}, {errand("ice", 1, 20, 1), errand("feed", 1, 20, 1)});
  EXPECT_EQ(plan.cars[0].stops.size(), 1U);
  EXPECT_EQ(plan.cars[1].stops.size(), 1U);
  EXPECT_NE(plan.cars[0].stops[0].errand, plan.cars[1].stops[0].errand);
  EXPECT_DOUBLE_EQ(plan.worth, 2.0);
  EXPECT_TRUE(plan.is_proven);  // nothing is left out
}

TEST(Errands, RefuseWhatIsNotThere) {
  CrewingTask task = on_a_road({0, 10, 20});
  CarDay day{CarId{0}, {}, {}, {}};
  add_meet(task, day, 2, 60);
  const auto where = [&](const std::vector<CarDay>& days, const std::vector<Errand>& errands) {
    const auto plan = plan_errands(task, days, errands);
    return plan ? std::string("accepted") : plan.error().where;
  };
  EXPECT_EQ(where({day}, {errand("ice", 7, 8, 1)}), "errand ice");
  EXPECT_EQ(where({day}, {errand("ice", 1, -8, 1)}), "errand ice");
  EXPECT_EQ(where({day}, {errand("ice", 1, 8, std::nan(""))}), "errand ice");
  EXPECT_EQ(where({day, day}, {errand("ice", 1, 8, 1)}), "day of car 0");
  EXPECT_EQ(where({{CarId{4}, {}, {}, {}}}, {errand("ice", 1, 8, 1)}), "day of car 4");
  EXPECT_EQ(where({day}, std::vector<Errand>(128, errand("ice", 1, 8, 1))), "errands of car car A");
  CarDay broken = day;
  broken.stops[0].stop.option = MeetOptionId{9};
  EXPECT_EQ(where({broken}, {errand("ice", 1, 8, 1)}), "car car A, stop 1");
}

// ---- Random days against a checker and brute force that share no code with the planner.

// By when the car must be at a stop, from the words of errands.h.
double must_be_there(const CrewingTask& task, const TimedStop& stop, double margin_min) {
  const double setup = task.options[stop.stop.option->value].setup.count() / 60;
  double latest = minute(stop.due.p10) - margin_min - setup;
  latest = std::max(latest, minute(stop.ready) - setup);
  return std::max(latest, minute(stop.arrive));
}

double drive_min(const CrewingTask& task, PlaceId from, PlaceId to) {
  const auto& drive = task.drives.drive(from, to);
  if (!drive) return 1e9;
  return std::ceil(drive->time.count() * task.settings.drive_allowance - 1e-6) / 60;
}

// The end of the errand if the car comes to it at `arrive`; 1e9 when it is shut from then on.
double done_at(const Errand& errand, double arrive) {
  const double takes = errand.duration.count() / 60;
  if (errand.open.empty()) return arrive + takes;
  double best = 1e9;
  for (const auto& open : errand.open) {
    const double start = std::max(arrive, minute(open.from));
    if (start + takes <= minute(open.to) + 1e-9) best = std::min(best, start + takes);
  }
  return best;
}

struct Walk {
  PlaceId place;
  double free;
  std::size_t next_stop;
  bool is_from_stop;  // or from the start: the drive on is then the plan's own
};

// All ways to go on: an errand not yet done, or the next stop.
void go_on(const CrewingTask& task, const CarDay& day, const std::vector<Errand>& errands, Walk w,
           std::vector<bool>& done, double worth, double& best) {
  const bool is_over = w.next_stop == day.stops.size();
  if (is_over) best = std::max(best, worth);
  if (!is_over) {
    const TimedStop& stop = day.stops[w.next_stop];
    const double arrive = w.free + drive_min(task, w.place, stop.place);
    if (w.is_from_stop || arrive <= must_be_there(task, stop, 10) + 1e-6) {
      go_on(task, day, errands, {stop.place, minute(stop.leave), w.next_stop + 1, true}, done, worth, best);
    }
  }
  if (is_over) return;  // no back_by here
  for (std::size_t e = 0; e < errands.size(); ++e) {
    if (done[e]) continue;
    const double end = done_at(errands[e], w.free + drive_min(task, w.place, errands[e].place));
    if (end > 1e6) continue;
    done[e] = true;
    go_on(task, day, errands, {errands[e].place, end, w.next_stop, false}, done, worth + errands[e].worth, best);
    done[e] = false;
  }
}

struct Drawn {
  CrewingTask task;
  std::vector<CarDay> days;
  std::vector<Errand> errands;
};
Drawn any_days(Rng& rng, std::size_t cars) {
  const auto between = [&](int from, int to) {
    return from + static_cast<int>(uniform_below(rng, static_cast<std::uint64_t>(to - from + 1)));
  };
  std::vector<double> marks;
  for (int i = 0; i < 6; ++i) marks.push_back(between(0, 30));
  Drawn out;
  out.task = on_a_road(marks);
  for (std::uint32_t i = 0; i < 6; ++i) {
    for (std::uint32_t j = 0; j < 6; ++j) {
      // Not quite a straight road: detours, one-way delays, now and then no way at all.
      auto drive = out.task.drives.drive(PlaceId{i}, PlaceId{j});
      if (i != j) drive->time += Seconds{static_cast<double>(between(0, 200))};
      if (i != j && between(0, 15) == 0) drive.reset();
      if (drive || i < 3) out.task.drives.set(PlaceId{i}, PlaceId{j}, drive ? drive : Drive{minutes(9), {}});
      if (!drive && i >= 3) out.task.drives.set(PlaceId{i}, PlaceId{j}, std::nullopt);
    }
  }
  out.task.settings.drive_allowance = 1.0 + 0.1 * between(0, 2);
  for (std::uint32_t c = 0; c < cars; ++c) {
    if (c > 0) out.task.cars.push_back(out.task.cars[0]);
    CarDay day{CarId{c}, {}, {}, {}};
    double horse = between(20, 60);
    const int meets = between(1, 3);
    for (int k = 0; k < meets; ++k) {
      add_meet(out.task, day, static_cast<std::uint32_t>(between(0, 2)), horse);
      horse = minute(day.stops.back().leave) + between(10, 80);
    }
    for (auto& stop : day.stops) stop.leave = Instant{Seconds{std::ceil(stop.leave.time_since_epoch().count())}};
    out.days.push_back(day);
  }
  const int count = between(1, 5);
  for (int e = 0; e < count; ++e) {
    Errand item = errand("e" + std::to_string(e), static_cast<std::uint32_t>(between(0, 5)), between(0, 20),
                         0.1 * between(1, 20));
    for (int k = between(0, 2); k > 0; --k) {
      const int from = between(-10, 120);
      item.open.push_back({clock(from), clock(from + between(0, 60))});
    }
    out.errands.push_back(item);
  }
  return out;
}

// Every promise of the header about one car's answer.
void expect_sound(const Drawn& drawn, const ErrandPlan& plan, std::vector<int>& times_done) {
  for (std::size_t d = 0; d < drawn.days.size(); ++d) {
    const CarDay& day = drawn.days[d];
    const CarErrands& car = plan.cars[d];
    PlaceId place = at(drawn.task.cars, day.car).start;
    double free = 0;
    std::size_t next = 0;
    std::size_t later = 0;
    double worth = 0;
    for (std::size_t s = 0; s <= day.stops.size(); ++s) {
      bool is_after_errand = false;
      double limit = std::numeric_limits<double>::infinity();  // latest_start of the errand before, plus what follows
      while (next < car.stops.size() && car.stops[next].after_stop.value_or(SIZE_MAX) + 1 == s) {
        const ErrandStop& stop = car.stops[next++];
        const Errand& item = drawn.errands[stop.errand];
        ++times_done[stop.errand];
        worth += item.worth;
        EXPECT_NEAR(minute(stop.depart), free, 1e-6);
        EXPECT_NEAR(minute(stop.arrive), free + drive_min(drawn.task, place, item.place), 1e-6);
        free = done_at(item, minute(stop.arrive));
        EXPECT_NEAR(minute(stop.leave), free, 1e-6);
        EXPECT_NEAR(minute(stop.start), free - item.duration.count() / 60, 1e-6);
        EXPECT_GE(minute(stop.latest_start), minute(stop.start) - 1e-6);
        if (std::isfinite(limit)) {
          EXPECT_LE(done_at(item, limit + drive_min(drawn.task, place, item.place)),
                    minute(stop.latest_start) + item.duration.count() / 60 + 1e-6);
        }
        limit = done_at(item, minute(stop.latest_start));
        EXPECT_NEAR(limit, minute(stop.latest_start) + item.duration.count() / 60, 1e-6);  // not shut by then
        place = item.place;
        is_after_errand = true;
      }
      if (s == day.stops.size()) break;
      const TimedStop& stop = day.stops[s];
      if (is_after_errand) {
        const double way = drive_min(drawn.task, place, stop.place);
        EXPECT_LE(free + way, must_be_there(drawn.task, stop, 10) + 1e-6);
        EXPECT_LE(limit + way, must_be_there(drawn.task, stop, 10) + 1e-6);
        ASSERT_LT(later, car.later.size());
        EXPECT_EQ(car.later[later].stop, s);
        EXPECT_NEAR(minute(car.later[later].arrive), free + way, 1e-6);
        ++later;
      }
      place = stop.place;
      free = minute(stop.leave);
    }
    EXPECT_EQ(next, car.stops.size());
    EXPECT_EQ(later, car.later.size());
    EXPECT_NEAR(car.worth, worth, 1e-9);
  }
}

TEST(Errands, OfOneCarAreTheBestOfAllWaysToGo) {
  int taken = 0;
  int left = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const Drawn drawn = any_days(rng, 1);
    const ErrandPlan plan = planned(drawn.task, drawn.days, drawn.errands);
    std::vector<int> times_done(drawn.errands.size(), 0);
    expect_sound(drawn, plan, times_done);
    for (int n : times_done) {
      EXPECT_LE(n, 1);
      taken += n;
    }
    left += static_cast<int>(plan.left_out.size());
    EXPECT_EQ(static_cast<std::size_t>(std::count(times_done.begin(), times_done.end(), 0)), plan.left_out.size());
    double best = 0;
    std::vector<bool> done(drawn.errands.size(), false);
    go_on(drawn.task, drawn.days[0], drawn.errands, {PlaceId{0}, 0, 0, true}, done, 0, best);
    EXPECT_NEAR(plan.worth, best, 1e-9);
    EXPECT_TRUE(plan.is_proven);
    EXPECT_NEAR(plan.upper_bound, plan.worth, 1e-9);
  }
  EXPECT_GE(taken, 300);
  EXPECT_GE(left, 300);
}

TEST(Errands, OfSeveralCarsStayBelowTheirBoundAndReachItWhenProven) {
  int proven = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const Drawn drawn = any_days(rng, 2);
    const ErrandPlan plan = planned(drawn.task, drawn.days, drawn.errands);
    std::vector<int> times_done(drawn.errands.size(), 0);
    expect_sound(drawn, plan, times_done);
    for (int n : times_done) EXPECT_LE(n, 1);
    // The best split, by trying every one.
    double best = 0;
    for (std::size_t split = 0; split < (std::size_t{1} << drawn.errands.size()); ++split) {
      double worth = 0;
      for (std::size_t d = 0; d < 2; ++d) {
        std::vector<bool> done;
        for (std::size_t e = 0; e < drawn.errands.size(); ++e) done.push_back(((split >> e) & 1U) != d);
        double of_car = 0;
        go_on(drawn.task, drawn.days[d], drawn.errands, {PlaceId{0}, 0, 0, true}, done, 0, of_car);
        worth += of_car;
      }
      best = std::max(best, worth);
    }
    EXPECT_LE(plan.worth, best + 1e-9);
    EXPECT_GE(plan.upper_bound, best - 1e-9);
    if (plan.is_proven) {
      EXPECT_NEAR(plan.worth, best, 1e-9);
    }
    proven += plan.is_proven ? 1 : 0;
  }
  EXPECT_GE(proven, 100);
  EXPECT_LT(proven, 200);  // the flag is not always set
}

}  // namespace
}  // namespace outbye
