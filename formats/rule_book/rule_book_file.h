// Rule books as JSON files (docs/rules.md), and the books that come with Outbye.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/rules/rule_book.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

constexpr int rule_book_version = 1;

// A book, or every problem that keeps the file from being one (at least one then).
struct RuleBookReading {
  std::optional<RuleBook> book;
  std::vector<Problem> problems;
};

// `file` is used in messages only. A number of a book is {"value": 40, "mark": "published", "source": "..."}.
RuleBookReading check_rule_book(std::string_view text, const std::string& file);

// The same with the first problem only.
Result<RuleBook> read_rule_book(std::string_view text, const std::string& file);

std::string write_rule_book(const RuleBook& book);

// The books built into the program, in the order in which they are listed: international first.
const std::vector<RuleBook>& preset_books();

// What a ride asks of a book, inside another file: {"book": "british", "level": "Open", "own": {"min_speed_kmh": 10},
// "gate": {"hold_min": 30}, "gates": [{"gate": 2, "hold_min": 50}], "finish": {...}}. An own value is written plainly
// (40) or with where it was said ({"value": 40, "source": "briefing"}); its mark is `event`. Calls in.finish().
// Whether book and level exist is for rule_set() to say.
void read_rule_choice(JsonFields& in, RuleChoice& choice);
Json write_rule_choice(const RuleChoice& choice);

}  // namespace outbye
