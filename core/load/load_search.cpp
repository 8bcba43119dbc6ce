#include "core/load/load_search.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "core/load/load_forward.h"

namespace outbye {
namespace {

struct Spot {
  double cost{};
  LoadBox box;
  std::vector<Carried> on;
};

// The corners of each plateau: a thing that is not pushed into a corner could be.
void add_corners(const Plateau& p, const LoadSize& size, std::vector<LoadBox>& boxes) {
  if (size.length > p.x2 - p.x1 || size.width > p.y2 - p.y1) return;
  for (const Millimetres x : {Millimetres{p.x1}, p.x2 - size.length}) {
    for (const Millimetres y : {Millimetres{p.y1}, p.y2 - size.width}) {
      const LoadBox box{{x, y, p.z}, size};
      if (std::find(boxes.begin(), boxes.end(), box) == boxes.end()) boxes.push_back(box);
    }
  }
}

double spot_cost(const LoadRoom& room, const Plateau& p, const LoadBox& box, const StowWeights& weights) {
  const LoadSpace& space = at(room.task->spaces, room.space);
  const double gap_y = p.y2 - p.y1 - box.size.width;
  const double gap_x = p.x2 - p.x1 - box.size.length;
  return weights.height * (box.at.z + box.size.height) / space.size.height +
         weights.depth * (box.at.x + box.size.length) / space.size.length +
         weights.gap * (std::min(gap_y, 200.0) + std::min(gap_x, 200.0)) / 200.0;
}

// How far behind the seat-back the middle of what is heavy is, with treble weight, and 8 m for the share of it that
// stands by the tailgate.
double heavy_cost(const LoadRoom& room) {
  const LoadSpace& space = at(room.task->spaces, room.space);
  double work = 0.0;
  double mass = 0.0;
  double by_the_tailgate = 0.0;
  for (const Stowed& thing : room.things) {
    if (thing.mass < heavy_thing.value) continue;
    work += thing.mass * (thing.box.at.x + 0.5 * thing.box.size.length);
    mass += thing.mass;
    if (is_by_the_tailgate(space, thing.box)) by_the_tailgate += thing.mass;
  }
  return mass > 0.0 ? (3.0 * work + 8000.0 * by_the_tailgate) / mass : 0.0;
}

}  // namespace

StowOrder draw_order(const LoadTask& task, const std::vector<LoadItemId>& items, const std::vector<double>& push,
                     const std::vector<double>& cost, int attempt, Rng& rng) {
  StowOrder order;
  const bool by_need = attempt % 2 == 0;
  const bool by_stop = attempt % 4 == 0;
  const bool heavy_first = attempt % 3 != 2;
  const double jitter = attempt == 0 ? 0.0 : 0.15 * (1 + attempt % 5);
  const double by_mass = attempt % 3 == 1 ? 0.0 : 0.5;
  struct Ranked {
    int group;
    double weight;
    LoadItemId item;
  };
  std::vector<Ranked> ranked;
  for (const LoadItemId id : items) {
    const LoadItem& item = at(task.items, id);
    const double volume = 1e-9 * item.size.length * item.size.width * item.size.height;
    double weight = std::log(volume + 1e-6) + by_mass * std::log(item.mass.value + 0.5);
    if (item.is_fragile || item.bears.value <= 0.0) weight -= 2.0;  // nothing goes on top of it
    // Every fourth order puts first what costs most to leave.
    if (attempt % 4 == 3) weight = 0.5 * weight + 1.5 * std::log(cost[id.value] + 1.0);
    weight += push[id.value] + jitter * (2.0 * uniform(rng) - 1.0) * 2.0;
    int group = 0;
    if (heavy_first && item.mass >= heavy_thing) {
      group = -1;
    } else if (by_need && item.is_emergency) {
      group = 2000;
    } else if (by_need && item.first_needed) {
      group = by_stop ? 1000 - *item.first_needed : 1;
    }
    ranked.push_back({group, weight, id});
  }
  std::sort(ranked.begin(), ranked.end(), [](const Ranked& a, const Ranked& b) {
    return std::tuple(a.group, -a.weight, a.item) < std::tuple(b.group, -b.weight, b.item);
  });
  for (const Ranked& r : ranked) order.items.push_back(r.item);
  if (attempt > 0) {
    order.weights.height = 0.4 + 1.6 * uniform(rng);
    order.weights.depth = 0.2 + 1.8 * uniform(rng);
    order.weights.gap = 0.6 * uniform(rng);
  }
  return order;
}

double quality(const LoadRoom& room) {
  double cost = balance_cost(room) + heavy_cost(room);
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < room.things.size(); ++i) {
    const LoadItem& item = at(room.task->items, room.things[i].item);
    if (!item.first_needed) continue;
    std::size_t moves = 0;
    while (!find_way(room, i, moves, order)) ++moves;
    cost += 15.0 * static_cast<double>(moves) * std::max(1, item.times_needed) * (1.0 + 1.0 / (1 + *item.first_needed));
  }
  return cost;
}

