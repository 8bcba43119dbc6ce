#include "core/rules/rule_set.h"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/text.h"
#include "core/rules/rule_fields.h"

namespace outbye {
namespace {

std::string nearest_of(const std::string& name, const std::vector<std::string_view>& names, const std::string& else_) {
  if (const auto nearest = nearest_name(name, names)) return "; did you mean '" + std::string(*nearest) + "'?";
  return else_;
}

std::string list_of(const std::vector<std::string_view>& names) {
  std::string text;
  for (const auto name : names) text += (text.empty() ? "'" : ", '") + std::string(name) + "'";
  return text;
}

Result<const RuleBook*> book_of(const std::vector<RuleBook>& books, const std::string& id) {
  std::vector<std::string_view> ids;
  for (const auto& book : books) {
    if (same_name(book.id, id)) return &book;
    ids.push_back(book.id);
  }
  return not_found("rules.book", "'" + id + "' is no rule book" + nearest_of(id, ids, "; there are " + list_of(ids)));
}

Result<RuleLevel> level_of(const RuleBook& book, const std::string& name) {
  std::vector<std::string_view> names;
  for (const auto& level : book.levels) {
    if (same_name(level.name, name)) return level;
    names.push_back(level.name);
  }
  if (name.empty() && book.levels.size() == 1) return book.levels.front();
  // "Open" for "Open graded", where no other level begins with that word.
  const auto begins = [&name](const RuleLevel& level) {
    return !name.empty() && level.name.size() > name.size() && level.name[name.size()] == ' ' &&
           same_name(std::string_view(level.name).substr(0, name.size()), name);
  };
  if (std::count_if(book.levels.begin(), book.levels.end(), begins) == 1) {
    return *std::find_if(book.levels.begin(), book.levels.end(), begins);
  }
  const std::string choices = "; its levels are " + list_of(names);
  if (name.empty()) return bad_input("rules.level", "is missing: the book '" + book.id + "' has several" + choices);
  return not_found("rules.level",
                   "'" + name + "' is no level of the book '" + book.id + "'" + nearest_of(name, names, choices));
}

// "hold at gate 2: 50 min instead of 40 min (book: from memory)"
template <class T>
std::string override_words(const std::string& rule, const Ruled<T>& own, const Rule<T>& book) {
  std::string text = rule + ": " + in_words(own.value);
  const std::string said = own.source.empty() ? "" : "; said in: " + own.source;
  if (!book) return text + " (the book is silent" + said + ")";
  text += book->value == own.value ? " as in the book" : " instead of " + in_words(book->value);
  return text + " (book: " + in_words(book->mark) + said + ")";
}

// Puts each value that `own` sets into `into`; `book_says` gives what held until now.
class Overriding {
 public:
  explicit Overriding(RuleSet& rules) : rules_(rules) {}

  void level(const RuleLevel& own) {
    each_level_rule([&](RuleField field, auto member) { put(own.*member, rules_.level.*member, field, ""); });
  }

  void every_gate(const GateRules& own) {
    each_gate_rule([&](RuleField field, auto member) {
      if (!(own.*member)) return;
      put(own.*member, rules_.level.gate.*member, field, " at every gate");
      for (auto& [gate, single] : rules_.level.gates) (single.*member).reset();
    });
  }

  void one_gate(std::uint32_t gate, const GateRules& own) {
    const GateRules before = gate_rules(rules_, gate);
    GateRules& single = rules_.level.gates[gate];
    each_gate_rule([&](RuleField field, auto member) {
      if (!(own.*member)) return;
      single.*member = before.*member;
      put(own.*member, single.*member, field, " at gate " + std::to_string(gate));
    });
  }

  void finish(const GateRules& own) {
    each_gate_rule(
        [&](RuleField field, auto member) { put(own.*member, rules_.level.finish.*member, field, " at the finish"); });
  }

 private:
  template <class T>
  void put(const Rule<T>& own, Rule<T>& into, RuleField field, const std::string& where) {
    if (!own) return;
    rules_.overridden.push_back(override_words(std::string(field.words) + where, *own, into));
    into = own;
    into->mark = Mark::event;
  }

  RuleSet& rules_;
};

template <class T>
std::string with_mark(const Ruled<T>& rule) {
  return in_words(rule.value) + ", " + in_words(rule.mark);
}

// The event's values and the book's, each good alone, may not go together.
std::optional<std::string> contradiction_at(const std::string& where, const GateRules& gate) {
  if (!gate.present_after || !gate.present_within || gate.present_after->value <= gate.present_within->value) {
    return std::nullopt;
  }
  return "presenting " + where + " begins (" + with_mark(*gate.present_after) + ") after its end (" +
         with_mark(*gate.present_within) + "); set both";
}

std::optional<std::string> contradiction(const RuleSet& rules) {
  const RuleLevel& level = rules.level;
  if (level.min_speed && level.max_speed && level.max_speed->value < level.min_speed->value) {
    return "the slowest speed (" + with_mark(*level.min_speed) + ") is above the fastest (" +
           with_mark(*level.max_speed) + "); set both";
  }
  if (auto found = contradiction_at("at every gate", level.gate)) return found;
  for (const auto& [gate, single] : level.gates) {
    if (auto found = contradiction_at("at gate " + std::to_string(gate), gate_rules(rules, gate))) return found;
  }
  return contradiction_at("at the finish", level.finish);
}

}  // namespace

Result<RuleSet> rule_set(const std::vector<RuleBook>& books, const RuleChoice& choice) {
  RuleSet rules;
  if (choice.book.empty()) {
    rules.book_name = "no rule book: the event's own values alone";
  } else {
    const auto book = book_of(books, choice.book);
    if (!book) return tl::make_unexpected(book.error());
    auto level = level_of(**book, choice.level);
    if (!level) return tl::make_unexpected(level.error());
    rules.book_id = (*book)->id;
    rules.book_name = (*book)->name;
    rules.year = (*book)->year;
    rules.source = (*book)->source;
    rules.notes = (*book)->notes;
    rules.level = std::move(*level);
  }
  Overriding overriding(rules);
  overriding.level(choice.own);
  overriding.every_gate(choice.own.gate);
  for (const auto& [gate, own] : choice.own.gates) overriding.one_gate(gate, own);
  overriding.finish(choice.own.finish);
  if (const auto found = contradiction(rules)) return bad_input("rules", *found);
  return rules;
}

GateRules gate_rules(const RuleSet& rules, std::uint32_t gate) {
  GateRules merged = rules.level.gate;
  const auto single = rules.level.gates.find(gate);
  if (single == rules.level.gates.end()) return merged;
  each_gate_rule([&](RuleField, auto member) {
    if (single->second.*member) merged.*member = single->second.*member;
  });
  return merged;
}

GateRules finish_rules(const RuleSet& rules) { return rules.level.finish; }

SpeedWindow speed_window(const RuleLevel& level, Metres length) {
  SpeedWindow window;
  if (level.max_speed) window.earliest = length / level.max_speed->value;
  if (level.min_speed) window.latest = length / level.min_speed->value;
  return window;
}

std::optional<Seconds> elapsed_limit(const RuleLevel& level, Metres length) {
  std::optional<Seconds> limit;
  if (level.time_limit) limit = level.time_limit->value;
  if (level.min_elapsed_speed) {
    const Seconds by_speed = length / level.min_elapsed_speed->value;
    limit = limit ? std::min(*limit, by_speed) : by_speed;
  }
  return limit;
}

}  // namespace outbye
