// The checker of loads, written from the rules; it shares no code with the search.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/load/load_plan.h"

namespace outbye {
namespace {

// Half-open ranges along x, y, z.
struct Body {
  int lo[3];
  int hi[3];
};
Body body(const LoadBox& b) {
  return {{b.at.x, b.at.y, b.at.z}, {b.at.x + b.size.length, b.at.y + b.size.width, b.at.z + b.size.height}};
}
long shared(const Body& a, const Body& b, int axis) {
  return std::max(0, std::min(a.hi[axis], b.hi[axis]) - std::max(a.lo[axis], b.lo[axis]));
}
long shared_floor(const Body& a, const Body& b) { return shared(a, b, 0) * shared(a, b, 1); }
bool clash(const Body& a, const Body& b) { return shared(a, b, 0) > 0 && shared(a, b, 1) > 0 && shared(a, b, 2) > 0; }

struct Thing {
  std::size_t item{};
  Body body{};
  double borne{};
  bool present{true};
};

struct Checker {
  const LoadTask& task;
  const Load& load;
  std::vector<Problem> reasons;

  void refuse(const std::string& where, const std::string& what) {
    reasons.push_back({Problem::Kind::impossible, where, what});
  }
  const std::string& name(const Thing& t) const { return task.items[t.item].name; }

  bool check_names() {
    std::vector<int> seen(task.items.size(), 0);
    const auto see = [&](LoadItemId id) {
      if (id.value >= task.items.size()) {
        refuse("item " + std::to_string(id.value + 1), "is not in the task");
        return false;
      }
      if (++seen[id.value] == 2) refuse(task.items[id.value].name, "is there twice");
      return true;
    };
    for (const LoadPlacement& p : load.placements) {
      if (!see(p.item)) return false;
      if (p.space.value >= task.spaces.size()) {
        refuse(task.items[p.item.value].name, "is in a space that is not there");
        return false;
      }
      for (const LoadItemId m : p.moved_first) {
        if (m.value >= task.items.size()) {
          refuse(task.items[p.item.value].name, "is reached past an item that is not in the task");
          return false;
        }
      }
    }
    for (const LoadLeft& l : load.left) {
      if (!see(l.item)) return false;
      if (!task.items[l.item.value].pain_if_left) refuse(task.items[l.item.value].name, "is left and must come along");
    }
    for (std::size_t i = 0; i < seen.size(); ++i) {
      if (seen[i] == 0) refuse(task.items[i].name, "is neither loaded nor left");
    }
    return true;
  }

  void check_shape(const LoadSpace& space, const LoadPlacement& p, const Thing& t) {
    const LoadItem& item = task.items[t.item];
    const int side[3] = {item.size.length, item.size.width, item.size.height};
    const int now[3] = {p.box.size.length, p.box.size.width, p.box.size.height};
    bool stands = false;
    for (int up = 0; up < 3; ++up) {
      if (!item.vertical[static_cast<std::size_t>(up)] || side[up] != now[2] || (item.is_liquid && up != 2)) continue;
      const int a = side[(up + 1) % 3];
      const int b = side[(up + 2) % 3];
      stands = stands || (a == now[0] && b == now[1]) || (b == now[0] && a == now[1]);
    }
    if (!stands) refuse(item.name, item.is_liquid ? "holds liquid and is not upright" : "is turned as it may not be");
    const int wall[3] = {space.size.length, space.size.width, space.size.height};
    for (int axis = 0; axis < 3; ++axis) {
      if (t.body.lo[axis] < 0 || t.body.hi[axis] > wall[axis]) refuse(item.name, "sticks out of " + space.name);
    }
    if (!item.is_soft && !space.has_guard && space.cover_height && t.body.hi[2] > *space.cover_height) {
      refuse(item.name, "reaches above the seat-back with no guard: it is loose behind people");
    }
    if (item.is_emergency && p.space.value != 0) refuse(item.name, "is emergency kit and not in the boot");
    for (const LoadBox& b : space.blocked) {
      if (clash(body(b), t.body)) refuse(item.name, "is inside a blocked part of " + space.name);
    }
  }

