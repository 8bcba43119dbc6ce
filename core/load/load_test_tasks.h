// Boots and things for the tests, invented but of the sizes that crews carry (common practice and from memory).
#pragma once

#include <string>
#include <utility>

#include "core/base/random.h"
#include "core/load/load_plan.h"

namespace outbye::testing {

inline LoadItem thing(std::string name, LoadSize size, double kg, double bears = 30.0) {
  LoadItem item;
  item.name = std::move(name);
  item.size = size;
  item.mass = Kilograms{kg};
  item.bears = Kilograms{bears};
  return item;
}

inline LoadItem can(std::string name) {
  LoadItem item = thing(std::move(name), {290, 245, 458}, 25.95, 26.0);
  item.is_liquid = true;
  return item;
}

inline LoadSpace box_space(LoadSize size, double payload = 500.0) {
  LoadSpace space;
  space.name = "boot";
  space.size = size;
  space.payload = Kilograms{payload};
  return space;
}

inline LoadTask boot_task(LoadSpace space, std::vector<LoadItem> items) {
  LoadTask task;
  task.spaces = {std::move(space)};
  task.items = std::move(items);
  return task;
}

inline int between(Rng& rng, int low, int high) {
  return low + static_cast<int>(uniform_below(rng, static_cast<std::uint64_t>(high - low + 1)));
}

// Any boot with any things: arches, lip, cover, needs, emergencies, fragile, soft, liquid, things that may be left.
inline LoadTask any_load(Rng& rng, int most_items = 24) {
  LoadTask task;
  LoadSpace boot =
      box_space({between(rng, 600, 1200), between(rng, 900, 1200), between(rng, 450, 850)}, between(rng, 120, 400));
  if (between(rng, 0, 2) > 0) boot.cover_height = between(rng, 400, boot.size.height);
  boot.has_guard = between(rng, 0, 3) == 0;
  if (between(rng, 0, 1) == 1) {
    const Millimetres arch = between(rng, 60, 160);
    boot.blocked.push_back({{0, 0, 0}, {300, arch, 250}});
    boot.blocked.push_back({{0, boot.size.width - arch, 0}, {300, arch, 250}});
  }
  if (between(rng, 0, 2) == 0) {
    boot.blocked.push_back({{boot.size.length - 60, 0, 0}, {60, boot.size.width, 80}});  // a lip
  }
  if (between(rng, 0, 2) == 0) {
    boot.axles = LoadAxles{};
    boot.axles->rear_left_over = Kilograms{1.0 * between(rng, 150, 500)};
  }
  task.spaces.push_back(boot);
  if (between(rng, 0, 2) == 0) {
    LoadSpace roof = box_space({1300, 700, 350}, 60.0);
    roof.name = "roof box";
    roof.kind = LoadSpace::Kind::roof_box;
    roof.inconvenience = 0.3;
    task.spaces.push_back(roof);
  }
  const int count = between(rng, 3, most_items);
  for (int i = 0; i < count; ++i) {
    LoadItem item = thing("thing " + std::to_string(i + 1),
                          {between(rng, 10, 60) * 10, between(rng, 10, 45) * 10, between(rng, 5, 45) * 10},
                          0.1 * between(rng, 2, 200), between(rng, 0, 3) == 0 ? 0.0 : 1.0 * between(rng, 5, 60));
    const int way = between(rng, 0, 3);
    item.is_liquid = way == 0;
    if (way > 1) item.vertical = {true, true, true};
    item.is_fragile = between(rng, 0, 7) == 0;
    item.is_soft = between(rng, 0, 4) == 0;
    if (between(rng, 0, 2) == 0) item.first_needed = between(rng, 0, 5);
    item.is_emergency = between(rng, 0, 11) == 0;
    item.pain_if_left = 1.0 * between(rng, 1, 100);
    task.items.push_back(item);
  }
  task.helpers = {{"Ann", LiftFilter::women}, {"Bob", LiftFilter::men}};
  task.max_moves = between(rng, 1, 3);
  return task;
}

inline std::string words(const std::vector<Problem>& reasons) {
  std::string text;
  for (const Problem& reason : reasons) text += reason.where + " " + reason.what + "\n";
  return text;
}

}  // namespace outbye::testing
