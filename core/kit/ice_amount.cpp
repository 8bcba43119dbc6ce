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

// The boxes that the ice goes into: the own ones, tightest first, then as many more as it takes.
struct Boxes {
  std::vector<const KitBox*> own;
  double more{};
  double leak{};  // of all together, W/K
  double leak_of_good{};
  double leak_of_thin{};
};

Boxes boxes_for(double ice_kg, const KitFacts& facts, const KitSettings& settings) {
  constexpr double good = 0.5;
  constexpr double thin = 1.5;
  Boxes boxes;
  double rest = ice_kg;
  for (const KitBox& box : facts.boxes) {
    if (rest <= 0.0) break;
    boxes.own.push_back(&box);
    boxes.leak += box.leak_w_per_k;
    boxes.leak_of_good += std::min(box.leak_w_per_k, good);
    boxes.leak_of_thin += std::max(box.leak_w_per_k, thin);
    rest -= box.ice.value;
  }
  if (rest > 0.0) boxes.more = std::ceil(rest / settings.ice_per_box.value - 1e-9);
  boxes.leak += boxes.more * settings.box_leak_w_per_k;
  boxes.leak_of_good += boxes.more * std::min(settings.box_leak_w_per_k, good);
  boxes.leak_of_thin += boxes.more * std::max(settings.box_leak_w_per_k, thin);
  return boxes;
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
  const double on_top = 1.0 + settings.ice_spare;
  const Boxes boxes = boxes_for(need * on_top, facts, settings);
  const double kelvin_seconds = warmth(facts, last, settings.weather_unknown);
  const auto melted = [&](double leak) { return ice_melted(CoolBox{leak}, kelvin_seconds, Seconds{1.0}).value; };
  amount.value = on_top * (need + melted(boxes.leak));
  amount.range = {need + melted(boxes.leak_of_good), on_top * (need + melted(boxes.leak_of_thin))};
  const double hours = std::max(0.0, (last - facts.from).count()) / 3600.0;
  amount.inputs.push_back({"cool boxes", static_cast<double>(boxes.own.size()) + boxes.more, "",
                           facts.boxes.empty()
                               ? "ice needed / " + fixed(settings.ice_per_box.value, 0) + " kg a box"
                               : "your own, the tightest first, each with 0.6 kg of ice a litre (common practice, no "
                                 "source)"});
  for (const KitBox* box : boxes.own)
    amount.inputs.push_back({"leak of " + box->name, box->leak_w_per_k, "W/K", box->leak_is});
  if (boxes.more > 0.0 || boxes.own.empty()) {
    amount.inputs.push_back({boxes.own.empty() ? "leak of one box" : "leak of each box more", settings.box_leak_w_per_k,
                             "W/K",
                             "0.6 for 3 cm of foam (solved ice-chest exercise 3-162); thin picnic boxes 1.0-1.5, good "
                             "ones 0.3-0.5 (common practice, no source)"});
  }
  amount.inputs.push_back({"time until the last ice is used", hours, "h", "plan"});
  amount.inputs.push_back({"warmer than the ice, on average", hours > 0.0 ? kelvin_seconds / 3600.0 / hours : 0.0, "K",
                           facts.temperatures.empty() ? "assumed: weather not known" : "weather of the ride"});
  amount.inputs.push_back(
      {"melts in the boxes by then", melted(boxes.leak), "kg", "leak x kelvin x time / 333.6 kJ/kg"});
  amount.inputs.push_back({"on top, for opening the lid and sun on it", settings.ice_spare, "", no_source});
  amount.formula =
      "(ice to cool the poured water at each stop + the boxes' leaks x kelvin x time / heat of fusion) x (1 + spare); "
      "range: good boxes without spare to thin boxes with it";
  amount.source = "heat of fusion 333.6 kJ/kg and water 4.186 kJ/kg/K (from memory)";
  amount.cautions = {"Ice goes into the water, not onto the horse or under a rug.",
                     "Keep the box shut, shaded, inside the car, under a rug."};
  return amount;
}

}  // namespace outbye
