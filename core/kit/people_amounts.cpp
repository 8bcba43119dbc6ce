// Food and drink of the people, and fuel of the cars.
#include <algorithm>
#include <array>
#include <string>

#include "core/base/text.h"
#include "core/kit/kit_formulas.h"

namespace outbye {
namespace {

double in_hours(Seconds time) { return time.count() / 3600.0; }

// Of a rider, litres an hour: within the usual 0.4 to 0.8, more the hotter.
double fluid_by_heat(std::optional<HeatBand> band) {
  constexpr std::array<double, heat_band_count> rates{0.50, 0.60, 0.70, 0.75, 0.80, 0.80};
  return band ? rates[static_cast<std::size_t>(*band)] : 0.60;
}

struct Carbohydrate {
  double usual;
  Interval<double> range;
};
// Grams an hour for a ride of that length.
Carbohydrate carbohydrate_for(double hours) {
  if (hours <= 1.0) return {15.0, {0.0, 30.0}};
  if (hours < 2.5) return {45.0, {30.0, 60.0}};
  return {75.0, {60.0, 90.0}};
}

// "Hexford Filling Station (map): 0.2 km off the drive to Ford, 12 km after setting out, about 09:40."
std::string pump_words(const KitPump& pump, const KitFacts& facts) {
  const std::string name = pump.name + (pump.is_marked ? " (marked in the ride)" : " (map)");
  if (!pump.car) return name + ": beside no drive of the plan.";
  const double off = in_kilometres(pump.off);
  return name + ": " + (off < 0.05 ? "on" : fixed(off, 1) + " km off") + " the drive to " + pump.drive_to + ", " +
         fixed(in_kilometres(pump.driven), 0) + " km after setting out, about " + hours_minutes(pump.at, facts.clock) +
         ".";
}

}  // namespace

Amount rider_carbohydrate(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"rider-carbohydrate", "Carbohydrate for the riders", 0.0, "g", {}, "", {}, "", {}, {}};
  for (const auto& horse : facts.horses) {
    const double hours = in_hours(horse.ridden);
    const Carbohydrate by_length = carbohydrate_for(hours);
    const double rate = settings.carbohydrate_g_per_h.value_or(by_length.usual);
    amount.value += rate * hours;
    amount.range.from += std::min(rate, by_length.range.from) * hours;
    amount.range.to += std::max(rate, by_length.range.to) * hours;
    const std::string who = horse.rider.empty() ? "rider of " + horse.name : horse.rider;
    amount.inputs.push_back({who + ", time in the saddle", hours, "h", "plan"});
    amount.inputs.push_back(
        {who + ", an hour", rate, "g/h",
         settings.carbohydrate_g_per_h ? "typed in the ride file" : "middle of the range for that time"});
  }
  amount.formula =
      "hours in the saddle x grams an hour, summed over the riders: 30-60 g/h beyond an hour, 60-90 g/h from 2.5 h of "
      "glucose and fructose together; range: the ends of that range";
  amount.source =
      "30-60 and 60-90 g/h: Sports Science Exchange 108; little gain beyond 78 g/h: Curvilinear dose-response of "
      "carbohydrate, MSSE 2013, 45, 336-341. What is taken within the first hour: common practice, no source";
  amount.cautions = {"Only what was tried in training; it does not grow with body mass."};
  return amount;
}

Amount rider_fluid(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"rider-fluid", "Drink for the riders", 0.0, "L", {}, "", {}, "", {}, {}};
  const double rate = settings.rider_fluid_l_per_h.value_or(fluid_by_heat(worst_band(facts)));
  double hours = 0.0;
  for (const auto& horse : facts.horses) hours += in_hours(horse.ridden);
  amount.value = rate * hours;
  amount.range = {std::min(rate, 0.4) * hours, std::max(rate, 0.8) * hours};
  amount.inputs = {
      {"hours in the saddle, all riders", hours, "h", "plan"},
      {"an hour", rate, "L/h",
       settings.rider_fluid_l_per_h ? "typed in the ride file" : "by the worst heat of the day, within 0.4-0.8"}};
  amount.formula = "hours in the saddle x litres an hour; range: 0.4 to 0.8 L/h";
  amount.source =
      "0.4-0.8 L/h from memory; near the sweat rate and not more, at most 2 % of body mass lost, sodium beyond 2 h: "
      "Fluid and fuel intake during exercise, J Sports Sci 2004, 22, 39-55";
  amount.cautions = {"Drinking more than is sweated out is harmful too: by thirst, never by force."};
  return amount;
}

