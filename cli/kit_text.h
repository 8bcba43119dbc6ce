// Kit and amounts for people, in 80 columns, and as JSON (docs/schema/kit-1.json).
#pragma once

#include <string>

#include "cli/console.h"
#include "core/base/result.h"
#include "engine/kit.h"
#include "formats/json_text/json_text.h"

namespace outbye {

std::string kit_table(const std::string& ride, const KitPlan& kit, bool with_left, const Style& style);

// One thing or amount, opened. Errors: not_found with the nearest name.
Result<std::string> kit_answer_why(const KitPlan& kit, const std::string& name, const Style& style);

// `stock`: stock_json() of the same plan.
std::string kit_json(const std::string& ride, const KitPlan& kit, const Json& stock);

}  // namespace outbye
