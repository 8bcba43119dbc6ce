// A horse's water and salts over a planned day. Internal to engine.
#pragma once

#include <vector>

#include "engine/use_cases.h"

namespace outbye {

HorseBody body_of(const RideHorse& horse);

// Fills `water` and `drank` of the horse's passes in `passes` (one for each of plan.passes, with heat and drinks in
// them). Riding and standing take the median times; drinks are as recorded, else what is usually taken where the pass
// is served; at water on the course what is usually taken in the field.
HorseDayWater horse_day_water(const RidePlan& plan, HorseId horse, std::vector<PassWelfare>& passes);

}  // namespace outbye
