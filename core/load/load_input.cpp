#include "core/load/load_input.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "core/load/load_room.h"

namespace outbye {
namespace {

constexpr Millimetres longest = 10'000;

bool is_length(Millimetres length) { return length >= 1 && length <= longest; }
bool is_mass(Kilograms mass, double most) {
  return std::isfinite(mass.value) && mass.value >= 0.0 && mass.value <= most;
}
std::string mm(Millimetres length) { return std::to_string(length) + " mm"; }

Result<void> check_space(const LoadSpace& space) {
  const std::string where = space.name.empty() ? "space" : space.name;
  for (const auto& [name, length] : {std::pair{"length", space.size.length}, std::pair{"width", space.size.width},
                                     std::pair{"height", space.size.height}}) {
    if (!is_length(length)) {
      return bad_input(where, std::string(name) + " is " + mm(length) + "; measure it again: 1 to 10000 mm");
    }
  }
  if (space.cover_height && !is_length(*space.cover_height)) {
    return bad_input(where,
                     "height to the cover is " + mm(*space.cover_height) + "; give 1 to 10000 mm or leave it out");
  }
  if (!std::isfinite(space.payload.value) || space.payload.value > 50'000.0) {
    return bad_input(where, "payload must be at most 50000 kg");
  }
  if (space.payload.value <= 0.0) {
    return bad_input(where, "payload is " + fixed(space.payload.value, 0) +
                                " kg: people and fuel have used it up; take one person fewer or a second car");
  }
  if (space.lip_above_ground < 0 || space.lip_above_ground > 3000 || space.floor_above_ground < 0 ||
      space.floor_above_ground > 3000) {
    return bad_input(where, "lip and floor must lie 0 to 3000 mm above the ground");
  }
  if (!(space.inconvenience >= 0.0 && space.inconvenience <= 1.0)) {
    return bad_input(where, "inconvenience must be 0 to 1");
  }
  for (std::size_t b = 0; b < space.blocked.size(); ++b) {
    const LoadBox& box = space.blocked[b];
    const std::string name = where + ", blocked box " + std::to_string(b + 1);
    if (!is_length(box.size.length) || !is_length(box.size.width) || !is_length(box.size.height)) {
      return bad_input(name, "each side must be 1 to 10000 mm");
    }
    if (box.at.x < 0 || box.at.y < 0 || box.at.z < 0 || box.at.x + box.size.length > space.size.length ||
        box.at.y + box.size.width > space.size.width || box.at.z + box.size.height > space.size.height) {
      return bad_input(name, "sticks out of " + where + ": cut it at the walls");
    }
    for (std::size_t c = 0; c < b; ++c) {
      if (overlap(box, space.blocked[c])) return bad_input(name, "overlaps blocked box " + std::to_string(c + 1));
    }
  }
  if (space.axles) {
    const LoadAxles& axles = *space.axles;
    if (axles.wheelbase < 1000 || axles.wheelbase > 6000 || axles.seat_back < 0 || axles.seat_back > 10'000) {
      return bad_input(where, "the wheelbase must be 1000 to 6000 mm and the seat-back 0 to 10000 mm behind the axle");
    }
    for (const auto& left : {axles.front_left_over, axles.rear_left_over}) {
      if (left && !(left->value >= 0.0 && left->value <= 50'000.0)) {
        return bad_input(where,
                         "what an axle may still take must be 0 to 50000 kg: below 0 it is overloaded by people");
      }
    }
  }
  return {};
}

Result<void> check_item(const LoadItem& item, std::size_t i) {
  const std::string where = item.name.empty() ? "item " + std::to_string(i + 1) : item.name;
  for (const auto& [name, length] : {std::pair{"length", item.size.length}, std::pair{"width", item.size.width},
                                     std::pair{"height", item.size.height}}) {
    if (!is_length(length)) return bad_input(where, std::string(name) + " is " + mm(length) + "; give 1 to 10000 mm");
  }
  if (!is_mass(item.mass, 500.0)) return bad_input(where, "mass must be 0 to 500 kg");
  if (!is_mass(item.bears, 10'000.0)) return bad_input(where, "what it bears must be 0 to 10000 kg");
  if (!item.vertical[0] && !item.vertical[1] && !item.vertical[2]) {
    return bad_input(where, "may stand on none of its sides: allow one to point up");
  }
  if (item.is_liquid && (item.vertical[0] || item.vertical[1])) {
    return bad_input(where, "holds liquid, so only its height may point up");
  }
  if (item.first_needed && (*item.first_needed < 0 || *item.first_needed > 999)) {
    return bad_input(where, "the stop that needs it must be 0 to 999");
  }
  if (item.times_needed < 0 || item.times_needed > 999) return bad_input(where, "times needed must be 0 to 999");
  if (item.max_moves && (*item.max_moves < 0 || *item.max_moves > 100)) {
    return bad_input(where, "moves to reach it must be 0 to 100");
  }
  if (item.pain_if_left && !(*item.pain_if_left >= 0.0 && *item.pain_if_left <= 1000.0)) {
    return bad_input(where, "pain of leaving it must be 0 to 1000");
  }
  return {};
}

}  // namespace

Result<void> check_load_task(const LoadTask& task) {
  if (task.spaces.empty()) return bad_input("load", "has no boot: measure one or choose a generic one");
  if (task.spaces.size() > 10) return bad_input("load", "at most 10 spaces");
  if (task.items.size() > 200) return bad_input("load", "at most 200 items: put small things into boxes and bags");
  if (task.max_moves < 0 || task.max_moves > 100) return bad_input("load", "moves to reach a thing must be 0 to 100");
  for (const LoadSpace& space : task.spaces) {
    if (const auto good = check_space(space); !good) return good;
  }
  for (std::size_t i = 0; i < task.items.size(); ++i) {
    if (const auto good = check_item(task.items[i], i); !good) return good;
  }
  return {};
}

}  // namespace outbye
