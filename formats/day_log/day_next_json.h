// The next action of a car and the clock of a gate as JSON. Internal to this folder.
#pragma once

#include "engine/day.h"
#include "formats/json_text/json_text.h"

namespace outbye {

Json next_action_json(const RidePlan& plan, const NextAction& next);
Json gate_json(const RidePlan& plan, const GateNow& gate);

}  // namespace outbye
