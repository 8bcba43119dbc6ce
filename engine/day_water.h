// A horse's water and salts on the day, up to now: sweat by the times noted and the weather, less what the log says it
// drank. An estimate with its range, to tell the vet of; what it means for the horse is for the vet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/use_cases.h"

namespace outbye {

struct DayState;
struct PassOutlook;

struct WaterNow {
  HorseId horse;
  HorseBody body;
  WaterBalance balance;            // up to now
  SaltBalance salts;               // likewise, against what is noted as given; holds its cautions
  std::vector<std::string> notes;  // what was taken for granted and what is not counted, in sentences
};

// By horse. `passes`: by horse, then in order of the ride. Where nobody noted her the middle of her window counts. A
// stop at which no drink is noted counts as anything from none to what is usually taken.
std::vector<WaterNow> water_now(const RidePlan& plan, const DayState& state, const std::vector<PassOutlook>& passes);

}  // namespace outbye
