#include "core/load/load_finish.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "core/load/load_forward.h"
#include "core/load/load_lift.h"

namespace outbye {
namespace {

LoadBalance balance_of(const LoadRoom& room) {
  const LoadSpace& space = at(room.task->spaces, room.space);
  LoadBalance balance;
  double side = 0.0;
  for (const Stowed& thing : room.things) side += thing.mass * (thing.box.at.y + 0.5 * thing.box.size.width);
  balance.mass = Kilograms{room.mass};
  if (room.mass > 0.0) {
    const auto whole = [&](double work) { return static_cast<Millimetres>(std::lround(work / room.mass)); };
    balance.centre = {whole(room.length_work), whole(side), whole(room.height_work)};
  }
  if (space.axles) {
    balance.on_rear = Kilograms{room.on_rear};
    balance.on_front = Kilograms{room.mass - room.on_rear};
  }
  return balance;
}

// The gap ahead of a thing, in which it would slide when the car brakes.
Millimetres gap_ahead(const LoadRoom& room, const Stowed& thing) {
  const LoadSpace& space = at(room.task->spaces, room.space);
  LoadBox ahead = thing.box;
  ahead.at.x = 0;
  ahead.size.length = thing.box.at.x;
  if (ahead.size.length == 0) return 0;
  Millimetres nearest = 0;
  const auto look = [&](const LoadBox& other) {
    if (overlap(ahead, other)) nearest = std::max(nearest, other.at.x + other.size.length);
  };
  for (const LoadBox& box : space.blocked) look(box);
  for (const Stowed& other : room.things) look(other.box);
  return thing.box.at.x - nearest;
}

void add_cautions(const LoadRoom& room, Warnings& cautions) {
  const LoadTask& task = *room.task;
  const LoadSpace& space = at(task.spaces, room.space);
  for (const Stowed& thing : room.things) {
    const LoadItem& item = at(task.items, thing.item);
    const LiftAdvice advice = advise_lift(task, space, item, thing.box);
    if (advice.way == LiftAdvice::Way::two) {
      cautions.push_back(
          {item.name, fixed(item.mass.value, 1) + " kg is above the lifting filter for one: " + advice.words});
    } else if (advice.way == LiftAdvice::Way::nobody) {
      cautions.push_back({item.name, fixed(item.mass.value, 1) + " kg: " + advice.words});
    }
    if (thing.mass >= heavy_thing.value && thing.box.at.z > 0) {
      cautions.push_back({item.name, "is heavy and not on the floor"});
    }
    if (thing.mass >= heavy_thing.value && gap_ahead(room, thing) > 100) {
      cautions.push_back(
          {item.name, "has " + std::to_string(gap_ahead(room, thing)) + " mm free ahead of it: strap it"});
    }
    if (item.is_liquid && space.kind == LoadSpace::Kind::roof_box) {
      cautions.push_back({item.name, "is liquid and rides on the roof: empty it first"});
    }
  }
  const LoadBalance balance = balance_of(room);
  const Millimetres off = balance.centre.y - space.size.width / 2;
  if (balance.mass.value >= 50.0 && std::abs(off) * 10 > space.size.width) {
    cautions.push_back({space.name, "the middle of the mass is " + std::to_string(std::abs(off)) + " mm to the " +
                                        (off < 0 ? "left" : "right")});
  }
}

std::string millimetres(const LoadSize& size) {
  return std::to_string(size.length) + " x " + std::to_string(size.width) + " x " + std::to_string(size.height) + " mm";
}

// Of a thing that stays at home: whatever keeps it out of the boot by itself, else that the others take the room.
std::string why_left(const LoadRoom& boot, const LoadItem& item) {
  const LoadSpace& space = at(boot.task->spaces, boot.space);
  const auto goes_under = [&](Millimetres height) {
    const auto all = stances(item);
    return std::any_of(all.begin(), all.end(), [&](const LoadSize& size) {
      return size.length <= space.size.length && size.width <= space.size.width && size.height <= height;
    });
  };
  if (!goes_under(space.size.height)) return "is " + millimetres(item.size) + ", too large for " + space.name;
  if (!goes_under(height_limit(space, item))) {
    return "is " + millimetres(item.size) + ", too high to go under the cover or the top of the seat-back (" +
           std::to_string(height_limit(space, item)) + " mm); behind a guard it might";
  }
  const double left = space.payload.value - boot.mass;
  if (item.mass.value > left + 1e-6) {
    return "weighs " + fixed(item.mass.value, 1) + " kg, and " + fixed(std::max(0.0, left), 1) +
           " kg of the payload are left";
  }
  return "found no place beside the others";
}

}  // namespace

void finish_load(const LoadTask& task, std::vector<LoadRoom> rooms, std::vector<LoadItemId> left, Load& load) {
  for (LoadRoom& room : rooms) {
    LoadRoom sorted = room;
    sort_for_need(sorted);
    if (is_all_in_reach(sorted)) room = std::move(sorted);
    for (std::size_t i = 0; i < room.things.size(); ++i) {
      const Stowed& thing = room.things[i];
      LoadPlacement placement{thing.item, room.space, thing.box, {}};
      std::vector<std::size_t> order;
      find_way(room, i, moves_allowed(task, at(task.items, thing.item)).value_or(room.things.size()), order);
      for (const std::size_t j : order) placement.moved_first.push_back(room.things[j].item);
      load.placements.push_back(std::move(placement));
    }
    load.balance.push_back(balance_of(room));
    add_cautions(room, load.cautions);
  }
  std::stable_sort(left.begin(), left.end(), [&](LoadItemId a, LoadItemId b) {
    return at(task.items, a).pain_if_left.value_or(0.0) < at(task.items, b).pain_if_left.value_or(0.0);
  });
  for (const LoadItemId id : left) {
    const LoadItem& item = at(task.items, id);
    load.left.push_back({id, item.pain_if_left.value_or(0.0), why_left(rooms.front(), item)});
  }
}

}  // namespace outbye
