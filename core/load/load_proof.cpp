#include "core/load/load_proof.h"

#include <algorithm>
#include <array>

#include "core/base/text.h"
#include "core/load/load_arrange.h"

namespace outbye {
namespace {

// A length as a dual feasible function sees it: more than D - p counts as all of D, less than p as nothing. Whatever
// fits side by side in D still does. Fekete and Schepers, Math. Methods of Operations Research 60 (2004) 311-329.
double seen(Millimetres length, Millimetres whole, Millimetres p) {
  if (length > whole - p) return whole;
  return length < p ? 0.0 : length;
}

std::vector<Millimetres> thresholds(const std::vector<std::vector<LoadSize>>& sizes, Millimetres LoadSize::*side,
                                    Millimetres whole) {
  std::vector<Millimetres> values{0};
  for (const auto& all : sizes) {
    for (const LoadSize& size : all) {
      const Millimetres a = size.*side;
      if (2 * a <= whole) values.push_back(a);
      if (a < whole && 2 * (whole - a) <= whole)
        values.push_back(whole - a + 1 <= whole / 2 ? whole - a + 1 : whole - a);
    }
  }
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end()), values.end());
  // Evenly thinned: any subset is sound.
  std::vector<Millimetres> few;
  const std::size_t step = (values.size() + 13) / 14;
  for (std::size_t i = 0; i < values.size(); i += step) few.push_back(values[i]);
  return few;
}

// Does some weighted volume exceed the space? Each thing counts with the stance in which it counts least.
bool is_over_volume(const LoadSpace& space, const std::vector<std::vector<LoadSize>>& sizes) {
  const auto along = thresholds(sizes, &LoadSize::length, space.size.length);
  const auto across = thresholds(sizes, &LoadSize::width, space.size.width);
  const auto up = thresholds(sizes, &LoadSize::height, space.size.height);
  const double whole = 1.0 * space.size.length * space.size.width * space.size.height;
  for (const Millimetres p : along) {
    for (const Millimetres q : across) {
      for (const Millimetres r : up) {
        const auto volume = [&](const LoadSize& size) {
          return seen(size.length, space.size.length, p) * seen(size.width, space.size.width, q) *
                 seen(size.height, space.size.height, r);
        };
        double sum = 0.0;
        for (const LoadBox& box : space.blocked) sum += volume(box.size);
        for (const auto& all : sizes) {
          double least = whole;
          for (const LoadSize& size : all) least = std::min(least, volume(size));
          sum += least;
        }
        if (sum > whole) return true;  // whole numbers below 2^53: exact
      }
    }
  }
  return false;
}

}  // namespace

CannotFit prove_cannot_fit(const LoadTask& task, LoadSpaceId space_id, const std::vector<LoadItemId>& items,
                           LoadWork& work) {
  const LoadSpace& space = at(task.spaces, space_id);
  double mass = 0.0;
  std::vector<std::vector<LoadSize>> sizes;
  for (const LoadItemId id : items) {
    const LoadItem& item = at(task.items, id);
    mass += item.mass.value;
    sizes.push_back(stances(item));
    std::erase_if(sizes.back(), [&](const LoadSize& size) {
      return size.length > space.size.length || size.width > space.size.width ||
             size.height > height_limit(space, item);
    });
    if (sizes.back().empty()) return {true, "proven: " + item.name + " alone is too large for " + space.name};
  }
  if (mass > space.payload.value + 1e-6) {
    return {true, "proven: together " + fixed(mass, 1) + " kg, and " + space.name + " may take " +
                      fixed(space.payload.value, 1) + " kg"};
  }
  if (is_over_volume(space, sizes)) {
    return {true, "proven: " + space.name + " is too small for them by volume, however they are turned"};
  }
  if (items.size() > 12) return {false, "not proven that no more would fit: that is tried up to 12 things"};
  // The largest few alone may not fit, which is proven far sooner than for all; so they are tried first.
  std::vector<LoadItemId> largest = items;
  const auto volume = [&](LoadItemId id) {
    const LoadSize& size = at(task.items, id).size;
    return std::int64_t{size.length} * size.width * size.height;
  };
  std::stable_sort(largest.begin(), largest.end(), [&](LoadItemId a, LoadItemId b) { return volume(a) > volume(b); });
  for (std::size_t count = 2; count <= largest.size(); ++count) {
    const std::vector<LoadItemId> few(largest.begin(), largest.begin() + static_cast<std::ptrdiff_t>(count));
    const bool is_all = count == largest.size();
    const Arrangement answer = arrange(task, space_id, few, is_all ? 600'000 : 100'000, work);
    if (answer == Arrangement::none) {
      const std::string who = is_all ? "them all" : "the largest " + std::to_string(count) + " of them";
      return {true, "proven: no arrangement in " + space.name + " holds " + who};
    }
    if (answer == Arrangement::exists && is_all) {
      return {false, "not proven: they would fit without regard to support, strength and reach"};
    }
  }
  return {false, "not proven: the work given ran out"};
}

}  // namespace outbye
