// How many of a thing of the catalogue the day asks for, and why. Internal to kit.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/kit/kit_amounts.h"
#include "core/kit/kit_facts.h"
#include "core/kit/kit_item.h"

namespace outbye {

struct KitNumber {
  std::size_t number{};
  std::string words;
};

// `in_other_cans`: litres that larger cans of the list hold already; counts for water to carry alone.
KitNumber number_of(const KitItem& item, const KitFacts& facts, const std::vector<Amount>& amounts,
                    double in_other_cans);

}  // namespace outbye
