// What to move when masses have changed. Only things that can be reached are moved, and as few as do it.
#include <algorithm>
#include <utility>

#include "core/load/load_finish.h"
#include "core/load/load_input.h"
#include "core/load/load_search.h"

namespace outbye {
namespace {

using Spots = std::vector<std::pair<LoadItemId, LoadBox>>;

// The room with these things at these places, loaded in whatever order works; false when none does.
bool refill(const LoadTask& task, Spots spots, LoadWork& work, LoadRoom& room) {
  room = empty_room(task, LoadSpaceId{0});
  std::vector<Carried> on;
  // Repeatedly the first that can go in now: what can go in never loses by going in, unless it walls another out; then
  // the order from the seat-back and the floor up is tried, which the stable sort gives.
  std::stable_sort(spots.begin(), spots.end(), [](const auto& a, const auto& b) {
    const LoadPoint& p = a.second.at;
    const LoadPoint& q = b.second.at;
    return std::pair(p.x, p.z) < std::pair(q.x, q.z);
  });
  while (!spots.empty()) {
    const auto fits = std::find_if(spots.begin(), spots.end(), [&](const auto& spot) {
      return work.spend() && can_stow(room, spot.first, spot.second, on);
    });
    if (fits == spots.end()) return false;
    stow(room, fits->first, fits->second, on);
    spots.erase(fits);
  }
  return is_front_axle_good(room) && is_all_in_reach(room);
}

std::string move_words(const LoadTask& task, LoadItemId id, const LoadBox& from, const LoadBox& to) {
  std::string words = "move " + at(task.items, id).name;
  const auto shift = [&](Millimetres by, const char* up, const char* down) {
    if (by != 0) words += ", " + std::to_string(by > 0 ? by : -by) + " mm " + (by > 0 ? up : down);
  };
  shift(from.at.x - to.at.x, "towards the seat-back", "towards the tailgate");
  shift(from.at.y - to.at.y, "to the left", "to the right");
  shift(to.at.z - from.at.z, "up", "down");
  return words;
}

// Of what stands at these spots; mass 0 when there is nothing.
struct Centre {
  double mass{};
  double depth{};   // x, mm
  double height{};  // z, mm
};
Centre centre_of(const LoadTask& task, const Spots& spots) {
  Centre centre;
  for (const auto& [id, box] : spots) {
    const double kg = at(task.items, id).mass.value;
    centre.mass += kg;
    centre.height += kg * (box.at.z + 0.5 * box.size.height);
    centre.depth += kg * (box.at.x + 0.5 * box.size.length);
  }
  if (centre.mass > 0.0) {
    centre.height /= centre.mass;
    centre.depth /= centre.mass;
  }
  return centre;
}

struct Change {
  bool is_found{false};
  LoadRoom room;
  double gain{};
  std::size_t moves{};
};

void try_change(const LoadTask& task, Spots spots, std::size_t moves, const Centre& before, bool must_mend,
                LoadWork& work, Change& best) {
  // Cheap first: does it help at all?
  const Centre centre = centre_of(task, spots);
  if (centre.mass <= 0.0) return;
  const double lower = before.height - centre.height;
  const double forward = before.depth - centre.depth;
  const double gain = 2.0 * lower + forward;
  if (!must_mend && !((lower >= 20.0 || forward >= 50.0) && gain > 0.0)) return;
  if (best.is_found && (moves > best.moves || (moves == best.moves && gain <= best.gain))) return;
  LoadRoom room;
  if (refill(task, std::move(spots), work, room)) best = {true, std::move(room), gain, moves};
}

}  // namespace

Result<Repack> repack(const LoadTask& task, const Load& load, const std::vector<MassChange>& changes,
                      const LoadSearch& search) {
  Repack repack{{}, load, task, ""};
  for (const MassChange& change : changes) {
    const bool is_loaded = std::any_of(load.placements.begin(), load.placements.end(),
                                       [&](const LoadPlacement& p) { return p.item == change.item; });
    if (change.item.value >= task.items.size() || !is_loaded) {
      return not_found("item " + std::to_string(change.item.value + 1), "is not in this load: name one that is");
    }
    at(repack.task.items, change.item).mass = change.mass;
  }
  const LoadTask& now = repack.task;
  if (const auto good = check_load_task(now); !good) return tl::make_unexpected(good.error());
  LoadWork work{&search, 0, false};

  Spots spots;
  for (const LoadPlacement& p : load.placements) {
    if (p.space.value == 0) spots.emplace_back(p.item, p.box);
  }
  LoadRoom as_is;
  const bool still_good = refill(now, spots, work, as_is);
  const Centre as_loaded = centre_of(now, spots);

  Change best;
  // One thing moved to another corner.
  for (std::size_t i = 0; i < spots.size() && !work.is_over; ++i) {
    Spots rest = spots;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
    LoadRoom room;
    if (!refill(now, rest, work, room)) continue;
    for (const double weight : {0.5, 1.0, 2.0}) {
      LoadRoom with = room;
      if (!stow_one(with, spots[i].first, {weight, 1.0, 0.0}, work)) continue;
      Spots moved = rest;
      moved.emplace_back(spots[i].first, with.things.back().box);
      if (with.things.back().box == spots[i].second) continue;
      try_change(now, std::move(moved), 1, as_loaded, !still_good, work, best);
    }
  }
  // Two things of one size exchanged: the full can for the empty one.
  for (std::size_t i = 0; i < spots.size() && !work.is_over; ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (!(spots[i].second.size == spots[j].second.size)) continue;
      Spots swapped = spots;
      std::swap(swapped[i].second, swapped[j].second);
      try_change(now, std::move(swapped), 2, as_loaded, !still_good, work, best);
    }
  }
  if (!best.is_found && still_good) {
    repack.why = "leave it: no one or two moves bring the mass 20 mm lower or 50 mm further forward";
  }
  bool others_good = true;
  std::vector<LoadRoom> rooms{best.is_found ? best.room : as_is};
  for (std::size_t s = 1; s < now.spaces.size(); ++s) {
    LoadRoom room = empty_room(now, LoadSpaceId{static_cast<std::uint32_t>(s)});
    std::vector<Carried> on;
    for (const LoadPlacement& p : load.placements) {
      if (p.space.value != s) continue;
      others_good = others_good && can_stow(room, p.item, p.box, on);
      if (others_good) stow(room, p.item, p.box, on);
    }
    rooms.push_back(std::move(room));
  }
  if ((!best.is_found && !still_good) || !others_good) {
    // Nothing small mends it: plan the boot anew.
    auto fresh = plan_load(now, search);
    if (!fresh) return tl::make_unexpected(fresh.error());
    repack.load = std::move(*fresh);
    repack.why = "with the masses of now the load breaks a rule, and it takes a new load to mend it";
  } else {
    std::vector<LoadItemId> left;
    for (const LoadLeft& l : load.left) left.push_back(l.item);
    Load next;
    next.proof = load.proof;
    next.proof_words = load.proof_words;
    finish_load(now, std::move(rooms), left, next);
    repack.load = std::move(next);
    if (best.is_found) {
      repack.why = still_good ? "brings the mass lower or further forward" : "mends what the new masses broke";
    }
  }
  repack.load.evaluations = work.evaluations;
  for (const LoadPlacement& p : repack.load.placements) {
    const auto before = std::find_if(load.placements.begin(), load.placements.end(), [&](const LoadPlacement& old) {
      return old.item == p.item && old.space == p.space;
    });
    if (before == load.placements.end() || before->box == p.box) continue;
    repack.moves.push_back({p.item, before->box, p.box, move_words(now, p.item, before->box, p.box)});
  }
  return repack;
}

}  // namespace outbye
