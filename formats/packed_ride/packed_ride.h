// A ride with its plan in one piece of text: what the engine needs on a phone to stand where it stood at home. JSON,
// {"format": "outbye packed ride", "version": 1, ...}; docs/wasm.md lists the fields.
// In place of course files and elevation tiles it holds the surveyed course, in place of the road map the drives and
// the routes of the plan, the time zone as the offsets in force, and the plan as it was chosen: nothing is searched
// anew.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/kit/choose_kit.h"
#include "engine/use_cases.h"
#include "formats/json_text/json_text.h"

namespace outbye {

constexpr int packed_ride_version = 1;

// `plan` as planned from `inputs`. `kit`: what is taken along, for what to get out at each stop. Errors: impossible,
// when a number in it cannot be written (our own mistake).
Result<std::string> packed_ride(const RideInputs& inputs, const RidePlan& plan, const std::vector<KitEntry>& kit = {});

// The plan as it was packed, down to its simulated days. Errors: bad_input, for text that is no packed ride, or of
// another version, or whose plan does not fit its ride.
Result<RidePlan> open_packed_ride(std::string_view text);

// All of it.
struct PackedDay {
  RidePlan plan;
  std::vector<KitEntry> kit;  // with names, counts and when they are needed
  std::string packed_by;      // version of outbye
};
Result<PackedDay> open_packed_day(const Json& document);

}  // namespace outbye
