// When an event was noted, so that notes of several phones fall into one order even where a phone's clock is wrong or
// is put back: a hybrid logical clock (S. S. Kulkarni, M. Demirbas and others, Logical physical clocks, OPODIS 2014).
// It never runs backwards on a device, and what was noted after reading another's note is later than that note.
#pragma once

#include <algorithm>
#include <compare>
#include <cstdint>

namespace outbye {

struct HybridTime {
  std::int64_t milliseconds{};  // of the device's clock, since 1970 in UTC, or what it had seen before if that is later
  std::uint32_t count{};        // orders notes within one millisecond
  friend constexpr auto operator<=>(HybridTime, HybridTime) = default;
};

// The time of the next note of a device. `latest`: the latest of all notes that it holds, its own and others'.
constexpr HybridTime next_hybrid_time(HybridTime latest, std::int64_t device_milliseconds) {
  if (device_milliseconds > latest.milliseconds) return {device_milliseconds, 0};
  return {latest.milliseconds, latest.count + 1};
}

}  // namespace outbye