Amount crew_fluid(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"crew-fluid", "Drink for the crew", 0.0, "L", {}, "", {}, no_source, {}, {}};
  const bool is_hot = may_be_hot(facts);
  const double rate = is_hot ? settings.crew_fluid_hot_l_per_h : settings.crew_fluid_l_per_h;
  const double hours = in_hours(hours_out(facts));
  amount.value = facts.crew * hours * rate;
  const Interval<double> usual = is_hot ? Interval<double>{0.5, 1.0} : Interval<double>{0.25, 0.5};
  amount.range = {facts.crew * hours * std::min(rate, usual.from), facts.crew * hours * std::max(rate, usual.to)};
  amount.inputs = {
      {"people of the crew", static_cast<double>(facts.crew), "", facts.is_crew_known ? "ride file" : "assumed"},
      {"hours out", hours, "h", "plan"},
      {"each, an hour", rate, "L/h",
       std::string("0.25 and more, 0.5-1.0 in heat (common practice, no source)") +
           (worst_band(facts) ? "" : "; weather not known, so as in heat")}};
  amount.formula = "people x hours out x litres an hour; range: 0.25-0.5 L/h, in heat 0.5-1.0 L/h";
  amount.cautions = {"Drivers drink no alcohol; in heat drink before thirst, and rest in the shade."};
  return amount;
}

Amount crew_food(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"crew-food", "Meals for the crew", 0.0, "meals", {}, "", {}, no_source, {}, {}};
  const double people = facts.crew;
  amount.value = people * facts.loops * settings.meals_per_loop;
  amount.range = {0.5 * amount.value, amount.value + people};
  amount.inputs = {
      {"people of the crew", people, "", facts.is_crew_known ? "ride file" : "assumed"},
      {"loops", static_cast<double>(facts.loops), "", "course"},
      {"meals of each, a loop", settings.meals_per_loop, "", "real food each loop (common practice, no source)"}};
  amount.formula = "people x loops x meals; range: half of it to one meal more for each";
  return amount;
}

Amount fuel_amount(std::size_t car, const KitFacts& facts, const KitSettings& settings) {
  const KitCar& which = facts.cars[car];
  Amount amount{"fuel-" + in_lower_case(which.name), "Fuel for " + which.name, 0.0, "L", {}, "", {}, "", {}, {}};
  const double per_km = settings.fuel_l_per_100km / 100.0 * (settings.is_towing ? 1.25 : 1.0);
  const double driven = in_kilometres(which.driven);
  const double idling = settings.idling_l_per_h * in_hours(settings.idling_per_stop) * static_cast<double>(which.stops);
  const double reserve = in_kilometres(settings.fuel_reserve_range);
  amount.value = (driven + settings.drive_back_km + reserve) * per_km + idling;
  amount.range = {(driven + settings.drive_back_km) * per_km, amount.value + 0.25 * (amount.value - idling)};
  amount.inputs = {
      {"driven by the plan", driven, "km", "plan"},
      {"to the venue and home", settings.drive_back_km, "km", "ride file"},
      {"reserve", reserve, "km", "never under a quarter of the tank or 80 km (common practice, no source)"},
      {"consumption", 100.0 * per_km, "L/100 km",
       "hatchback 7, estate 8, large four-wheel drive 11, a quarter more when towing (common practice, no source)"},
      {"stops", static_cast<double>(which.stops), "", "plan"},
      {"engine running at each", in_minutes(settings.idling_per_stop), "min", no_source},
      {"idling", settings.idling_l_per_h, "L/h", "from memory"}};
  amount.formula =
      "(driven + way there and back + reserve) x consumption + stops x idling; range: without reserve and idling, to a "
      "quarter more consumption";
  amount.source = no_source;
  amount.cautions = {"Start with three quarters of a tank or more."};
  bool has_pump = false;
  for (const auto& pump : facts.pumps) {
    if (pump.car && *pump.car != car) continue;
    has_pump = true;
    amount.steps.push_back(pump_words(pump, facts));
  }
  amount.cautions.push_back(has_pump ? "Whether a pump is open, and when, is for you to find out."
                                     : "No pump is known beside the drives: add the nearest under \"refills\" with "
                                       "\"fuel\": true.");
  return amount;
}

}  // namespace outbye
