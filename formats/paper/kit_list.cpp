#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"

namespace outbye {
namespace {

std::string figure(double value) { return fixed(value, std::fabs(value) < 10 && value != std::floor(value) ? 1 : 0); }

void things(Paper& paper, const KitPlan& kit) {
  std::optional<KitGroup> group;
  Table table;
  table.columns = {{"", true}, {"", true, TextAlign::end}, {"", false}, {"", true, TextAlign::end}};
  const auto flush = [&] {
    if (!table.rows.empty()) paper.table(table);
    table.rows.clear();
  };
  std::vector<const KitEntry*> with_contents;
  for (const KitEntry& entry : kit.list.taken) {
    if (group != entry.item.group) {
      flush();
      group = entry.item.group;
      paper.heading(3, std::string(kit_group_name(*group)));
    }
    table.rows.push_back({entry.is_packed ? "\u2611" : tick_box, std::to_string(entry.count) + " \u00d7",
                          entry.item.name, fixed(entry.mass.value, 1) + " kg"});
    if (!entry.item.contents.empty()) with_contents.push_back(&entry);
  }
  flush();
  paper.text(std::to_string(kit.list.taken.size()) + " kinds of things, " + fixed(kit.list.mass.value, 0) +
             " kg in all. " + "\u2611 packed already.");
  paper.list(kit.list.notes, "!");
  for (const KitEntry* entry : with_contents) {
    paper.heading(2, "In " + entry->item.name);
    paper.list(entry->item.contents, tick_box);
    if (!entry->item.contents_note.empty()) paper.text(entry->item.contents_note);
  }
}

bool is_from_the_tap(const Amount& amount) {
  for (const char* id : {"drinking-water", "cooling-water", "washing-water", "spare-water", "carried-water"}) {
    if (amount.id == id) return true;
  }
  return false;
}

void amounts(Paper& paper, const KitPlan& kit, bool from_the_tap) {
  Table table;
  table.columns = {{"", true}, {"What", false}, {"Plan", true, TextAlign::end}, {"Range", true}};
  std::vector<std::string> steps, cautions;
  for (const Amount& amount : kit.amounts) {
    if (is_from_the_tap(amount) != from_the_tap || (amount.value <= 0 && amount.range.to <= 0)) continue;
    table.rows.push_back({tick_box, amount.name, figure(amount.value) + " " + amount.unit,
                          figure(amount.range.from) + " to " + figure(amount.range.to)});
    for (const auto& step : amount.steps) steps.push_back(amount.name + ": " + step);
    for (const auto& caution : amount.cautions) {
      const std::string line = amount.name + ": " + caution;
      if (std::find(cautions.begin(), cautions.end(), line) == cautions.end()) cautions.push_back(line);
    }
  }
  paper.table(table);
  paper.list(steps);
  paper.list(cautions, "!");
}

void stock(Paper& paper, const std::vector<CarStock>& stocks, const RidePlan& plan) {
  std::vector<std::string> lines;
  for (const CarStock& one : stocks) {
    const std::string car = car_words(plan, one.car);
    for (const StockPurchase& buy : one.answer.buy) {
      lines.push_back(
          car + ": room for " + fixed(static_cast<double>(buy.least.value) / 1000.0, 1) + " " +
          std::string(stock_kind_unit(buy.kind)) + " more of " + std::string(stock_kind_name(buy.kind)) +
          (buy.sold ? ", " + std::to_string(buy.count) + " \u00d7 " + figure(buy.sold->value) + " L as sold" : "") +
          ".");
    }
    for (const CarryLine& carry : one.answer.carry) {
      const std::string unit(stock_kind_unit(carry.kind));
      lines.push_back(car + ": set out with " + fixed(static_cast<double>(carry.carry.value) / 1000.0, 0) + " " + unit +
                      " of " + std::string(stock_kind_name(carry.kind)) + ".");
    }
  }
  if (lines.empty()) return;
  paper.heading(3, "Into the cans and boxes");
  paper.list(lines, tick_box);
}

}  // namespace

void kit_list(Paper& paper, const PaperSources& from) {
  sheet_title(paper, from.plan, "Kit list");
  things(paper, *from.kit);
  paper.heading(1, "Shopping list");
  amounts(paper, *from.kit, false);
  paper.to_fill_in({"also", "also", "also", "also"}, 120);
  paper.heading(2, "From the tap");
  amounts(paper, *from.kit, true);
  if (from.stock != nullptr) stock(paper, *from.stock, from.plan);
  if (!from.kit->assumptions.empty()) {
    paper.heading(2, "Taken for granted");
    paper.list(from.kit->assumptions);
  }
}

}  // namespace outbye
