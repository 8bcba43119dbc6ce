// Water: what is drunk, poured, washed with, and kept for others; and the most of it that rides in a car at once.
#include <algorithm>
#include <string>

#include "core/kit/kit_formulas.h"

namespace outbye {
namespace {

const char* quality = "Do not share a bucket between horses, and do not let strange ones drink from yours: disease.";

// Everything brought for a stop: drunk, poured, washed with, soaked in.
Litres brought(const StopWater& water) { return water.drinking + water.cooling + water.washing + water.feed; }

// How much more than is drunk must stand ready at the greediest of these stops: at the last one too.
struct Ready {
  Litres drunk{};
  Litres on_top{};
  void add(const StopWater& water) {
    drunk += water.drinking;
    on_top = std::max(on_top, water.drinking_offer - water.drinking);
  }
  Litres sum() const { return drunk + on_top; }
};

Litres least_taken(const KitStop& stop, const KitFacts& facts, const StopWater& water) {
  Litres least = std::min(stop.drink_taken.from, water.drinking);
  if (stop.horse >= facts.horses.size()) return least;
  for (const auto& like : facts.horses[stop.horse].likes) {
    if (like.drink == HorseLike::Drink::nothing && holds_on(like, stop.loop)) return Litres{0.0};
  }
  return least;
}

}  // namespace

Amount drinking_water(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"drinking-water", "Drinking water for the horses", 0.0, "L", {}, "", {}, "", {}, {}};
  Ready ready;
  for (const auto& stop : facts.stops) {
    const StopWater water = stop_water(stop, facts, settings);
    ready.add(water);
    amount.range.from += least_taken(stop, facts, water).value;
    amount.range.to += water.drinking_offer.value;
    amount.inputs.push_back({"taken at most as a rule, " + stop_words(stop, facts), water.drinking.value, "L",
                             "drink settings and likes of the ride; " + std::string(no_source)});
  }
  amount.value = ready.sum().value;
  amount.inputs.push_back({"more to stand ready than is drunk, at the greediest stop", ready.on_top.value, "L",
                           "drink settings of the ride"});
  amount.formula =
      "what is usually taken at most, summed over the served stops, and once as much on top as makes the offer full "
      "at the greediest of them; range: least taken everywhere to the whole offer everywhere";
  amount.source =
      "7.6-11.4 L a drink in the field (common practice, no source); 11.4-18.5 L in the first hour after 45 km (Equine "
      "Vet J Suppl 2002)";
  amount.cautions = {"Water is free at every chance and never held back.", quality};
  return amount;
}

Amount cooling_water(const KitFacts& facts, const KitSettings&) {
  Amount amount{"cooling-water", "Cooling water", 0.0, "L", {}, "", {}, "", {}, {}};
  for (const auto& stop : facts.stops) {
    amount.value += stop.pour.value;
    amount.range.from += std::min(stop.pour, stop.pour_range.from).value;
    amount.range.to += std::max(stop.pour, stop.pour_range.to).value;
    amount.inputs.push_back({"poured, " + stop_words(stop, facts), stop.pour.value, "L",
                             "cooling settings of the ride by band of heat; " + std::string(no_source)});
  }
  amount.formula =
      "what is poured at each served stop by its band of heat, summed; range: the band below to the band above";
  amount.source =
      "4-16 L at a stop, 10-20 L at a gate in mild weather and 40-100 L in heat (common practice, no source)";
  amount.cautions = {"In heat pour without a break and ask the vet about any horse that is not itself.",
                     "Cold, wet or windy: little or none, a rug at once."};
  return amount;
}

Amount washing_water(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"washing-water", "Washing water", 0.0, "L", {}, "", {}, no_source, {}, {}};
  double gates = 0.0;
  double passes = 0.0;
  for (const auto& stop : facts.stops) (stop.kind == KitStop::Kind::pass ? passes : gates) += 1.0;
  amount.value = gates * settings.wash_at_gate.value + passes * settings.wash_at_pass.value;
  amount.range = {0.5 * amount.value, 2.0 * amount.value};
  amount.inputs = {{"gates and finish", gates, "stops", "plan"},
                   {"at each", settings.wash_at_gate.value, "L", no_source},
                   {"served passes", passes, "stops", "plan"},
                   {"at each", settings.wash_at_pass.value, "L", no_source}};
  amount.formula = "gates and finish x litres each, and passes x litres each; range: half to double";
  return amount;
}

Amount spare_water(const KitFacts& facts, const KitSettings& settings) {
  const double own = drinking_water(facts, settings).value + cooling_water(facts, settings).value;
  Amount amount{"spare-water", "Spare water for others' horses", 0.0, "L", {}, "", {}, no_source, {}, {}};
  const double share = settings.others_share * own;
  amount.value = std::max(settings.others_least.value, share);
  amount.range = {0.0, std::max(2.0 * settings.others_least.value, share)};
  amount.inputs = {{"drinking and cooling water of your own horses", own, "L", "amounts above"},
                   {"share of it", settings.others_share, "", no_source},
                   {"at least", settings.others_least.value, "L", "one drink in the field; " + std::string(no_source)}};
  amount.formula =
      "the greater of a share of your own horses' water and one drink; range: none to two drinks or that share";
  amount.cautions = {quality};
  return amount;
}

Amount carried_water(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"carried-water", "Water to carry between two taps", 0.0, "L", {}, "", {}, "", {}, {}};
  const double spare = spare_water(facts, settings).value;
  bool carries = false;
  for (std::size_t c = 0; c < facts.cars.size(); ++c) {
    double most = 0.0;
    double least_of_most = 0.0;
    double offered_of_most = 0.0;
    std::string until;
    Ready ready;
    double rest = 0.0;
    double low = 0.0;
    double high = 0.0;
    for (const auto& stop : facts.stops) {
      if (stop.car != c) continue;
      if (stop.has_water || stop.refilled_before) {
        ready = {};
        rest = low = high = 0.0;
      }
      if (stop.has_water) continue;
      const StopWater water = stop_water(stop, facts, settings);
      ready.add(water);
      rest += (brought(water) - water.drinking).value;
      low += least_taken(stop, facts, water).value + (water.cooling + water.washing + water.feed).value;
      high += (water.drinking_offer + water.cooling + water.washing + water.feed).value;
      least_of_most = std::max(least_of_most, low);
      offered_of_most = std::max(offered_of_most, high);
      if (ready.sum().value + rest > most) {
        most = ready.sum().value + rest;
        until = stop_words(stop, facts);
      }
    }
    amount.inputs.push_back({facts.cars[c].name + (until.empty() ? ": no stop without a tap" : ": up to " + until),
                             most, "L", "plan; the sums of its stops since a tap"});
    amount.value += most;
    amount.range.from += least_of_most;
    amount.range.to += offered_of_most;
    carries = carries || most > 0.0;
  }
  if (carries) amount.value += spare;
  if (carries) amount.range.to += spare;
  amount.inputs.push_back({"spare for other people's horses", carries ? spare : 0.0, "L", "amount above"});
  amount.formula =
      "for each car the largest sum of drinking, cooling, washing and soaking water between two stops with a tap, "
      "summed over the cars, and the spare for others; range: least drunk and no spare, to every offer full";
  amount.source = "derived from the amounts above; 1 L weighs 1 kg";
  amount.cautions = {
      "A full 25 L can weighs about 26 kg: two people, or cans of 10 L (Health and Safety Executive, "
      "manual handling guideline filter; a filter, not a legal limit)."};
  return amount;
}

}  // namespace outbye
