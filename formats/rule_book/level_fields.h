// The rules of a level and of a gate as fields of a JSON object, in a book and in an event's own values. Inside this
// folder.
#pragma once

#include "core/rules/rule_book.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

// How values are written: in a book {"value": 40, "mark": ..., "source": ...}; an event's own plainly, or with a
// source.
enum class ValueStyle { book, own };

// The rules of a level without its gates and finish, and those of a gate. Neither calls in.finish().
void read_rule_level_fields(JsonFields& in, RuleLevel& level, ValueStyle style);
void read_gate_rules(JsonFields& in, GateRules& gate, ValueStyle style);
// "gate", "gates" and "finish".
void read_all_gates(JsonFields& in, RuleLevel& level, ValueStyle style);

void add_rule_level_fields(Json& into, const RuleLevel& level, ValueStyle style);
void add_all_gates(Json& into, const RuleLevel& level, ValueStyle style);

}  // namespace outbye
