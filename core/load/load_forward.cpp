#include "core/load/load_forward.h"

#include <algorithm>
#include <utility>

namespace outbye {
namespace {

constexpr Millimetres worth_it = 100;
constexpr std::size_t most_evicted = 3;

const LoadItem& item_of(const LoadRoom& room, std::size_t i) { return at(room.task->items, room.things[i].item); }
bool is_heavy(const LoadRoom& room, std::size_t i) { return item_of(room, i).mass >= heavy_thing; }

// What must give way for things[i] to stand in `box`, and what stands on it; false when that is heavy or too much.
bool find_evicted(const LoadRoom& room, std::size_t i, const LoadBox& box, std::vector<char>& is_out) {
  is_out.assign(room.things.size(), 0);
  is_out[i] = 1;
  std::size_t count = 0;
  for (std::size_t j = 0; j < room.things.size(); ++j) {
    if (j != i && overlap_flat(room.things[j].box, box) && room.things[j].box.at.z < box.at.z + box.size.height) {
      is_out[j] = 1;
    }
  }
  // Later things stand on earlier ones, so one pass finds all that loses its support.
  for (std::size_t j = 0; j < room.things.size(); ++j) {
    for (const Carried& c : room.things[j].on) is_out[j] = is_out[j] != 0 || is_out[c.under] != 0 ? 1 : 0;
    if (is_out[j] == 0 || j == i) continue;
    if (is_heavy(room, j) || ++count > most_evicted) return false;
  }
  return true;
}

// The order in which a good load is told: by need, if that keeps all in reach.
void sort_if_good(LoadRoom& room) {
  LoadRoom sorted = room;
  sort_for_need(sorted);
  if (is_all_in_reach(sorted)) room = std::move(sorted);
}

bool try_place(LoadRoom& room, std::size_t i, const LoadBox& box, bool is_first, LoadWork& work) {
  std::vector<char> is_out;
  if (!find_evicted(room, i, box, is_out)) return false;
  std::vector<Stowed> kept;
  const Stowed moved{room.things[i].item, box, 0.0, 0.0, {}};
  if (is_first) kept.push_back(moved);
  std::vector<LoadItemId> evicted;
  for (std::size_t j = 0; j < room.things.size(); ++j) {
    if (is_out[j] == 0) kept.push_back(room.things[j]);
    if (is_out[j] != 0 && j != i) evicted.push_back(room.things[j].item);
    if (j == i && !is_first) kept.push_back(moved);
  }
  LoadRoom next = empty_room(*room.task, room.space);
  if (!stow_again(next, kept, work)) return false;
  const auto volume = [&](LoadItemId id) {
    const LoadSize& size = at(room.task->items, id).size;
    return 1.0 * size.length * size.width * size.height;
  };
  std::stable_sort(evicted.begin(), evicted.end(), [&](LoadItemId a, LoadItemId b) { return volume(a) > volume(b); });
  for (const LoadItemId id : evicted) {
    if (!stow_one(next, id, {1.0, -0.3, 0.2}, work)) return false;  // these may as well stand by the tailgate
  }
  if (!is_all_in_reach(next) || !is_front_axle_good(next)) return false;
  sort_if_good(next);
  if (quality(next) >= quality(room)) return false;
  room = std::move(next);
  return true;
}

}  // namespace

bool is_by_the_tailgate(const LoadSpace& space, const LoadBox& box) {
  return 3 * (2 * box.at.x + box.size.length) > 4 * space.size.length;
}

bool stow_again(LoadRoom& room, const std::vector<Stowed>& things, LoadWork& work) {
  std::vector<Carried> on;
  for (const Stowed& thing : things) {
    if (!work.spend() || !can_stow(room, thing.item, thing.box, on)) return false;
    stow(room, thing.item, thing.box, std::move(on));
    on.clear();
  }
  return true;
}

std::vector<LoadBox> places_forward(const LoadRoom& room, std::size_t i, Millimetres least) {
  const LoadSpace& space = at(room.task->spaces, room.space);
  std::vector<LoadBox> places;
  for (const LoadSize& size : stances(item_of(room, i))) {
    std::vector<Millimetres> xs{0};
    std::vector<Millimetres> ys{0, space.size.width - size.width};
    const auto add = [&](const LoadBox& box) {
      xs.push_back(box.at.x + box.size.length);
      ys.push_back(box.at.y + box.size.width);
      ys.push_back(box.at.y - size.width);
    };
    for (const LoadBox& box : space.blocked) add(box);
    for (std::size_t j = 0; j < room.things.size(); ++j) {
      if (j != i) add(room.things[j].box);
    }
    const LoadBox& now = room.things[i].box;
    for (const Millimetres x : xs) {
      for (const Millimetres y : ys) {
        const LoadBox box{{x, y, 0}, size};
        const bool is_inside = x >= 0 && y >= 0 && x + size.length <= space.size.length &&
                               y + size.width <= space.size.width &&
                               size.height <= height_limit(space, item_of(room, i));
        const bool is_forward = 2 * x + size.length + 2 * least <= 2 * now.at.x + now.size.length;
        if (!is_inside || !is_forward) continue;
        const bool is_walled = std::any_of(space.blocked.begin(), space.blocked.end(),
                                           [&](const LoadBox& blocked) { return overlap(blocked, box); });
        if (!is_walled && std::find(places.begin(), places.end(), box) == places.end()) places.push_back(box);
      }
    }
  }
  std::stable_sort(places.begin(), places.end(), [](const LoadBox& a, const LoadBox& b) {
    return 2 * a.at.x + a.size.length < 2 * b.at.x + b.size.length;
  });
  return places;
}

void move_heavy_forward(LoadRoom& room, LoadWork& work) {
  sort_if_good(room);
  for (bool has_moved = true; has_moved && !work.is_over;) {
    has_moved = false;
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < room.things.size(); ++i) {
      if (is_heavy(room, i)) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return room.things[a].box.at.x > room.things[b].box.at.x; });
    for (const std::size_t i : order) {
      for (const LoadBox& box : places_forward(room, i, worth_it)) {
        has_moved = try_place(room, i, box, true, work) || try_place(room, i, box, false, work);
        if (has_moved || work.is_over) break;
      }
      if (has_moved || work.is_over) break;
    }
  }
}

}  // namespace outbye
