// What `outbye gate` shows: one gate told by options or a day's file, worked at one moment; as text and as JSON.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cli/console.h"
#include "core/gate/recovery.h"
#include "core/gate/recovery_index.h"
#include "formats/gate_log/gate_log.h"

namespace outbye {

struct GateReport {
  GateLog log;
  Instant now;
  std::uint32_t first_gate{1};               // number of log.day.loops[0]
  bool is_day{};                             // a day's file; else one gate
  std::vector<LoopProgress> loops;           // one a loop of the log
  std::optional<DayProgress> day;            // of a day's file
  std::size_t current{};                     // the loop whose gate is the one to look at now
  std::optional<RecoveryForecast> forecast;  // at that gate, while the horse recovers
  std::optional<RecoveryIndex> index;
};

// Works out everything but the log, `now`, `first_gate`, `is_day` and `index`. Errors: as day_progress.
Result<void> work_out(GateReport& report, const RecoveryPrior& prior);

std::string gate_text(const GateReport& report, const Style& style);
std::string gate_json(const GateReport& report);

// The last line of every answer.
std::string gate_last_word();

}  // namespace outbye
