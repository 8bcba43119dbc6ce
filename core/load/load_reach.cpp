// What stands in the way of what, and how to get at it.
#include <algorithm>
#include <tuple>

#include "core/load/load_room.h"

namespace outbye {
namespace {

// Heights to which a thing may be raised before it is pulled out: where it stands, and just over each other top.
std::vector<Millimetres> raised_heights(const LoadRoom& room, std::size_t self, const LoadBox& box) {
  const LoadSpace& space = at(room.task->spaces, room.space);
  std::vector<Millimetres> heights{box.at.z};
  const auto add = [&](const LoadBox& other) {
    const Millimetres top = other.at.z + other.size.height;
    if (top > box.at.z && top + box.size.height <= space.size.height && other.at.x + other.size.length > box.at.x &&
        other.at.y < box.at.y + box.size.width && box.at.y < other.at.y + other.size.width) {
      heights.push_back(top);
    }
  };
  for (const LoadBox& blocked : space.blocked) add(blocked);
  for (std::size_t i = 0; i < room.things.size(); ++i) {
    if (i != self) add(room.things[i].box);
  }
  std::sort(heights.begin(), heights.end());
  heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
  return heights;
}

struct Path {
  LoadBox up;   // where it is and what it sweeps when raised
  LoadBox out;  // what it sweeps to the tailgate
};
Path path_of(const LoadRoom& room, const LoadBox& box, Millimetres raised) {
  const LoadSpace& space = at(room.task->spaces, room.space);
  Path path{box, box};
  path.up.size.height += raised - box.at.z;
  path.out.at.z = raised;
  path.out.size.length = space.size.length - box.at.x;
  return path;
}
bool is_in_way(const Path& path, const LoadBox& box, const LoadBox& other) {
  if (overlap(path.up, other) || overlap(path.out, other)) return true;
  return other.at.z == box.at.z + box.size.height && overlap_flat(box, other);  // stands on it
}
bool is_walled(const LoadRoom& room, const Path& path) {
  const LoadSpace& space = at(room.task->spaces, room.space);
  return std::any_of(space.blocked.begin(), space.blocked.end(),
                     [&](const LoadBox& blocked) { return overlap(path.up, blocked) || overlap(path.out, blocked); });
}

bool find_way(const LoadRoom& room, std::size_t i, std::size_t most, std::vector<char>& gone,
              std::vector<std::size_t>& order, int& patience) {
  if (--patience < 0) return false;
  const LoadBox& box = room.things[i].box;
  std::vector<std::vector<std::size_t>> ways;
  for (const Millimetres raised : raised_heights(room, i, box)) {
    const Path path = path_of(room, box, raised);
    if (is_walled(room, path)) continue;
    std::vector<std::size_t> in_way;
    for (std::size_t j = 0; j < room.things.size() && in_way.size() <= most; ++j) {
      if (j != i && gone[j] == 0 && is_in_way(path, box, room.things[j].box)) in_way.push_back(j);
    }
    if (in_way.empty()) return true;
    if (in_way.size() <= most) ways.push_back(std::move(in_way));
  }
  std::stable_sort(ways.begin(), ways.end(), [](const auto& a, const auto& b) { return a.size() < b.size(); });
  for (const std::vector<std::size_t>& way : ways) {
    const std::size_t done = order.size();
    bool works = true;
    for (std::size_t n = way.size(); works && n-- > 0;) {  // those loaded last come out first
      const std::size_t j = way[n];
      if (gone[j] != 0) continue;
      std::size_t still = 0;  // of this way, j too
      for (std::size_t m = 0; m <= n; ++m) still += gone[way[m]] == 0 ? 1U : 0U;
      const std::size_t used = order.size() - done;
      works = used + still <= most && find_way(room, j, most - used - still, gone, order, patience);
      if (works) {
        gone[j] = 1;
        order.push_back(j);
      }
    }
    if (works && order.size() - done <= most) return true;
    for (std::size_t m = done; m < order.size(); ++m) gone[order[m]] = 0;
    order.resize(done);
  }
  return false;
}

}  // namespace

bool can_leave(const LoadRoom& room, std::size_t self, const LoadBox& box, const std::vector<char>& gone) {
  for (const Millimetres raised : raised_heights(room, self, box)) {
    const Path path = path_of(room, box, raised);
    if (is_walled(room, path)) continue;
    bool is_free = true;
    for (std::size_t j = 0; is_free && j < room.things.size(); ++j) {
      is_free = j == self || gone[j] != 0 || !is_in_way(path, box, room.things[j].box);
    }
    if (is_free) return true;
  }
  return false;
}

bool find_way(const LoadRoom& room, std::size_t i, std::size_t most, std::vector<std::size_t>& order) {
  order.clear();
  std::vector<char> gone(room.things.size(), 0);
  int patience = 200;
  if (find_way(room, i, std::min<std::size_t>(most, 6), gone, order, patience)) return true;
  order.clear();
  // What was loaded after it, last first, always works.
  if (room.things.size() - 1 - i > most) return false;
  for (std::size_t j = room.things.size(); --j > i;) order.push_back(j);
  return true;
}

std::optional<std::size_t> moves_allowed(const LoadTask& task, const LoadItem& item) {
  if (item.is_emergency) return 0;
  if (item.max_moves) return static_cast<std::size_t>(*item.max_moves);
  if (item.first_needed) return static_cast<std::size_t>(task.max_moves);
  return std::nullopt;
}

bool is_all_in_reach(const LoadRoom& room) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < room.things.size(); ++i) {
    const auto most = moves_allowed(*room.task, at(room.task->items, room.things[i].item));
    if (most && !find_way(room, i, *most, order)) return false;
  }
  return true;
}

void sort_for_need(LoadRoom& room) {
  // Unload: of what can leave, what is needed first. The thing loaded last can always leave, so this never sticks.
  const std::size_t count = room.things.size();
  const auto urgency = [&](std::size_t i) {
    const LoadItem& item = at(room.task->items, room.things[i].item);
    const int stop = item.is_emergency ? -1 : item.first_needed.value_or(1'000'000);
    // Then what is nearer the tailgate, so that nothing is lifted over it; what is higher; what comes out oftener.
    const LoadBox& box = room.things[i].box;
    return std::tuple(stop, -(box.at.x + box.size.length), -box.at.z, -item.times_needed,
                      -static_cast<std::ptrdiff_t>(i));
  };
  std::vector<char> gone(count, 0);
  std::vector<std::size_t> out;
  while (out.size() < count) {
    std::size_t next = count;
    for (std::size_t i = 0; i < count; ++i) {
      if (gone[i] == 0 && (next == count || urgency(i) < urgency(next)) &&
          can_leave(room, i, room.things[i].box, gone)) {
        next = i;
      }
    }
    gone[next] = 1;
    out.push_back(next);
  }
  std::reverse(out.begin(), out.end());
  std::vector<std::size_t> place(count);
  for (std::size_t n = 0; n < count; ++n) place[out[n]] = n;
  std::vector<Stowed> sorted;
  for (const std::size_t i : out) {
    sorted.push_back(room.things[i]);
    for (Carried& c : sorted.back().on) c.under = place[c.under];
  }
  room.things = std::move(sorted);
}

}  // namespace outbye