  void check_held(const LoadSpace& space, std::vector<Thing>& things) {
    for (std::size_t i = 0; i < things.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (clash(things[i].body, things[j].body)) refuse(name(things[i]), "overlaps " + name(things[j]));
      }
    }
    // From the top down, each thing hands its own mass and what it bears to what it stands on.
    std::vector<std::size_t> order(things.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return things[a].body.lo[2] > things[b].body.lo[2]; });
    for (const std::size_t i : order) {
      Thing& t = things[i];
      const LoadItem& item = task.items[t.item];
      const long base = static_cast<long>(t.body.hi[0] - t.body.lo[0]) * (t.body.hi[1] - t.body.lo[1]);
      long held = t.body.lo[2] == 0 ? base : 0;
      for (const LoadBox& b : space.blocked) {
        if (t.body.lo[2] > 0 && body(b).hi[2] == t.body.lo[2]) held += shared_floor(body(b), t.body);
      }
      for (std::size_t j = 0; j < things.size(); ++j) {
        if (j == i || things[j].body.hi[2] != t.body.lo[2]) continue;
        const long part = shared_floor(things[j].body, t.body);
        if (part == 0) continue;
        held += part;
        things[j].borne += (item.mass.value + t.borne) * static_cast<double>(part) / static_cast<double>(base);
        const LoadItem& under = task.items[things[j].item];
        if (under.is_fragile || under.bears.value <= 0.0)
          refuse(under.name, "may bear nothing and has " + item.name + " on it");
      }
      if (held != base) refuse(item.name, "is not wholly supported");
    }
    for (const Thing& t : things) {
      if (t.borne > task.items[t.item].bears.value + 1e-6) refuse(name(t), "bears more than it may");
    }
  }

  // Raised over something or not at all, then straight out past the tailgate, with what is present.
  bool can_go(const LoadSpace& space, const std::vector<Thing>& things, std::size_t i) const {
    std::vector<Body> walls;
    for (const LoadBox& b : space.blocked) walls.push_back(body(b));
    std::vector<Body> others;
    for (std::size_t j = 0; j < things.size(); ++j) {
      if (j != i && things[j].present) others.push_back(things[j].body);
    }
    const Body me = things[i].body;
    for (const Body& o : others) {
      if (o.lo[2] == me.hi[2] && shared_floor(o, me) > 0) return false;  // something stands on it
    }
    walls.insert(walls.end(), others.begin(), others.end());
    std::vector<int> rises{0};
    for (const Body& w : walls) {
      if (w.hi[2] > me.lo[2]) rises.push_back(w.hi[2] - me.lo[2]);
    }
    for (const int rise : rises) {
      Body up = me;
      up.hi[2] += rise;
      Body out = me;
      out.lo[2] += rise;
      out.hi[2] += rise;
      out.hi[0] = space.size.length;
      if (up.hi[2] > space.size.height) continue;
      if (std::none_of(walls.begin(), walls.end(), [&](const Body& w) { return clash(w, up) || clash(w, out); })) {
        return true;
      }
    }
    return false;
  }

  void check_order(const LoadSpace& space, std::vector<Thing> things) {
    for (Thing& t : things) t.present = false;
    for (std::size_t i = 0; i < things.size(); ++i) {
      things[i].present = true;
      if (!can_go(space, things, i))
        refuse(name(things[i]), "cannot be brought in at its step: something is in the way");
      for (std::size_t j = i + 1; j < things.size(); ++j) {
        if (things[j].body.hi[2] == things[i].body.lo[2] && shared_floor(things[i].body, things[j].body) > 0) {
          refuse(name(things[i]), "is loaded before " + name(things[j]) + ", which it stands on");
        }
      }
    }
  }

