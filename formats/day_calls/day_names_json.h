// The names by which log events and answers speak of things: DayNames of web/src/day/engine/day_calls.ts. Internal to
// formats/day_calls.
#pragma once

#include "engine/use_cases.h"
#include "formats/json_text/json_text.h"

namespace outbye {

Json day_names_json(const RidePlan& plan);

}  // namespace outbye
