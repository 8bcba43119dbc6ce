#include "cli/kit_text.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "cli/plan_table.h"
#include "cli/text_layout.h"
#include "core/base/text.h"
#include "core/kit/kit_crates.h"

namespace outbye {
namespace {

// "12 L", "1.5 kg": three figures are more than anybody measures.
std::string figure(double value) { return fixed(value, std::fabs(value) < 10.0 && value != std::floor(value) ? 1 : 0); }

std::string amount_row(const Amount& amount) {
  return left(cut_to(one_line(amount.id), 19), 20) + left(cut_to(one_line(amount.name), 31), 31) +
         right(figure(amount.value), 6) + " " + left(amount.unit, 5) + " " + right(figure(amount.range.from), 5) +
         " to " + figure(amount.range.to) + "\n";
}

std::string entry_row(const KitEntry& entry) {
  return std::string(entry.is_packed ? "[x] " : "[ ] ") + right(std::to_string(entry.count), 3) + "  " +
         left(cut_to(one_line(entry.item.name), 43), 44) + left(cut_to(one_line(entry.item.id), 18), 19) +
         right(fixed(entry.mass.value, 1), 6) + "\n";
}

std::size_t ticked(const KitList& list) {
  return static_cast<std::size_t>(
      std::count_if(list.taken.begin(), list.taken.end(), [](const KitEntry& entry) { return entry.is_packed; }));
}

std::string needs_words(const KitItem& item) {
  std::string words;
  for (const auto need : item.needed) words += (words.empty() ? "" : ", ") + std::string(kit_need_word(need));
  return words;
}

std::string lift_words(LiftedBy lift) {
  switch (lift) {
    case LiftedBy::men:
      return "who may lift as the guideline filter has it for men";
    case LiftedBy::two_people:
      return "two people";
    case LiftedBy::anyone:
      break;
  }
  return "anyone within the guideline filter";
}

std::string condition_note(const KitEntry& entry) {
  return entry.item.when.empty() ? "" : "It comes along only when a condition of its own holds.";
}

std::string opened(const KitEntry& entry, const Style& style) {
  const KitItem& item = entry.item;
  std::string text = style.heading(cut_to(one_line(item.name + " (" + item.id + ")"), line_width)) + "\n";
  text += wrapped(entry.reason, "  ");
  if (entry.count > 0) text += wrapped("How many: " + std::to_string(entry.count) + "; " + entry.why_so_many, "  ");
  text += wrapped("Why: " + item.why, "  ");
  text += wrapped("Needed: " + needs_words(item) + "; packed: " + (entry.is_packed ? "yes [x]" : "not yet [ ]"), "  ");
  text += wrapped("Size: " + std::to_string(item.size.length) + " x " + std::to_string(item.size.width) + " x " +
                      std::to_string(item.size.height) + " mm; " + fixed(item.empty.value, 2) + " kg empty, " +
                      fixed(item.full.value, 2) + " kg as carried; bears " + fixed(item.bears.value, 0) + " kg",
                  "  ");
  text += wrapped("Lifted by: " + lift_words(item.lifted_by), "  ");
  text += wrapped(item.must_come ? "It must come along." : "Pain if left: " + fixed(item.pain, 0) + " of 1000", "  ");
  text += wrapped(condition_note(entry), "  ");
  text += wrapped("Source: " + std::string(kit_mark_word(item.mark)) + (item.source.empty() ? "" : "; " + item.source),
                  "  ");
  for (const auto& content : item.contents) text += wrapped(content, "  [ ] ");
  text += wrapped(item.contents_note, "  ! ");
  return text;
}

std::string opened(const Amount& amount, const Style& style) {
  std::string text = style.heading(cut_to(one_line(amount.name + " (" + amount.id + ")"), line_width)) + "\n";
  text += wrapped(fixed(amount.value, 1) + " " + amount.unit + "; range " + fixed(amount.range.from, 1) + " to " +
                      fixed(amount.range.to, 1) + " " + amount.unit,
                  "  ");
  text += wrapped("Formula: " + amount.formula + ".", "  ");
  if (!amount.inputs.empty()) text += "  Inputs:\n";
  for (const auto& input : amount.inputs) {
    text += wrapped(input.name + ": " + fixed(input.value, 2) + (input.unit.empty() ? "" : " " + input.unit) + " (" +
                        input.source + ")",
                    "    - ");
  }
  text += wrapped("Source: " + amount.source, "  ");
  for (const auto& step : amount.steps) text += wrapped(step, "  > ");
  for (const auto& caution : amount.cautions) text += wrapped(caution, "  ! ");
  return text;
}

// Which small things travel in which crate, and what has its place in the car.
std::string packed_together(const KitPlan& kit, const Style& style) {
  const KitList& list = kit.list;
  if (list.crates.empty()) return "";
  std::string text = "\n" + style.heading("What travels together") + "\n";
  for (const KitCrate& crate : list.crates) {
    const auto alike = std::count_if(list.crates.begin(), list.crates.end(),
                                     [&](const KitCrate& other) { return other.item.id == crate.item.id; });
    std::string words = crate.item.name + (alike > 1 ? " " + std::to_string(crate.number) : "");
    if (kit.facts.cars.size() > 1) words += " of " + kit.facts.cars[crate.car].name;
    words += ", " + fixed(crate.mass.value, 1) + " kg";
    if (crate.item.hold && crate.item.hold->is_place) words += ", not in the boot";
    text += wrapped(words + ": " + crate_words(crate, list) + ".", "  - ");
  }
  return text;
}

}  // namespace

std::string kinds_of_things(std::size_t count) {
  return std::to_string(count) + (count == 1 ? " kind of thing" : " kinds of things");
}

std::string kit_table(const std::string& ride, const KitPlan& kit, bool with_left, const Style& style) {
  std::string text;
  if (!ride.empty()) text += style.heading(cut_to(one_line(ride), line_width)) + "\n";
  text += style.heading("Amounts") + "\n";
  text += style.quiet(left("name", 20) + left("what", 31) + right("plan", 6) + "       range") + "\n";
  for (const auto& amount : kit.amounts) {
    if (amount.value > 0.0 || amount.range.to > 0.0) text += amount_row(amount);
  }
  for (const auto& amount : kit.amounts) {
    for (const auto& step : amount.steps) text += wrapped(amount.name + ": " + step, "  > ");
    // What is given to a horse never stands without its cautions.
    if (amount.id != "electrolyte" || amount.value <= 0.0) continue;
    for (const auto& caution : amount.cautions) text += wrapped(caution, "  ! ");
  }
  std::optional<KitGroup> group;
  for (const auto& entry : kit.list.taken) {
    if (group != entry.item.group) text += "\n" + style.heading(kit_group_name(entry.item.group)) + "\n";
    group = entry.item.group;
    text += entry_row(entry);
  }
  text += packed_together(kit, style);
  text += "\n" + wrapped(kinds_of_things(kit.list.taken.size()) + ", " + fixed(kit.list.mass.value, 0) +
                         " kg in all; " + std::to_string(ticked(kit.list)) + " ticked [x] as packed.");
  if (with_left) {
    text += "\n" + style.heading("At home") + "\n";
    for (const auto& entry : kit.list.at_home) {
      text += wrapped(entry.item.name + " (" + entry.item.id + "): " + entry.reason, "  - ");
    }
  } else if (!kit.list.at_home.empty()) {
    const bool is_one = kit.list.at_home.size() == 1;
    text +=
        wrapped(kinds_of_things(kit.list.at_home.size()) + (is_one ? " stays" : " stay") + " at home; --all says why.");
  }
  for (const auto& note : kit.list.notes) text += wrapped(note, "  ! ");
  for (const auto& assumption : kit.assumptions) text += wrapped(assumption, "  * ");
  text += wrapped("--why NAME opens a thing or an amount to its formula, inputs, source and range.");
  return text;
}

Result<std::string> kit_answer_why(const KitPlan& kit, const std::string& name, const Style& style) {
  if (const Amount* amount = find_amount(kit.amounts, name)) {
    std::string text = opened(*amount, style);
    // "electrolyte" and "ice" may be a thing and an amount: both are told.
    if (const KitEntry* entry = find_entry(kit.list, name)) text += "\n" + opened(*entry, style);
    return text;
  }
  if (const KitEntry* entry = find_entry(kit.list, name)) return opened(*entry, style);
  std::vector<std::string_view> known;
  for (const auto& amount : kit.amounts) {
    known.push_back(amount.id);
    known.push_back(amount.name);
  }
  for (const auto* entries : {&kit.list.taken, &kit.list.at_home}) {
    for (const auto& entry : *entries) {
      known.push_back(entry.item.id);
      known.push_back(entry.item.name);
    }
  }
  std::string what = "'" + name + "' is no thing or amount of this ride";
  if (const auto nearest = nearest_name(name, known)) {
    what += "; did you mean '" + std::string(*nearest) + "'?";
  } else {
    what += "; `outbye kit RIDE --all` lists them";
  }
  return not_found("--why", what);
}

}  // namespace outbye
