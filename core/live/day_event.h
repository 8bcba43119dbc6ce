// One line of the day log: what a person saw or did, when it happened, who noted it and when. Events are never changed:
// a correction or a withdrawal is a new event that names the old one. Places, horses and cars are as the ride names
// them; what they mean on a course is worked out in engine/day.h.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/live/hybrid_clock.h"

namespace outbye {

enum class DayKind {
  horse_in,     // our horse comes to a pass, gate or finish
  horse_out,    // ... goes on from a pass
  car_at,       // a car of ours has parked
  car_left,     // ... has driven off
  number_seen,  // a start number passes; ours too, when it is ours
  word,         // another crew says that our horse was seen, or not yet
  watch_begin,  // somebody watches a place from now on
  watch_end,
  break_begin,  // the watcher looks away
  break_end,
  watched,       // watched from `at` to `until`, noted afterwards
  gate_in_time,  // as the officials wrote it down
  gate_outcome,  // what the officials said of the horse: `accepted` or not
  gate_out,      // goes out on the next loop; `loop` 0 is the start of the ride
  drink,
  electrolyte,
  feed,
  pulse,
  stock_used,
  stock_filled,
  note,
};

// Whole seconds. Which fields an entry has depends on its kind: check_entry().
struct DayEntry {
  DayKind kind{DayKind::note};
  Instant at;                         // when it happened
  std::string horse;                  // name or start number of one of ours; empty: the first
  std::string car;                    // empty: the first
  std::string place;                  // crew point, or the venue for gates and finish
  std::optional<std::uint32_t> loop;  // 1-based; nothing: worked out from the times
  std::optional<std::uint32_t> nth;   // 1-based pass within the loop
  std::string number;                 // number_seen, as typed
  std::string who;                    // who watches, counts, or sends word
  std::optional<Instant> until;       // watched
  std::optional<Instant> seen_at;     // word: when she is said to have passed; nothing with not_yet
  std::optional<Seconds> doubt;       // word: sd of that time, 0..2 h; nothing: 3 min
  std::optional<double> trust;        // word: chance that it is about our horse at all, 0..1; nothing: 0.8
  bool not_yet{};                     // word: had not passed by `at`
  std::optional<double> overlook;     // watch: chance of overlooking her as she passes, 0..1; nothing: 0.05
  std::string what;                   // drink "bucket", feed "hay", stock "water"
  std::optional<double> amount;       // in `unit`, 0 or more
  std::string unit;                   // "L", "kg", "g", "pieces"
  std::optional<double> beats;        // pulse, a minute
  bool presented{};                   // pulse: to the officials
  std::optional<bool> accepted;       // gate_outcome
  std::string text;                   // of a note; may be given with anything
  std::string photo;                  // a file's name

  // By hand: Emscripten's library has no <=> for text and optional values.
  auto in_order() const {
    return std::tie(kind, at, horse, car, place, loop, nth, number, who, until, seen_at, doubt, trust, not_yet,
                    overlook, what, amount, unit, beats, presented, accepted, text, photo);
  }
  friend bool operator==(const DayEntry&, const DayEntry&) = default;
  friend bool operator<(const DayEntry& a, const DayEntry& b) { return a.in_order() < b.in_order(); }
};

struct DayEvent {
  enum class Act { enter, correct, withdraw };
  HybridTime noted;
  std::string device;  // 1 to 64 letters, digits, '.', '_', ':' or '-'
  std::string id;      // likewise; made on the device, never used again
  Act act{Act::enter};
  std::string of;  // correct, withdraw: the id of the event meant
  DayEntry entry;  // enter; correct: in place of the old one
  // By when it was noted, then device and id: an order that every device agrees on.
  friend bool operator==(const DayEvent&, const DayEvent&) = default;
  friend bool operator<(const DayEvent& a, const DayEvent& b) {
    return std::tie(a.noted, a.device, a.id, a.act, a.of, a.entry) <
           std::tie(b.noted, b.device, b.id, b.act, b.of, b.entry);
  }
};

// "horse_in"; and back.
std::string_view day_kind_name(DayKind kind);
std::optional<DayKind> day_kind_named(std::string_view name);

// What is wrong with an entry by itself: a field that its kind needs or does not have, a number out of range. Empty:
// nothing. `where` of the problems is the field.
std::vector<Problem> check_entry(const DayEntry& entry);
// Likewise of the whole event: ids, `of`, and the entry.
std::vector<Problem> check_event(const DayEvent& event);

}  // namespace outbye
