// Ice: what brings the water to the wanted temperature, and what the box loses until it is used.
#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/text.h"
#include "core/base/water_physics.h"
#include "core/kit/kit_formulas.h"

namespace outbye {
namespace {

// Kelvin above 0 degrees times seconds, from the start until `until`. Between hours on a straight line would matter by
// a few percent; each hour's temperature counts until the next.
double warmth(const KitFacts& facts, Instant until, Celsius unknown) {
  if (until <= facts.from) return 0.0;
  if (facts.temperatures.empty()) return std::max(0.0, unknown.value) * (until - facts.from).count();
  double sum = 0.0;
  for (std::size_t i = 0; i < facts.temperatures.size(); ++i) {
    const bool is_last = i + 1 == facts.temperatures.size();
    // The first hour counts back to the start and the last on to the end.
    const Instant from = i == 0 ? facts.from : std::max(facts.from, facts.temperatures[i].first);
    const Instant to = is_last ? until : std::min(until, facts.temperatures[i + 1].first);
    if (to > from) sum += std::max(0.0, facts.temperatures[i].second.value) * (to - from).count();
  }
  return sum;
}

}  // namespace

Amount ice_amount(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"ice", "Ice", 0.0, "kg", {}, "", {}, "", {}, {}};
  double need = 0.0;
  Instant last = facts.from;
  for (const auto& stop : facts.stops) {
    if (stop.ice.value <= 0.0) continue;
    need += stop.ice.value;
    last = std::max(last, stop.at);
    amount.inputs.push_back({"to cool " + fixed(stop.pour.value, 0) + " L, " + stop_words(stop, facts), stop.ice.value,
                             "kg", "heat balance: V c (T1 - T2) / (L + c T2)"});
  }
  const double boxes =
      need > 0.0 ? std::max(1.0, std::ceil(need * (1.0 + settings.ice_spare) / settings.ice_per_box.value)) : 0.0;
  const double kelvin_seconds = warmth(facts, last, settings.weather_unknown);
  const auto melted = [&](double leak) {
    return boxes * ice_melted(CoolBox{leak}, kelvin_seconds, Seconds{1.0}).value;
  };
  const double leak = settings.box_leak_w_per_k;
  const double on_top = 1.0 + settings.ice_spare;
  amount.value = on_top * (need + melted(leak));
  amount.range = {need + melted(std::min(leak, 0.5)), on_top * (need + melted(std::max(leak, 1.5)))};
  const double hours = std::max(0.0, (last - facts.from).count()) / 3600.0;
  amount.inputs.push_back(
      {"cool boxes", boxes, "", "ice needed / " + fixed(settings.ice_per_box.value, 0) + " kg a box"});
  amount.inputs.push_back({"leak of one box", leak, "W/K",
                           "0.6 for 3 cm of foam (solved ice-chest exercise 3-162); thin picnic boxes 1.0-1.5, good "
                           "ones 0.3-0.5 (common practice, no source)"});
  amount.inputs.push_back({"time until the last ice is used", hours, "h", "plan"});
  amount.inputs.push_back({"warmer than the ice, on average", hours > 0.0 ? kelvin_seconds / 3600.0 / hours : 0.0, "K",
                           facts.temperatures.empty() ? "assumed: weather not known" : "weather of the ride"});
  amount.inputs.push_back({"melts in the boxes by then", melted(leak), "kg", "leak x kelvin x time / 333.6 kJ/kg"});
  amount.inputs.push_back({"on top, for opening the lid and sun on it", settings.ice_spare, "", no_source});
  amount.formula =
      "(ice to cool the poured water at each stop + boxes x leak x kelvin x time / heat of fusion) x (1 + spare); "
      "range: "
      "good box without spare to thin box with it";
  amount.source = "heat of fusion 333.6 kJ/kg and water 4.186 kJ/kg/K (from memory)";
  amount.cautions = {"Ice goes into the water, not onto the horse or under a rug.",
                     "Keep the box shut, shaded, inside the car, under a rug."};
  return amount;
}

}  // namespace outbye
