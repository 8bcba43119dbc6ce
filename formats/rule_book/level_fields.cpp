#include "formats/rule_book/level_fields.h"

#include <optional>
#include <type_traits>

#include "core/base/text.h"
#include "core/rules/rule_fields.h"
#include "formats/rule_book/rule_values.h"

namespace outbye {
namespace {

template <class T>
void read_rule(JsonFields& in, std::string_view name, Rule<T>& into, ValueStyle style) {
  const Json* field = in.find(name);
  if (field == nullptr) return;
  std::optional<T> value;
  if (style == ValueStyle::own && !field->is_object()) {
    read_plain(in, name, value);
    if (value) into = Ruled<T>{*value, Mark::event, ""};
    return;
  }
  const std::string example = "{\"value\": ..., \"mark\": \"published\", \"source\": \"...\"}";
  if (!field->is_object()) return in.report(name, "is a value without its mark; write " + example);
  JsonFields at(*field, in.file(), in.path_of(name), in.problems());
  at.require("value", "the number or word of this rule");
  read_plain(at, "value", value);
  std::optional<Mark> mark;
  std::string source;
  at.text("source", source, true);
  if (style == ValueStyle::book) {
    at.require("mark", "say how far it can be trusted: published, derived, from memory, common practice or event");
    read_mark(at, "mark", mark);
    if ((mark == Mark::published || mark == Mark::derived) && trimmed(source).empty()) {
      at.report("source", "is missing; name what was read or from what it was worked out, or mark it 'from memory'");
    }
  }
  at.finish();
  if (value) into = Ruled<T>{*value, mark.value_or(Mark::event), source};
}

template <class T>
void add_rule(Json& into, std::string_view name, const Rule<T>& rule, ValueStyle style) {
  if (!rule) return;
  const Json value = plain_json(rule->value);
  if (style == ValueStyle::own) {
    into[std::string(name)] = rule->source.empty() ? value : Json{{"value", value}, {"source", rule->source}};
    return;
  }
  Json json{{"value", value}, {"mark", mark_name(rule->mark)}};
  if (!rule->source.empty()) json["source"] = rule->source;
  into[std::string(name)] = std::move(json);
}

Json gate_json(const GateRules& gate, ValueStyle style) {
  Json json = Json::object();
  each_gate_rule([&](RuleField field, auto member) { add_rule(json, field.name, gate.*member, style); });
  return json;
}

}  // namespace

void read_gate_rules(JsonFields& in, GateRules& gate, ValueStyle style) {
  each_gate_rule([&](RuleField field, auto member) { read_rule(in, field.name, gate.*member, style); });
  if (gate.attempts && gate.attempts->value == 0) {
    in.report("attempts", "is 0, but a horse is presented at least once; leave it out when unknown");
  }
  if (gate.present_after && gate.present_within && gate.present_after->value > gate.present_within->value) {
    in.report("present_after_min", "is " + in_words(gate.present_after->value) + ", later than present_within_min (" +
                                       in_words(gate.present_within->value) + "); nobody could be in time");
  }
}

void read_rule_level_fields(JsonFields& in, RuleLevel& level, ValueStyle style) {
  each_level_rule([&](RuleField field, auto member) { read_rule(in, field.name, level.*member, style); });
  if (level.min_speed && level.max_speed && level.max_speed->value < level.min_speed->value) {
    in.report("max_speed_kmh", "is " + in_words(level.max_speed->value) + ", slower than min_speed_kmh (" +
                                   in_words(level.min_speed->value) + "); put the faster speed here");
  }
}

void read_all_gates(JsonFields& in, RuleLevel& level, ValueStyle style) {
  const auto whole_gate = [&](std::string_view name, GateRules& gate) {
    const Json* field = in.find(name);
    if (field == nullptr) return;
    JsonFields at(*field, in.file(), in.path_of(name), in.problems());
    read_gate_rules(at, gate, style);
    at.finish();
  };
  whole_gate("gate", level.gate);
  in.items("gates", [&](const Json& item, const std::string& path) {
    JsonFields at(item, in.file(), path, in.problems());
    std::optional<std::uint32_t> number;
    at.require("gate", "1 is the first vet gate");
    at.whole("gate", 1, 100, [&](std::uint64_t n) { number = static_cast<std::uint32_t>(n); });
    GateRules gate;
    read_gate_rules(at, gate, style);
    at.finish();
    if (!number) return;
    if (!level.gates.emplace(*number, gate).second) {
      at.report("gate", "is " + std::to_string(*number) + " a second time; write one entry for each gate");
    }
  });
  whole_gate("finish", level.finish);
}

void add_rule_level_fields(Json& into, const RuleLevel& level, ValueStyle style) {
  each_level_rule([&](RuleField field, auto member) { add_rule(into, field.name, level.*member, style); });
}

void add_all_gates(Json& into, const RuleLevel& level, ValueStyle style) {
  if (Json gate = gate_json(level.gate, style); !gate.empty()) into["gate"] = std::move(gate);
  if (!level.gates.empty()) {
    Json list = Json::array();
    for (const auto& [number, gate] : level.gates) {
      Json item{{"gate", number}};
      item.update(gate_json(gate, style));
      list.push_back(std::move(item));
    }
    into["gates"] = std::move(list);
  }
  if (Json finish = gate_json(level.finish, style); !finish.empty()) into["finish"] = std::move(finish);
}

}  // namespace outbye
