// The options of `outbye gate` and what they say. Times, numbers and words are checked here, once.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/gate_report.h"

namespace outbye {

struct GateOptions {
  std::string file;
  std::string arrival, in_time, left, now, date, zone, out, km;
  std::vector<std::string> pulses, presented;
  std::string gate, rules, level;
  std::string limit, at_limit, within, not_before, again_within, attempts, hold, hold_from, clock_stops;
  std::string own_rate, trot, trot_after;
  bool finish{};
  bool at_once{};
  bool json{};
};

// A time typed as the value of an option: "10:32" on `date`. Errors: bad_input at `option`.
Result<Instant> time_from(const std::string& text, const std::string& option, const std::string& date,
                          const Clock& clock);

// One gate told by the options, at `clock_now` unless they say another present.
Result<GateReport> one_gate(const GateOptions& options, Instant clock_now);

// The first option given that tells of one gate, where a file tells of the day.
std::optional<std::string> option_of_one_gate(const GateOptions& options);

Result<RecoveryPrior> prior_from(const GateOptions& options);
Result<std::optional<RecoveryIndex>> index_from(const GateOptions& options);

}  // namespace outbye
