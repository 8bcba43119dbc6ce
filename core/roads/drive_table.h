// Drive times and lengths between places, from a road map or typed in by the user. Rows are where a drive starts.
#pragma once

#include <cassert>
#include <optional>
#include <string>
#include <vector>

#include "core/base/index.h"
#include "core/base/units.h"

namespace outbye {

struct Drive {
  Seconds time{};   // at or below every limit on the way: no real drive is planned faster
  Metres length{};  // over the ground; 0 when only a time was typed in
};

// Square; nothing where there is no way by car. The diagonal is a drive of 0 s.
class DriveTable {
 public:
  DriveTable() = default;
  explicit DriveTable(std::vector<std::string> places)
      : places_(std::move(places)), drives_(places_.size() * places_.size()) {
    for (std::size_t i = 0; i < places_.size(); ++i) drives_[i * places_.size() + i] = Drive{};
  }
  std::size_t size() const { return places_.size(); }
  const std::vector<std::string>& places() const { return places_; }
  const std::optional<Drive>& drive(PlaceId from, PlaceId to) const { return drives_[cell(from, to)]; }
  void set(PlaceId from, PlaceId to, std::optional<Drive> drive) { drives_[cell(from, to)] = drive; }

 private:
  std::size_t cell(PlaceId from, PlaceId to) const {
    assert(from.value < size() && to.value < size());
    return from.value * places_.size() + to.value;
  }
  std::vector<std::string> places_;
  std::vector<std::optional<Drive>> drives_;
};

}  // namespace outbye
