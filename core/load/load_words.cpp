#include <algorithm>
#include <utility>

#include "core/load/load_lift.h"
#include "core/load/load_plan.h"

namespace outbye {
namespace {

std::string side_of(const LoadSpace& space, const LoadBox& box) {
  if (box.size.width * 10 > space.size.width * 8) return "full width";
  const Millimetres middle = 2 * box.at.y + box.size.width;  // twice
  if (middle * 3 < space.size.width * 2) return "left";
  if (middle * 3 > space.size.width * 4) return "right";
  return "middle";
}

std::string depth_of(const LoadSpace& space, const LoadBox& box) {
  if (box.size.length * 10 > space.size.length * 8) return "full length";
  if (box.at.x == 0) return "against the seat-back";
  const Millimetres middle = 2 * box.at.x + box.size.length;
  if (middle * 3 < space.size.length * 2) return "towards the seat-back";
  if (middle * 3 > space.size.length * 4) return "by the tailgate";
  return "in the middle";
}

bool stands_on(const LoadBox& box, const LoadBox& under) {
  return under.at.z + under.size.height == box.at.z && box.at.x < under.at.x + under.size.length &&
         under.at.x < box.at.x + box.size.length && box.at.y < under.at.y + under.size.width &&
         under.at.y < box.at.y + box.size.width;
}

std::string ground_of(const LoadTask& task, const Load& load, const LoadPlacement& placement) {
  if (placement.box.at.z == 0) return "on the floor";
  std::vector<std::string> names;
  for (const LoadPlacement& other : load.placements) {
    if (other.space == placement.space && other.item != placement.item && stands_on(placement.box, other.box)) {
      names.push_back(at(task.items, other.item).name);
    }
  }
  for (const LoadBox& blocked : at(task.spaces, placement.space).blocked) {
    if (stands_on(placement.box, blocked)) {
      names.push_back("the arch or ledge");
      break;
    }
  }
  std::string words = "on ";
  for (std::size_t n = 0; n < names.size(); ++n) {
    if (n > 0) words += n + 1 == names.size() ? " and " : ", ";
    words += names[n];
  }
  return words;
}

std::string turned_as(const LoadItem& item, const LoadBox& box) {
  if (box.size == item.size) return "";
  const bool is_across = box.size == LoadSize{item.size.width, item.size.length, item.size.height};
  return is_across ? "turned across" : "on its side";
}

}  // namespace

std::vector<LoadStep> describe(const LoadTask& task, const Load& load) {
  std::vector<LoadStep> steps;
  std::vector<int> count(task.spaces.size(), 0);
  for (const LoadPlacement& placement : load.placements) {
    const LoadSpace& space = at(task.spaces, placement.space);
    const LoadItem& item = at(task.items, placement.item);
    LoadStep step;
    step.step = ++count[placement.space.value];
    step.item = placement.item;
    step.space = placement.space;
    step.side = side_of(space, placement.box);
    step.depth = depth_of(space, placement.box);
    step.on = ground_of(task, load, placement);
    step.turned = turned_as(item, placement.box);
    step.lift = advise_lift(task, space, item, placement.box).words;
    step.words = "step " + std::to_string(step.step) + ": " + item.name + ", " + step.side + ", " + step.depth + ", " +
                 step.on + (step.turned.empty() ? "" : ", " + step.turned);
    steps.push_back(std::move(step));
  }
  return steps;
}

}  // namespace outbye
