// The ride file: one versioned JSON document (docs/ride-file.md).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "engine/ride.h"

namespace outbye {

constexpr int ride_file_version = 1;

// A ride, or every problem that keeps the file from being one (at least one then), in the order of the file's checks.
struct RideFileReading {
  std::optional<Ride> ride;
  std::vector<Problem> problems;
};

// `file` is used in messages only. Durations are kept to the microsecond, instants to the second. File names inside
// stay as written: relative to the ride file.
RideFileReading check_ride_file(std::string_view text, const std::string& file);

// The same with the first problem only.
Result<Ride> read_ride_file(std::string_view text, const std::string& file);

// Stable order; the settings that shape a plan are written out even at their defaults, so that they can be seen.
std::string write_ride_file(const Ride& ride);

}  // namespace outbye
