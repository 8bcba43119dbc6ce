#include "core/kit/kit_facts.h"

#include <algorithm>

namespace outbye {

Seconds hours_out(const KitFacts& facts) { return facts.to > facts.from ? facts.to - facts.from : Seconds{0}; }

std::optional<HeatBand> worst_band(const KitFacts& facts) {
  std::optional<HeatBand> worst;
  for (const auto& stop : facts.stops) {
    if (stop.band && (!worst || *stop.band > *worst)) worst = stop.band;
  }
  return worst;
}

bool may_be_hot(const KitFacts& facts) {
  const auto worst = worst_band(facts);
  return !worst || *worst >= HeatBand::discomfort;
}

std::string stop_words(const KitStop& stop, const KitFacts& facts) {
  std::string words;
  if (facts.horses.size() > 1 && stop.horse < facts.horses.size()) words = facts.horses[stop.horse].name + " at ";
  words += stop.name;
  if (facts.loops > 1) words += ", loop " + std::to_string(stop.loop);
  return words + ", " + hours_minutes(stop.at, facts.clock);
}

}  // namespace outbye
