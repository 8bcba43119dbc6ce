// What the parts of the fold from a log to the state of the day share. Internal to engine.
#pragma once

#include <string>

#include "core/base/text.h"
#include "engine/day.h"
#include "engine/day_names.h"

namespace outbye {

struct DayFold {
  const RidePlan& plan;
  const DayNames& names;
  Instant now;
  std::vector<DayTrouble>& troubles;

  void trouble(const std::string& id, const std::string& what) const { troubles.push_back({id, what}); }
  std::string clock_time(Instant at) const { return hours_minutes_seconds(at, plan.ride.clock); }
  // The value, or a trouble and nothing.
  template <class T>
  std::optional<T> known(const std::string& id, Result<T> result) const {
    if (result) return *result;
    trouble(id, result.error().what + " (kept, not used)");
    return std::nullopt;
  }
};

}  // namespace outbye
