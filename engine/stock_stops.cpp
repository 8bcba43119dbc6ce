#include "engine/stock_stops.h"

#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "core/crewing/value_days.h"
#include "core/crewing/value_policy.h"
#include "core/crewing/value_run.h"
#include "core/kit/ride_kit.h"

namespace outbye {
namespace {

// One standard deviation of a log-normal whose 95 % point is `high`: ln(high / median) / 1.645 (derived).
double log_sd_of(Litres median, Litres high) {
  constexpr double z95 = 1.6448536269514722;
  return median.value > 0.0 && high > median ? std::min(2.0, std::log(high / median) / z95) : 0.0;
}

const HorseLike* like_on(const RideHorse& horse, std::uint32_t loop) {
  const HorseLike* last = nullptr;
  for (const HorseLike& like : horse.likes) {
    if (holds_on(like, loop)) last = &like;
  }
  return last;
}

// What is offered is what 95 % of drinks stay below; the middle of what is usually taken is the median. A horse that is
// said not to drink is offered water all the same: it must be there, and is not used up.
StockDemand drink_of(const RidePlan& plan, const PassForecast& pass, const PassWelfare& welfare, bool has_electrolyte) {
  StockDemand drink;
  drink.planned = 0.5 * (welfare.drink.taken.from + welfare.drink.taken.to);
  const HorseLike* like = like_on(at(plan.ride.horses, pass.horse), pass.event.loop.value + 1);
  if (like != nullptr && like->litres) drink.planned = *like->litres;
  if (like != nullptr && like->drink == HorseLike::Drink::electrolyte && has_electrolyte) {
    drink.use = StockKind::electrolyte;
  }
  drink.is_only_offered = like != nullptr && like->drink == HorseLike::Drink::nothing;
  drink.log_sd = log_sd_of(drink.planned, welfare.drink.offer);
  return drink;
}

void add_demand(StockStop& stop, const RidePlan& plan, const MeetOption& option, bool has_electrolyte,
                const StockOptions& options) {
  std::size_t first = 0;
  for (std::uint32_t h = 0; h < option.horse.value; ++h) first += plan.task.horses[h].events.size();
  const std::size_t p = first + option.event;
  if (p >= plan.passes.size() || p >= plan.welfare.passes.size()) return;
  const PassWelfare& welfare = plan.welfare.passes[p];
  stop.water.push_back(drink_of(plan, plan.passes[p], welfare, has_electrolyte));
  const Litres bottles{std::min(welfare.cooling.pour.value, static_cast<double>(welfare.cooling.slosh_bottles))};
  if (welfare.cooling.pour > bottles) {
    stop.water.push_back({StockKind::cooling, welfare.cooling.pour - bottles, options.pour_log_sd});
  }
  if (bottles > Litres{0}) stop.water.push_back({StockKind::bottles, bottles, options.pour_log_sd});
  stop.ice = {welfare.cooling.ice, options.pour_log_sd};
}

bool says_ice(std::string_view name) {
  const std::string words = " " + in_lower_case(name) + " ";
  const auto is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
  for (std::size_t at = words.find("ice"); at != std::string::npos; at = words.find("ice", at + 1)) {
    if (!is_letter(words[at - 1]) && !is_letter(words[at + 3])) return true;
  }
  return false;
}

std::vector<ErrandStop> ice_stops(const RidePlan& plan, std::size_t car) {
  std::vector<ErrandStop> stops;
  if (car >= plan.errands.cars.size()) return stops;
  for (const ErrandStop& stop : plan.errands.cars[car].stops) {
    if (stop.errand >= plan.ride.errands.size()) continue;
    const RideErrand& errand = plan.ride.errands[stop.errand];
    if (errand.has_ice || says_ice(errand.name)) stops.push_back(stop);
  }
  return stops;
}

Celsius air_at(const Ride& ride, Instant when) {
  const auto weather = weather_at(ride.weather, when);
  return weather ? weather->temperature : ride.kit.settings.weather_unknown;
}

}  // namespace

Result<std::vector<std::vector<std::vector<std::uint8_t>>>> met_by_day(const RidePlan& plan, std::size_t days) {
  auto simulated = ValuationDays::make(plan.task);
  if (!simulated) return tl::unexpected(simulated.error());
  CrewOrders orders;
  for (const CarDay& day : plan.plan.days) {
    CarOrders of_car{day.car, {}};
    for (const TimedStop& stop : day.stops) of_car.stops.push_back(stop.stop);
    orders.push_back(std::move(of_car));
  }
  auto policy = make_policy(*simulated, orders);
  if (!policy) return tl::unexpected(policy.error());
  days = std::min(days, simulated->days());
  std::vector<std::vector<std::vector<std::uint8_t>>> met;
  for (const CarOrders& of_car : orders) {
    met.emplace_back(of_car.stops.size(), std::vector<std::uint8_t>(days, std::uint8_t{1}));
  }
  DayRunner runner;
  for (std::size_t d = 0; d < days; ++d) {
    float worth = 0.0F;
    RunCounts counts;  // of this one day
    runner.run(*policy, simulated->all(), d, 1, &worth, counts);
    for (std::size_t s = 0; s < policy->stops.size(); ++s) {
      const PolicyStop& stop = policy->stops[s];
      if (stop.stop.kind != PlannedStop::Kind::meet) continue;
      for (std::size_t k = 0; k < orders.size(); ++k) {
        if (orders[k].car == stop.car) met[k][stop.index][d] = counts.there[s] > 0 ? 1 : 0;
      }
    }
  }
  return met;
}

std::vector<std::string> ice_errands(const RidePlan& plan, std::size_t car) {
  std::vector<std::string> names;
  for (const ErrandStop& stop : ice_stops(plan, car)) names.push_back(plan.ride.errands[stop.errand].name);
  return names;
}

std::vector<StockStop> stock_stops(const RidePlan& plan, std::size_t car,
                                   const std::vector<std::vector<std::uint8_t>>& met, bool has_electrolyte,
                                   const StockOptions& options) {
  const CarDay& day = plan.plan.days[car];
  std::vector<StockStop> stops;
  Instant before = day.stops.empty() ? plan.ride.start : day.stops.front().depart;
  Instant free_from = before;  // a car that stays for another horse has one tap, not two
  const auto add = [&](StockStop stop, Instant arrive) {
    const Instant now = std::max(before, arrive);
    stop.since_before = now - before;
    stop.air = air_at(plan.ride, before + 0.5 * stop.since_before);
    before = now;
    stops.push_back(std::move(stop));
  };
  const std::vector<ErrandStop> ice = ice_stops(plan, car);
  const auto add_errands = [&](std::optional<std::size_t> after) {
    for (const ErrandStop& errand : ice) {
      if (errand.after_stop != after) continue;
      StockStop stop;
      stop.label = plan.ride.errands[errand.errand].name;
      stop.refill = StockRefill{options.litres_per_minute, Seconds{0}, true};
      add(std::move(stop), errand.start);
    }
  };
  add_errands(std::nullopt);
  for (std::size_t s = 0; s < day.stops.size(); ++s) {
    const TimedStop& timed = day.stops[s];
    if (timed.stop.kind != PlannedStop::Kind::rest) {
      StockStop stop;
      stop.by_day = met[s];
      bool has_tap = false;
      if (timed.stop.option) {
        const MeetOption& option = at(plan.task.options, *timed.stop.option);
        stop.label = option.label;
        has_tap = option.has_water;
        add_demand(stop, plan, option, has_electrolyte, options);
      } else if (timed.stop.refill) {
        const RefillPlace& place = plan.task.refills[*timed.stop.refill];
        stop.label = "Refill at " + place.label;
        has_tap = place.water;
      }
      if (has_tap) {
        const Seconds time = std::max(Seconds{0}, timed.leave - std::max(timed.arrive, free_from));
        stop.refill = StockRefill{options.litres_per_minute, time, false};
      }
      free_from = std::max(free_from, timed.leave);
      add(std::move(stop), timed.arrive);
    }
    add_errands(s);
  }
  return stops;
}

}  // namespace outbye