  void check_reach(const LoadSpace& space, const std::vector<Thing>& things,
                   const std::vector<const LoadPlacement*>& where) {
    for (std::size_t i = 0; i < things.size(); ++i) {
      const LoadItem& item = task.items[things[i].item];
      const std::size_t moved = where[i]->moved_first.size();
      if (item.is_emergency && moved > 0) refuse(item.name, "is emergency kit and something must be moved to reach it");
      const bool is_needed = item.first_needed.has_value() || item.max_moves.has_value();
      if (is_needed && moved > static_cast<std::size_t>(item.max_moves.value_or(task.max_moves))) {
        refuse(item.name, "is reached only after more moves than allowed");
      }
      std::vector<Thing> now = things;
      const auto take = [&](std::size_t which, const std::string& what) {
        if (!now[which].present || !can_go(space, now, which)) refuse(item.name, what);
        now[which].present = false;
      };
      for (const LoadItemId m : where[i]->moved_first) {
        std::size_t j = 0;
        while (j < now.size() && now[j].item != m.value) ++j;
        if (j == now.size()) {
          refuse(item.name, "is reached past a thing that is elsewhere");
          continue;
        }
        take(j, "cannot be reached so: " + task.items[m.value].name + " is held in");
      }
      take(i, "cannot be reached so: something is still in the way");
    }
  }

  void check_masses(std::size_t s, const LoadSpace& space, const std::vector<Thing>& things) {
    double mass = 0.0;
    double rear = 0.0;
    double moment[3] = {0.0, 0.0, 0.0};
    for (const Thing& t : things) {
      const double kg = task.items[t.item].mass.value;
      mass += kg;
      for (int axis = 0; axis < 3; ++axis) moment[axis] += kg * 0.5 * (t.body.lo[axis] + t.body.hi[axis]);
    }
    if (mass > space.payload.value + 1e-6) refuse(space.name, "is loaded beyond its payload");
    if (space.axles) {
      rear = (mass * space.axles->seat_back + moment[0]) / space.axles->wheelbase;
      if (space.axles->rear_left_over && rear > space.axles->rear_left_over->value + 1e-6) {
        refuse(space.name, "overloads the rear axle");
      }
      if (space.axles->front_left_over && mass - rear > space.axles->front_left_over->value + 1e-6) {
        refuse(space.name, "overloads the front axle");
      }
    }
    if (s >= load.balance.size()) return refuse(space.name, "has no balance");
    const LoadBalance& said = load.balance[s];
    const int centre[3] = {said.centre.x, said.centre.y, said.centre.z};
    bool is_so = std::abs(said.mass.value - mass) < 1e-6;
    for (int axis = 0; axis < 3 && mass > 0.0; ++axis)
      is_so = is_so && std::abs(moment[axis] / mass - centre[axis]) <= 0.51;
    if (space.axles) {
      is_so = is_so && said.on_rear && std::abs(said.on_rear->value - rear) < 1e-6 && said.on_front &&
              std::abs(said.on_front->value - (mass - rear)) < 1e-6;
    }
    if (!is_so) refuse(space.name, "has another balance than the load says");
  }
};

}  // namespace

std::vector<Problem> check_load(const LoadTask& task, const Load& load) {
  Checker checker{task, load, {}};
  if (!checker.check_names()) return checker.reasons;
  std::size_t in_boot = 0;
  for (std::size_t s = 0; s < task.spaces.size(); ++s) {
    std::vector<Thing> things;
    std::vector<const LoadPlacement*> where;
    for (const LoadPlacement& p : load.placements) {
      if (p.space.value != s) continue;
      things.push_back({p.item.value, body(p.box)});
      where.push_back(&p);
      checker.check_shape(task.spaces[s], p, things.back());
    }
    if (s == 0) in_boot = things.size();
    checker.check_held(task.spaces[s], things);
    checker.check_order(task.spaces[s], things);
    checker.check_reach(task.spaces[s], things, where);
    checker.check_masses(s, task.spaces[s], things);
  }
  if ((load.proof == LoadProof::all_fit) != (in_boot == task.items.size())) {
    checker.refuse("proof", "says that all fit when not all are in the boot, or the other way round");
  }
  return checker.reasons;
}

}  // namespace outbye
