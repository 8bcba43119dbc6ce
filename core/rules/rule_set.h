// Which rules hold at a ride: a level of a book, with the event's own values in place of the book's.
#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/rules/rule_book.h"

namespace outbye {

// Errors: not_found for an unknown book or level, with the nearest name; bad_input for a level left out or for values
// of event and book that contradict each other. An empty `choice.book` stands for no book: the event's own values
// alone. What the event sets for every gate also replaces what the book says of a single gate.
Result<RuleSet> rule_set(const std::vector<RuleBook>& books, const RuleChoice& choice);

// What holds at one vet gate, 1 the first: its own values before those of every gate.
GateRules gate_rules(const RuleSet& rules, std::uint32_t gate);

// What holds at the last inspection; rules of the gates do not carry over.
GateRules finish_rules(const RuleSet& rules);

// How long the riding may take at the slowest and the fastest speed allowed; nothing where there is no such speed.
struct SpeedWindow {
  std::optional<Seconds> earliest;
  std::optional<Seconds> latest;
};
SpeedWindow speed_window(const RuleLevel& level, Metres length);

// The latest finish after the start, holds included: the earlier of the time limit and the slowest elapsed speed.
std::optional<Seconds> elapsed_limit(const RuleLevel& level, Metres length);

}  // namespace outbye
