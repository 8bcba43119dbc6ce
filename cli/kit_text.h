// Kit and amounts for people, in 80 columns.
#pragma once

#include <string>

#include "cli/console.h"
#include "core/base/result.h"
#include "engine/kit.h"

namespace outbye {

std::string kit_table(const std::string& ride, const KitPlan& kit, bool with_left, const Style& style);

// One thing or amount, opened. Errors: not_found with the nearest name.
Result<std::string> kit_answer_why(const KitPlan& kit, const std::string& name, const Style& style);

// "1 kind of thing", "12 kinds of things"
std::string kinds_of_things(std::size_t count);

}  // namespace outbye
