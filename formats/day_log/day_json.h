// The answer of `outbye day` as JSON, version 1: docs/day.md and docs/schema/day-1.json.
#pragma once

#include <optional>

#include "engine/day.h"
#include "formats/day_log/day_log_file.h"
#include "formats/json_text/json_text.h"

namespace outbye {

// `rest`: nothing when it was not asked for.
Json day_json(const RidePlan& plan, const DayAnswer& answer, const std::optional<Result<RestOfDay>>& rest,
              const std::vector<UnreadLine>& unread);

}  // namespace outbye
