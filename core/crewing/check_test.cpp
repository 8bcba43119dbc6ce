#include "core/crewing/check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

#include "core/crewing/plan_crew.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;

// Venue, ford and mill in a row, 8 km and 10 minutes apart; the horse passes ford, mill and ford and finishes at the
// venue, half an hour from one to the next, without chance. One car with a tap at the mill; all is met.
struct Told {
  CrewingTask task;
  CrewPlan plan;
  Told() {
    task.drives = DriveTable({"venue", "ford", "mill"});
    for (std::uint32_t i = 0; i < 3; ++i) {
      for (std::uint32_t j = 0; j < 3; ++j) {
        const double hops = i > j ? i - j : j - i;
        task.drives.set({i}, {j}, Drive{minutes(10 * hops), kilometres(8 * hops)});
      }
    }
    HorseDays horse;
    horse.origin = Instant{Seconds{1781330400.0}};
    horse.days = 4;
    const std::uint32_t place[] = {1, 2, 1, 0};
    for (std::uint32_t e = 0; e < 4; ++e) {
      MeetOption option;
      option.label = "meet " + std::to_string(e);
      option.event = e;
      option.kind = e == 3 ? RideEvent::Kind::finish : RideEvent::Kind::pass;
      option.place = {place[e]};
      option.ride_along = kilometres(6 * (e + 1));
      option.water = Litres{10};
      horse.events.push_back({option.kind, {0}, std::nullopt, option.ride_along});
      task.options.push_back(option);
      for (std::size_t d = 0; d < horse.days; ++d) {
        horse.base.push_back(1800.0 * (e + 1));
        horse.stand.push_back(e == 3 ? 0.0 : 180.0);
        horse.in_time.push_back(0.0);
      }
    }
    task.horses.push_back(horse);
    CrewCar car;
    car.name = "Red";
    car.ready_from = horse.origin - minutes(30);
    car.end = PlaceId{0};
    task.cars.push_back(car);
    task.cars.push_back(car);
    task.cars[1].name = "Blue";
    task.settings.drive_log_sd = 0;
    CrewOrders orders{{CarId{0}, {}}, {CarId{1}, {}}};
    for (std::uint32_t o = 0; o < 4; ++o)
      orders[0].stops.push_back({PlannedStop::Kind::meet, MeetOptionId{o}, std::nullopt});
    orders[0].stops.insert(orders[0].stops.begin() + 3, {PlannedStop::Kind::rest, std::nullopt, std::nullopt});
    const auto made = value_given_orders(task, orders);
    if (made) {
      plan = *made;
    } else {
      ADD_FAILURE() << made.error().where << " " << made.error().what;
    }
  }
  std::string reasons() const {
    std::string all;
    for (const Problem& p : check_plan(task, plan)) all += p.where + " " + p.what + "\n";
    return all;
  }
};

struct Mutation {
  const char* name;
  std::function<void(Told&)> change;
  const char* reason;
};
void PrintTo(const Mutation& m, std::ostream* out) { *out << m.name; }

class MutatedPlan : public ::testing::TestWithParam<Mutation> {};

TEST_P(MutatedPlan, IsRefusedForItsReason) {
  Told told;
  ASSERT_EQ(told.reasons(), "");
  GetParam().change(told);
  EXPECT_THAT(told.reasons(), HasSubstr(GetParam().reason));
}

TimedStop& stop(Told& t, std::size_t i) { return t.plan.days[0].stops[i]; }