bool LoadWork::spend() {
  if (is_over) return false;
  if (++evaluations >= search->max_evaluations) is_over = true;
  if (evaluations % 256 == 0 && search->keep_going && !search->keep_going()) is_over = true;
  return !is_over;
}

bool stow_one(LoadRoom& room, LoadItemId id, const StowWeights& weights, LoadWork& work) {
  const LoadItem& item = at(room.task->items, id);
  std::vector<Spot> spots;
  std::vector<LoadBox> boxes;
  std::vector<Carried> on;
  for (const LoadSize& size : stances(item)) {
    for (const Plateau& p : room.plateaus) {
      boxes.clear();
      add_corners(p, size, boxes);
      for (const LoadBox& box : boxes) {
        if (!work.spend()) return false;
        if (can_stow(room, id, box, on)) spots.push_back({spot_cost(room, p, box, weights), box, on});
      }
    }
  }
  std::stable_sort(spots.begin(), spots.end(), [](const Spot& a, const Spot& b) { return a.cost < b.cost; });
  // Reach is the dearest rule to look at, so it comes last and only until a spot passes.
  for (std::size_t n = 0; n < spots.size() && n < 16; ++n) {
    LoadRoom next = room;
    stow(next, id, spots[n].box, spots[n].on);
    if (is_all_in_reach(next)) {
      room = std::move(next);
      return true;
    }
  }
  return false;
}

double balance_cost(const LoadRoom& room) {
  return room.mass > 0.0 ? (2.0 * room.height_work + room.length_work) / room.mass : 0.0;
}

Stowage stow_best(const LoadTask& task, LoadSpaceId space, const std::vector<LoadItemId>& items,
                  const std::vector<double>& cost, int most_tries, int polish, Rng& rng, LoadWork& work) {
  Stowage best;
  best.room = empty_room(task, space);
  best.out = items;
  for (const LoadItemId id : items) best.cost += cost[id.value];
  std::vector<double> push(task.items.size(), 0.0);
  for (int attempt = 0; attempt < most_tries && !work.is_over; ++attempt) {
    const StowOrder order = draw_order(task, items, push, cost, attempt, rng);
    Stowage now;
    now.room = empty_room(task, space);
    for (const LoadItemId id : order.items) {
      if (!stow_one(now.room, id, order.weights, work)) {
        now.out.push_back(id);
        now.cost += cost[id.value];
        push[id.value] += 0.7;
      }
    }
    // A load of everything is worth bettering; but never at the price of a thing left.
    if (!is_front_axle_good(now.room)) continue;
    if (now.cost < best.cost || (now.cost == best.cost && quality(now.room) < quality(best.room))) {
      best = std::move(now);
    }
    if (best.out.empty() && --polish < 0) break;
  }
  return best;
}

}  // namespace outbye
