// A day log is a set of events. Two logs merge by set union, and the state of the day is a function of that set, so it
// does not matter in which order events arrive, by which way, or how often.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/live/day_event.h"

namespace outbye {

struct DayLog {
  std::vector<DayEvent> events;  // ascending, each once: use add_event() and merged()
  friend bool operator==(const DayLog&, const DayLog&) = default;
};

void add_event(DayLog& log, DayEvent event);
DayLog day_log_of(std::vector<DayEvent> events);
// Commutative, associative, idempotent.
DayLog merged(const DayLog& a, const DayLog& b);
// {0, 0} for an empty log.
HybridTime latest_note(const DayLog& log);
// An event of this device's, noted now: its id is made of the device and the hybrid time, so it comes only once as long
// as no two devices share a name.
DayEvent new_event(const DayLog& log, const std::string& device, std::int64_t device_milliseconds, DayEntry entry);
DayEvent new_correction(const DayLog& log, const std::string& device, std::int64_t device_milliseconds,
                        const std::string& of, DayEntry entry);
DayEvent new_withdrawal(const DayLog& log, const std::string& device, std::int64_t device_milliseconds,
                        const std::string& of);

// An entry as it stands after all corrections and withdrawals.
struct StandingEntry {
  std::string id;      // of the event that entered it
  HybridTime noted;    // of the event that it was last put right by
  std::string device;  // of that event
  bool is_corrected{};
  DayEntry entry;
};

struct StandingLog {
  std::vector<StandingEntry> entries;  // by when they happened, then when they were noted, then id
  std::vector<StandingEntry> withdrawn;
  Warnings warnings;  // corrections of what is not in the log (yet), one id used twice
};

// Of several corrections and withdrawals of one event the one noted last counts. A withdrawal of a correction brings
// back what was there before it; a withdrawal of a withdrawal brings the entry back. What was noted before the event it
// names is ignored with a warning, and so is a correction of a correction or withdrawal: correct the entry itself.
StandingLog standing(const DayLog& log);

}  // namespace outbye
