#include "core/live/day_log.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace outbye {
namespace {

DayEvent event_noted_now(const DayLog& log, const std::string& device, std::int64_t device_milliseconds) {
  DayEvent event;
  event.noted = next_hybrid_time(latest_note(log), device_milliseconds);
  event.device = device;
  event.id = device + "-" + std::to_string(event.noted.milliseconds) + "-" + std::to_string(event.noted.count);
  return event;
}

}  // namespace

void add_event(DayLog& log, DayEvent event) {
  const auto place = std::lower_bound(log.events.begin(), log.events.end(), event);
  if (place != log.events.end() && *place == event) return;
  log.events.insert(place, std::move(event));
}

DayLog day_log_of(std::vector<DayEvent> events) {
  std::sort(events.begin(), events.end());
  events.erase(std::unique(events.begin(), events.end()), events.end());
  return {std::move(events)};
}

DayLog merged(const DayLog& a, const DayLog& b) {
  DayLog both;
  both.events.reserve(a.events.size() + b.events.size());
  std::set_union(a.events.begin(), a.events.end(), b.events.begin(), b.events.end(), std::back_inserter(both.events));
  return both;
}

HybridTime latest_note(const DayLog& log) { return log.events.empty() ? HybridTime{} : log.events.back().noted; }

DayEvent new_event(const DayLog& log, const std::string& device, std::int64_t device_milliseconds, DayEntry entry) {
  DayEvent event = event_noted_now(log, device, device_milliseconds);
  event.entry = std::move(entry);
  return event;
}

DayEvent new_correction(const DayLog& log, const std::string& device, std::int64_t device_milliseconds,
                        const std::string& of, DayEntry entry) {
  DayEvent event = new_event(log, device, device_milliseconds, std::move(entry));
  event.act = DayEvent::Act::correct;
  event.of = of;
  return event;
}

DayEvent new_withdrawal(const DayLog& log, const std::string& device, std::int64_t device_milliseconds,
                        const std::string& of) {
  DayEvent event = event_noted_now(log, device, device_milliseconds);
  event.act = DayEvent::Act::withdraw;
  event.of = of;
  return event;
}

StandingLog standing(const DayLog& log) {
  StandingLog result;
  const auto& events = log.events;
  // Of two events with one id the first in the agreed order has it.
  std::map<std::string_view, std::size_t> by_id;
  std::vector<char> is_double(events.size(), 0);
  for (std::size_t i = 0; i < events.size(); ++i) {
    if (by_id.emplace(events[i].id, i).second) continue;
    is_double[i] = 1;
    result.warnings.push_back({"event " + events[i].id,
                               "is in the log twice with different contents; the one noted "
                               "first is used: correct it if the other is right"});
  }
  // From the last note to the first, so that whatever could withdraw an event has been decided before it.
  std::vector<char> is_withdrawn(events.size(), 0);
  std::vector<std::optional<std::size_t>> corrected_by(events.size());
  std::vector<char> is_decided(events.size(), 0);  // by a later correction or withdrawal
  for (std::size_t k = events.size(); k-- > 0;) {
    const DayEvent& event = events[k];
    if (event.act == DayEvent::Act::enter || is_withdrawn[k] != 0 || is_double[k] != 0) continue;
    const auto found = by_id.find(event.of);
    const char* const act = event.act == DayEvent::Act::correct ? "corrects" : "withdraws";
    if (found == by_id.end()) {
      result.warnings.push_back({"event " + event.id, std::string(act) + " '" + event.of +
                                                          "', which is not in this log; it will count once that event "
                                                          "has come"});
      continue;
    }
    const std::size_t target = found->second;
    if (target >= k) {
      result.warnings.push_back(
          {"event " + event.id, std::string(act) + " '" + event.of + "', which was noted after it; it is left aside"});
      continue;
    }
    if (event.act == DayEvent::Act::correct && events[target].act != DayEvent::Act::enter) {
      result.warnings.push_back(
          {"event " + event.id,
           "corrects '" + event.of + "', which is itself a correction or a withdrawal; correct the entry itself"});
      continue;
    }
    if (is_decided[target] != 0) continue;
    is_decided[target] = 1;
    if (event.act == DayEvent::Act::withdraw) {
      is_withdrawn[target] = 1;
    } else {
      corrected_by[target] = k;
    }
  }
  std::reverse(result.warnings.begin(), result.warnings.end());
  for (std::size_t i = 0; i < events.size(); ++i) {
    if (events[i].act != DayEvent::Act::enter || is_double[i] != 0) continue;
    const DayEvent& last = corrected_by[i] ? events[*corrected_by[i]] : events[i];
    StandingEntry entry{events[i].id, last.noted, last.device, corrected_by[i].has_value(), last.entry};
    (is_withdrawn[i] != 0 ? result.withdrawn : result.entries).push_back(std::move(entry));
  }
  const auto earlier = [](const StandingEntry& a, const StandingEntry& b) {
    return std::tie(a.entry.at, a.noted, a.id) < std::tie(b.entry.at, b.noted, b.id);
  };
  std::sort(result.entries.begin(), result.entries.end(), earlier);
  std::sort(result.withdrawn.begin(), result.withdrawn.end(), earlier);
  return result;
}

}  // namespace outbye
