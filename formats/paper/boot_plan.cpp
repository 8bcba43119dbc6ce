#include <algorithm>
#include <cmath>
#include <map>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"
#include "formats/picture/labels.h"

namespace outbye {
namespace {

struct Placed {
  LoadBox box;
  int step{};
};

// A floor from above: the seat-back at the top, the tailgate at the bottom, so that the left of the picture is the left
// of the car. What stands at this height is white with its step; what is under it is dashed.
void draw_layer(Paper& paper, const LoadSpace& space, const std::vector<Placed>& here, const std::vector<Placed>& below,
                const std::string& title, const Box& box) {
  const TextLook look = paper.small();
  const LayoutPtr words = paper.typesetter().layout(title, look, box.right - box.left);
  paper.put(words, {box.left, box.top}, look);
  const double top = box.top + layout_height(words.get()) + 3;
  const double scale = std::min((box.right - box.left - 2) / std::max(1, space.size.width),
                                (box.bottom - top - 2) / std::max(1, space.size.length));
  const auto area = [&](const LoadBox& of) {
    return Box{box.left + 1 + of.at.y * scale, top + of.at.x * scale, box.left + 1 + (of.at.y + of.size.width) * scale,
               top + (of.at.x + of.size.length) * scale};
  };
  paper.put_rectangle(area({{0, 0, 0}, space.size}), 1.2, std::nullopt);
  for (const LoadBox& blocked : space.blocked) paper.put_rectangle(area(blocked), 0.4, 0.8);
  for (const Placed& one : below) {
    const Box at = area(one.box);
    paper.put_path(
        {{at.left, at.top}, {at.right, at.top}, {at.right, at.bottom}, {at.left, at.bottom}, {at.left, at.top}}, 0.4,
        0.5, {1, 2});
  }
  Labels labels({box.left, top, box.right, box.bottom});
  std::vector<std::pair<LayoutPtr, Box>> small;
  for (const Placed& one : here) {
    const Box at = area(one.box);
    paper.put_rectangle(at, 0.9, 1.0);
    const LayoutPtr number = paper.typesetter().layout(std::to_string(one.step), look, 0);
    const double wide = layout_width(number.get()), high = layout_height(number.get());
    if (wide <= at.right - at.left && high <= at.bottom - at.top) {
      const Spot where{(at.left + at.right - wide) / 2, (at.top + at.bottom - high) / 2};
      paper.put(number, where, look);
      labels.take({where.x, where.y, where.x + wide, where.y + high});
    } else {
      small.emplace_back(number, at);
    }
  }
  // A thing smaller than its number: the number beside it, joined by a line, if there is room; the list has it anyway.
  for (const auto& [number, at] : small) {
    const Spot middle{(at.left + at.right) / 2, (at.top + at.bottom) / 2};
    const auto placed = labels.place(middle, layout_width(number.get()) + 1, layout_height(number.get()), 3, 40);
    if (!placed) continue;
    paper.put_line(middle, {(placed->box.left + placed->box.right) / 2, (placed->box.top + placed->box.bottom) / 2},
                   0.4);
    paper.put_rectangle(placed->box, 0, 1.0);
    paper.put(number, {placed->box.left, placed->box.top}, look);
  }
}

void layers(Paper& paper, const CarLoad& car, LoadSpaceId space, const std::vector<LoadStep>& steps) {
  constexpr Millimetres same_height = 40;
  std::vector<Placed> all;
  for (std::size_t p = 0; p < car.load.placements.size(); ++p) {
    if (car.load.placements[p].space == space) all.push_back({car.load.placements[p].box, steps[p].step});
  }
  std::stable_sort(all.begin(), all.end(), [](const Placed& a, const Placed& b) { return a.box.at.z < b.box.at.z; });
  std::vector<std::vector<Placed>> by_height;
  for (const Placed& one : all) {
    if (by_height.empty() || one.box.at.z - by_height.back().front().box.at.z > same_height) by_height.emplace_back();
    by_height.back().push_back(one);
  }
  const LoadSpace& of = at(car.task.spaces, space);
  const std::size_t beside = paper.width() > 300 ? 2 : 1;
  for (std::size_t first = 0; first < by_height.size(); first += beside) {
    const double each = paper.width() / static_cast<double>(beside);
    const double height = std::min(each * of.size.length / std::max(1, of.size.width), 0.4 * paper.page_room()) + 24;
    paper.picture(height, [&](const Box& box) {
      for (std::size_t i = first; i < std::min(first + beside, by_height.size()); ++i) {
        std::vector<Placed> below;
        for (std::size_t b = 0; b < i; ++b) below.insert(below.end(), by_height[b].begin(), by_height[b].end());
        const double left = box.left + static_cast<double>(i - first) * each;
        draw_layer(paper, of, by_height[i], below,
                   "From above, standing at " + std::to_string(by_height[i].front().box.at.z / 10) +
                       " cm; seat-back at the top",
                   {left, box.top, left + each - 8, box.bottom});
      }
    });
  }
}

void space_part(Paper& paper, const CarLoad& car, LoadSpaceId space) {
  const LoadSpace& of = at(car.task.spaces, space);
  Table table;
  table.columns = {
      {"", true}, {"Step", true, TextAlign::end}, {"What", false}, {"Where", false}, {"kg", true, TextAlign::end}};
  if (!car.task.helpers.empty()) table.columns.push_back({"Lifted by", false});
  for (std::size_t p = 0; p < car.load.placements.size() && p < car.steps.size(); ++p) {
    const LoadPlacement& placement = car.load.placements[p];
    if (placement.space != space) continue;
    const LoadStep& step = car.steps[p];
    const LoadItem& item = at(car.task.items, placement.item);
    std::string where =
        step.side + ", " + step.depth + ", " + step.on + (step.turned.empty() ? "" : ", " + step.turned);
    if (!placement.moved_first.empty()) {
      std::string first;
      for (const LoadItemId id : placement.moved_first)
        first += (first.empty() ? "" : ", ") + at(car.task.items, id).name;
      where += ". To reach it, first: " + first;
    }
    table.rows.push_back(
        {tick_box, std::to_string(step.step), {item.name, true}, where, fixed(item.mass.value, 1), step.lift});
  }
  if (table.rows.empty()) return;
  std::string name = of.name.empty() ? "boot" : of.name;
  paper.heading(2, car.name + ", " + name);
  paper.text("In this order, each against what is in already. Nearest the tailgate comes in last and out first.");
  paper.table(table);
  layers(paper, car, space, car.steps);
  if (space.value < car.load.balance.size()) {
    const LoadBalance& balance = at(car.load.balance, space);
    paper.text("Load " + fixed(balance.mass.value, 0) + " kg; its middle " + std::to_string(balance.centre.x / 10) +
               " cm behind the seat-back and " + std::to_string(balance.centre.z / 10) + " cm above the floor.");
  }
}

}  // namespace

void boot_plan(Paper& paper, const PaperSources& from) {
  sheet_title(paper, from.plan, "Boot plan");
  for (const CarLoad& car : from.load->cars) {
    for (std::uint32_t s = 0; s < car.task.spaces.size(); ++s) space_part(paper, car, LoadSpaceId{s});
    paper.text(car.load.proof_words.empty() ? "" : car.name + ": " + car.load.proof_words + ".");
    std::vector<std::string> lines;
    for (const Warning& caution : car.load.cautions) lines.push_back(caution.where + ": " + caution.what);
    for (const Warning& warning : car.warnings) lines.push_back(warning.where + ": " + warning.what);
    if (!lines.empty()) paper.heading(3, "To mind, " + car.name);
    paper.list(lines, "!");
    if (!car.assumptions.empty()) paper.heading(3, "Taken for granted, " + car.name);
    paper.list(car.assumptions);
  }
  if (!from.load->elsewhere.empty()) {
    paper.heading(2, "Not in the boot of its own car");
    // The same reason is said once, with all that it holds for.
    std::vector<std::pair<std::string, std::vector<std::string>>> reasons;
    for (const LoadedElsewhere& item : from.load->elsewhere) {
      const std::string where = item.where == LoadedElsewhere::Where::roof_box    ? "In the roof box of " + item.from
                                : item.where == LoadedElsewhere::Where::other_car ? "In " + item.to
                                                                                  : "Stays at home";
      const std::string reason = where + ": " + item.why;
      auto same = std::find_if(reasons.begin(), reasons.end(), [&](const auto& one) { return one.first == reason; });
      if (same == reasons.end()) same = reasons.insert(reasons.end(), {reason, {}});
      same->second.push_back(item.item);
    }
    for (const auto& [reason, items] : reasons) {
      paper.heading(3, reason);
      std::string words;
      for (const std::string& item : items)
        words += (words.empty() ? "" : "  ") + std::string(tick_box) + "\u00a0" + item;
      paper.text(words);
    }
  }
}

}  // namespace outbye
