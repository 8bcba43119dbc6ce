// The gate log as a JSON file (docs/gate.md): the loops of the day with what happened at each gate.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/gate/day_progress.h"
#include "core/rules/rule_set.h"

namespace outbye {

constexpr int gate_log_version = 1;

struct GateLog {
  std::string name;
  Clock clock;
  RuleSet rules;
  RideDay day;                 // its loops with the rules of their gates
  std::optional<Instant> now;  // the log may fix it, to be looked at later
};

// A log, or every problem that keeps the file from being one (at least one then).
struct GateLogReading {
  std::optional<GateLog> log;
  std::vector<Problem> problems;
};

// `file` is used in messages only. Times are ISO 8601 or "10:32" on the log's date by its zone.
GateLogReading read_gate_log(std::string_view text, const std::string& file, const std::vector<RuleBook>& books);

}  // namespace outbye
