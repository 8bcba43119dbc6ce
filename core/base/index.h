// An index is a type: a road node cannot be used where a gate is meant. Absence is std::optional<Index>.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace outbye {

template <class Tag>
struct Index {
  std::uint32_t value{};
  friend constexpr auto operator<=>(Index, Index) = default;
};

// The element of a vector that an index names.
template <class T, class Tag>
const T& at(const std::vector<T>& items, Index<Tag> i) {
  return items[static_cast<std::size_t>(i.value)];
}
template <class T, class Tag>
T& at(std::vector<T>& items, Index<Tag> i) {
  return items[static_cast<std::size_t>(i.value)];
}

// The words that more than one folder speaks.
using LoopId = Index<struct LoopTag>;            // a loop of the course, 0-based
using CrewPointId = Index<struct CrewPointTag>;  // a designated crew point of the course
using PassId = Index<struct PassTag>;            // a pass in Course::passes
using PlaceId = Index<struct PlaceTag>;          // a place a car drives to: a row of a DriveTable
using HorseId = Index<struct HorseTag>;
using CarId = Index<struct CarTag>;

}  // namespace outbye
