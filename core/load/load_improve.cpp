#include "core/load/load_improve.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "core/load/load_forward.h"

namespace outbye {
namespace {

struct Scored {
  Stowage stowage;
  double quality{};
  bool is_better_than(const Scored& other) const {
    return stowage.cost < other.stowage.cost || (stowage.cost == other.stowage.cost && quality < other.quality);
  }
};

double middle_distance(const LoadBox& a, const LoadBox& b) {
  const double x = (2 * a.at.x + a.size.length) - (2 * b.at.x + b.size.length);
  const double y = (2 * a.at.y + a.size.width) - (2 * b.at.y + b.size.width);
  const double z = (2 * a.at.z + a.size.height) - (2 * b.at.z + b.size.height);
  return x * x + y * y + z * z;
}

// Of what is heavy the thing farthest back, each second time if it is by the tailgate.
std::optional<std::size_t> heavy_at_the_back(const LoadRoom& room, Rng& rng) {
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < room.things.size(); ++i) {
    if (room.things[i].mass < heavy_thing.value) continue;
    if (!last || room.things[i].box.at.x > room.things[*last].box.at.x) last = i;
  }
  const bool is_asked = uniform_below(rng, 2) == 0;
  if (!last || !is_asked || !is_by_the_tailgate(at(room.task->spaces, room.space), room.things[*last].box)) return {};
  return last;
}

// A thing and its nearest neighbours, and all that stands on them; often with what is heavy and by the tailgate.
std::vector<char> pick_ruin(const LoadRoom& room, Rng& rng) {
  std::vector<char> is_out(room.things.size(), 0);
  if (room.things.empty()) return is_out;
  if (const auto heavy = heavy_at_the_back(room, rng)) is_out[*heavy] = 1;
  const LoadBox& centre = room.things[uniform_below(rng, room.things.size())].box;
  std::vector<std::size_t> order(room.things.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return middle_distance(room.things[a].box, centre) < middle_distance(room.things[b].box, centre);
  });
  const std::size_t count = std::min<std::size_t>(order.size(), 1 + uniform_below(rng, 6));
  for (std::size_t n = 0; n < count; ++n) is_out[order[n]] = 1;
  for (std::size_t j = 0; j < room.things.size(); ++j) {
    for (const Carried& c : room.things[j].on) is_out[j] = is_out[j] != 0 || is_out[c.under] != 0 ? 1 : 0;
  }
  return is_out;
}

Scored recreate(const Scored& from, const std::vector<char>& is_out, const std::vector<double>& cost, Rng& rng,
                LoadWork& work) {
  const LoadTask& task = *from.stowage.room.task;
  Scored next;
  next.stowage.room = empty_room(task, from.stowage.room.space);
  next.stowage.cost = 1e18;
  std::vector<Stowed> kept;
  std::vector<LoadItemId> loose = from.stowage.out;
  for (std::size_t i = 0; i < is_out.size(); ++i) {
    const Stowed& thing = from.stowage.room.things[i];
    if (is_out[i] != 0) {
      loose.push_back(thing.item);
    } else {
      kept.push_back(thing);
    }
  }
  if (!stow_again(next.stowage.room, kept, work)) return next;
  std::sort(loose.begin(), loose.end());
  const std::vector<double> no_push(task.items.size(), 0.0);
  const StowOrder order = draw_order(task, loose, no_push, cost, 1 + static_cast<int>(uniform_below(rng, 59)), rng);
  next.stowage.cost = 0.0;
  for (const LoadItemId id : order.items) {
    if (next.stowage.cost > from.stowage.cost * 1.3 + 1e-9) break;  // hopeless
    if (stow_one(next.stowage.room, id, order.weights, work)) continue;
    next.stowage.out.push_back(id);
    next.stowage.cost += cost[id.value];
  }
  if (work.is_over ||
      next.stowage.room.things.size() + next.stowage.out.size() != is_out.size() + from.stowage.out.size() ||
      !is_front_axle_good(next.stowage.room)) {
    next.stowage.cost = 1e18;
    return next;
  }
  next.quality = quality(next.stowage.room);
  return next;
}

// A little worse is taken up at times, the less the later: else a full boot never changes.
bool is_taken_up(const Scored& next, const Scored& now, double warmth, Rng& rng) {
  const double draw = -std::log(std::max(1e-12, uniform(rng)));
  if (next.stowage.cost != now.stowage.cost) return next.stowage.cost < now.stowage.cost + 30.0 * warmth * draw;
  return next.quality < now.quality + 150.0 * warmth * draw;
}

}  // namespace

void improve_stowage(Stowage& stowage, const std::vector<double>& cost, int rounds, int rounds_when_all_in, Rng& rng,
                     LoadWork& work) {
  Scored best{std::move(stowage), 0.0};
  best.quality = quality(best.stowage.room);
  Scored now = best;
  int idle = 0;
  const auto begun = static_cast<double>(work.evaluations);
  const double all_work = std::max(1.0, static_cast<double>(work.search->max_evaluations) - begun);
  for (int round = 0; round < rounds && !work.is_over; ++round) {
    const std::vector<char> is_out = pick_ruin(now.stowage.room, rng);
    Scored next = recreate(now, is_out, cost, rng, work);
    ++idle;
    const double done = (static_cast<double>(work.evaluations) - begun) / all_work;
    const double warmth = std::max(0.0, 1.0 - std::max(done, static_cast<double>(round) / rounds));
    if (next.stowage.cost < 1e17 && is_taken_up(next, now, warmth, rng)) {
      now = std::move(next);
      if (now.is_better_than(best)) {
        best = now;
        idle = 0;
      }
    }
    if (idle >= 400) {
      now = best;
      idle = 0;
      if (best.stowage.out.empty()) break;
    }
    if (best.stowage.out.empty() && idle >= rounds_when_all_in) break;
  }
  stowage = std::move(best.stowage);
}

}  // namespace outbye
