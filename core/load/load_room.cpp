#include "core/load/load_room.h"

#include <algorithm>
#include <utility>

namespace outbye {
namespace {

constexpr double slack_kg = 1e-9;  // sums of shares, not of the scales

const LoadSpace& space_of(const LoadRoom& room) { return at(room.task->spaces, room.space); }
const LoadItem& item_of(const LoadRoom& room, LoadItemId item) { return at(room.task->items, item); }

std::int16_t s(Millimetres value) { return static_cast<std::int16_t>(value); }
Plateau top_of(const LoadBox& box) {
  return {s(box.at.x), s(box.at.y), s(box.at.x + box.size.length), s(box.at.y + box.size.width),
          s(box.at.z + box.size.height)};
}

double rear_share(const LoadAxles& axles, const LoadBox& box) {
  return (axles.seat_back + box.at.x + 0.5 * box.size.length) / axles.wheelbase;
}

double shared_area(const LoadBox& a, const LoadBox& b) {
  const double along = std::min(a.at.x + a.size.length, b.at.x + b.size.length) - std::max(a.at.x, b.at.x);
  const double across = std::min(a.at.y + a.size.width, b.at.y + b.size.width) - std::max(a.at.y, b.at.y);
  return along * across;
}

double bears_of(const LoadItem& item) { return item.is_fragile ? 0.0 : item.bears.value; }

// Would `kg` on things[i] break it or anything under it?
bool bears(const LoadRoom& room, std::size_t i, double kg, std::vector<double>& added) {
  const Stowed& thing = room.things[i];
  added[i] += kg;
  if (thing.borne + added[i] > bears_of(item_of(room, thing.item)) + slack_kg) return false;
  for (const Carried& c : thing.on) {
    if (!bears(room, c.under, kg * c.share, added)) return false;
  }
  return true;
}

void pass_down(LoadRoom& room, std::size_t i, double kg) {
  room.things[i].borne += kg;
  for (const Carried& c : room.things[i].on) pass_down(room, c.under, kg * c.share);
}

}  // namespace

LoadRoom empty_room(const LoadTask& task, LoadSpaceId space) {
  LoadRoom room;
  room.task = &task;
  room.space = space;
  const LoadSpace& shape = space_of(room);
  room.plateaus.push_back({0, 0, s(shape.size.length), s(shape.size.width), 0});
  for (const LoadBox& box : shape.blocked) {
    Plateau base = top_of(box);
    base.z = s(box.at.z);
    cut_plateaus(room.plateaus, base);
  }
  for (const LoadBox& box : shape.blocked) {
    if (box.at.z + box.size.height < shape.size.height) merge_plateau(room.plateaus, top_of(box));
  }
  return room;
}

std::vector<LoadSize> stances(const LoadItem& item) {
  const std::array<Millimetres, 3> side{item.size.length, item.size.width, item.size.height};
  std::vector<LoadSize> sizes;
  for (const std::size_t up : {std::size_t{2}, std::size_t{1}, std::size_t{0}}) {
    if (!item.vertical[up]) continue;
    const Millimetres a = side[up == 0 ? 1 : 0];
    const Millimetres b = side[up == 2 ? 1 : 2];
    for (const LoadSize size : {LoadSize{a, b, side[up]}, LoadSize{b, a, side[up]}}) {
      if (std::find(sizes.begin(), sizes.end(), size) == sizes.end()) sizes.push_back(size);
    }
  }
  return sizes;
}

Millimetres height_limit(const LoadSpace& space, const LoadItem& item) {
  if (item.is_soft || space.has_guard || !space.cover_height) return space.size.height;
  return std::min(*space.cover_height, space.size.height);
}

bool can_stow(const LoadRoom& room, LoadItemId id, const LoadBox& box, std::vector<Carried>& on) {
  const LoadSpace& space = space_of(room);
  const LoadItem& item = item_of(room, id);
  on.clear();
  if (box.at.x < 0 || box.at.y < 0 || box.at.z < 0 || box.at.x + box.size.length > space.size.length ||
      box.at.y + box.size.width > space.size.width || box.at.z + box.size.height > height_limit(space, item)) {
    return false;
  }
  if (room.mass + item.mass.value > space.payload.value + slack_kg) return false;
  if (space.axles && space.axles->rear_left_over &&
      room.on_rear + item.mass.value * rear_share(*space.axles, box) > space.axles->rear_left_over->value) {
    return false;
  }
  const double base = double{box.size.length * 1.0} * box.size.width;
  double held = box.at.z == 0 ? base : 0.0;
  for (const LoadBox& blocked : space.blocked) {
    if (overlap(box, blocked)) return false;
    if (box.at.z > 0 && blocked.at.z + blocked.size.height == box.at.z && overlap_flat(box, blocked)) {
      held += shared_area(box, blocked);
    }
  }
  for (std::size_t i = 0; i < room.things.size(); ++i) {
    const LoadBox& other = room.things[i].box;
    if (!overlap_flat(box, other)) continue;
    if (overlap(box, other)) return false;
    if (other.at.z + other.size.height == box.at.z) {
      const double area = shared_area(box, other);
      held += area;
      on.push_back({i, area / base});
    }
    // Under something: it would have to hang in the air.
    if (other.at.z >= box.at.z + box.size.height) return false;
  }
  if (held != base) return false;  // products of whole millimetres: exact
  if (!on.empty()) {
    std::vector<double> added(room.things.size(), 0.0);
    for (const Carried& c : on) {
      if (!bears(room, c.under, item.mass.value * c.share, added)) return false;
      if (bears_of(item_of(room, room.things[c.under].item)) <= 0.0) return false;
    }
  }
  return can_leave(room, room.things.size(), box, std::vector<char>(room.things.size(), 0));
}

void stow(LoadRoom& room, LoadItemId id, const LoadBox& box, std::vector<Carried> on) {
  const LoadSpace& space = space_of(room);
  const LoadItem& item = item_of(room, id);
  const double kg = item.mass.value;
  Plateau base = top_of(box);
  base.z = s(box.at.z);
  cut_plateaus(room.plateaus, base);
  if (bears_of(item) > 0.0 && box.at.z + box.size.height < space.size.height) {
    merge_plateau(room.plateaus, top_of(box));
  }
  for (const Carried& c : on) pass_down(room, c.under, kg * c.share);
  room.mass += kg;
  if (space.axles) room.on_rear += kg * rear_share(*space.axles, box);
  room.height_work += kg * (box.at.z + 0.5 * box.size.height);
  room.length_work += kg * (box.at.x + 0.5 * box.size.length);
  room.things.push_back({id, box, kg, 0.0, std::move(on)});
}

bool is_front_axle_good(const LoadRoom& room) {
  const LoadSpace& space = space_of(room);
  return !space.axles || !space.axles->front_left_over ||
         room.mass - room.on_rear <= space.axles->front_left_over->value;
}

}  // namespace outbye
