// Whether a condition of the catalogue holds on a day, in words. Internal to kit.
#pragma once

#include <string>
#include <vector>

#include "core/kit/kit_facts.h"
#include "core/kit/kit_item.h"

namespace outbye {

struct Holds {
  bool yes{};
  std::string why;  // "the ride is 80 km, from 50 km"; of what does not hold: the first that fails of each
};

Holds any_holds(const std::vector<KitCondition>& when, const KitFacts& facts);  // empty: always

}  // namespace outbye
