// Water and salts of the horses and the stock of the cars, as they are now, as JSON. Internal to this folder.
#pragma once

#include "engine/day.h"
#include "formats/json_text/json_text.h"

namespace outbye {

Json water_json(const RidePlan& plan, const DayAnswer& answer);
Json stock_left_json(const RidePlan& plan, const DayAnswer& answer);

}  // namespace outbye