const Mutation mutations[] = {
    {"SoonerArrival", [](Told& t) { stop(t, 1).arrive -= minutes(3); }, "sooner than the drive takes"},
    {"LaterArrival", [](Told& t) { stop(t, 1).arrive += minutes(3); }, "later than the drive takes"},
    {"TwoPlaces", [](Told& t) { stop(t, 1).depart -= minutes(5); }, "it would be in two places"},
    {"BeforeReady", [](Told& t) { t.task.cars[0].ready_from += minutes(60); }, "before the car is free"},
    {"OtherDrive", [](Told& t) { stop(t, 1).drive.time -= minutes(1); }, "another drive than the table's"},
    {"NoAllowance", [](Told& t) { stop(t, 1).drive_planned = stop(t, 1).drive.time; }, "than the allowance asks"},
    {"NoWay", [](Told& t) { t.task.drives.set({1}, {2}, std::nullopt); }, "no way by car to get there"},
    {"OtherPlace", [](Told& t) { stop(t, 1).place = PlaceId{0}; }, "another place than the stop is at"},
    {"QuickSetup", [](Told& t) { stop(t, 1).ready -= minutes(2); }, "sooner than setting up takes"},
    {"NoPacking", [](Told& t) { stop(t, 1).leave -= minutes(3); }, "the horse's going and the packing give"},
    {"LeavesTooSoon", [](Told& t) { stop(t, 1).leave -= minutes(15); }, "leaves before the horse has come"},
    {"OtherSlack", [](Told& t) { stop(t, 1).slack += minutes(5); }, "another slack than its times"},
    {"OtherWindow", [](Told& t) { stop(t, 1).due.p90 += minutes(5); }, "is due at another time"},
    {"MetTwice", [](Told& t) { stop(t, 2).stop.option = MeetOptionId{0}; }, "is met twice"},
    {"NeverMet", [](Told& t) { t.task.options[1].demand = MeetOption::Demand::never; }, "must never be"},
    {"MustMissing",
     [](Told& t) {
       t.task.options[3].demand = MeetOption::Demand::must;
       t.plan.days[0].stops.pop_back();
     },
     "must be met and is not"},
    {"OtherCar", [](Told& t) { t.task.options[1].only_car = CarId{1}; }, "another car than the one asked for"},
    {"ShutPlace",
     [](Told& t) {
       const Instant day = t.task.horses[0].origin;
       t.task.options[1].open = {{day, day + minutes(50)}};
     },
     "while the place is shut"},
    {"ShortRest", [](Told& t) { stop(t, 3).ready -= minutes(5); }, "rests for less than its break"},
    {"RestFirst",
     [](Told& t) {
       auto& stops = t.plan.days[0].stops;
       std::swap(stops[0], stops[3]);
     },
     "begins its day with a rest"},
    {"NoBreak", [](Told& t) { t.task.cars[0].longest_driving = minutes(10); }, "of driving without a break"},
    {"OutOfFuel", [](Told& t) { t.task.cars[0].fuel_range = kilometres(20); }, "beyond the fuel range"},
    {"OutOfWater", [](Told& t) { t.task.cars[0].water_capacity = Litres{25}; }, "runs short of water"},
    {"BackTooLate", [](Told& t) { t.task.cars[0].back_by = t.task.horses[0].origin + minutes(90); },
     "after it must be"},
    {"OtherWayHome", [](Told& t) { *t.plan.days[0].back += minutes(5); }, "is back at another time"},
    {"OtherDistance", [](Told& t) { t.plan.days[0].driven += kilometres(1); }, "drives another distance"},
    {"OtherDriving", [](Told& t) { t.plan.days[0].driving += minutes(1); }, "drives for another time"},
    {"OtherNextMeet", [](Told& t) { stop(t, 0).next_meet = MeetOptionId{3}; }, "another next meet than the car's next"},
    {"FallbackIsTheLostMeet", [](Told& t) { stop(t, 0).fallback = MeetOptionId{1}; },
     "the very meet that would be lost"},
    {"OddsAboveOne", [](Told& t) { stop(t, 1).chance_there = 1.2; }, "has odds that are none"},
    {"ReadyMoreOftenThanThere", [](Told& t) { stop(t, 1).chance_there = 0.5; }, "has odds that are none"},
    {"WorthTooHigh", [](Told& t) { t.plan.value.worth += 1; }, "odds and gaps do not add up to"},
    {"FixedWorthTooHigh", [](Told& t) { t.plan.value.fixed_worth += 1; }, "which its times do not give"},
    {"BoundBelowWorth", [](Told& t) { t.plan.value.upper_bound -= 1; }, "an upper bound below its worth"},
    {"OtherGap", [](Told& t) { t.plan.value.gap += 1; }, "a gap that is not bound less worth"},
    {"NegativeError", [](Told& t) { t.plan.value.standard_error = -1; }, "a standard error below 0"},
    {"NoWeakest", [](Told& t) { t.plan.weakest.reset(); }, "names no weakest meet"},
    {"OtherOrder", [](Told& t) { std::swap(stop(t, 0), stop(t, 1)); }, "after a meet of a horse that goes later"},
    {"UnknownOption", [](Told& t) { stop(t, 0).stop.option = MeetOptionId{99}; }, "not among the options"},
    {"MissingCar", [](Told& t) { t.plan.days.pop_back(); }, "one day for each car"},
};
INSTANTIATE_TEST_SUITE_P(Checker, MutatedPlan, ::testing::ValuesIn(mutations),
                         [](const auto& mutation) { return std::string(mutation.param.name); });

}  // namespace
}  // namespace outbye
