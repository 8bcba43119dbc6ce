// The simulated days laid out for valuing many plans: columns of floats, day by day, and what can be said beforehand
// about a horse's next arrival. Nothing here depends on a plan.
// Times are seconds after an epoch shared by all horses and cars; a float holds them to 1/128 s within 36 hours.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/crewing/crewing_task.h"

namespace outbye {

// A set of days. Columns as in HorseDays: the value of column c on day d at [c * days + d].
struct DaySet {
  struct Horse {
    std::vector<float> base;   // arrival if the horse stopped at no pass
    std::vector<float> stand;  // at a pass if met, at a gate always (it is in the later bases)
  };
  std::size_t days{};
  std::vector<Horse> horses;
  std::vector<float> option_factor;  // of the drive into an option, over its time at the limits; never below 1
  std::vector<float> refill_factor;  // likewise into a refill place
};

// Waits for a horse, counted from when it was last met (its arrival there), over the days.
struct Expectation {
  float early{};   // 5 %: a car standing there before that has missed nothing
  float middle{};  // median
  float late{};    // settings.confidence of the days: a car that may have come too late waits until then
  float latest{};  // 99 %: a car that came in time waits until then
};

// How late a car may be at a departure, counted from when the horse was last met, and be ready for the next meet ...
struct Margin {
  float wanted{};  // ... with settings.confidence: leave-by
  float least{};   // ... with settings.give_up: any later and it drives to the fallback
  float mean{};    // of the latest departures that are ready, over the days, and their spread
  float sd{};
};

class ValuationDays {
 public:
  // Errors: bad_input when the horses' days, events or columns do not fit together.
  static Result<ValuationDays> make(const CrewingTask& task);

  const CrewingTask& task() const { return *task_; }  // must outlive this
  Instant epoch() const { return epoch_; }
  const DaySet& all() const { return all_; }
  const DaySet& typical() const { return typical_; }  // one day: every column at its median, drives with the allowance
  std::size_t days() const { return all_.days; }

  float seconds(Instant at) const { return static_cast<float>((at - epoch_).count()); }
  Instant instant(double seconds) const { return epoch_ + Seconds{seconds}; }

  // Both are worked out from the first 512 days when first asked for, and kept.
  Expectation expectation(HorseId horse, std::optional<std::size_t> last_met, std::size_t event);
  // Nothing when there is no way by car from `from`.
  std::optional<Margin> margin(PlaceId from, std::optional<std::size_t> last_met, MeetOptionId option);
  // Chance of being ready at `option` for a car that leaves `from` `lateness` seconds after the horse was last met,
  // when the horse is held up by `held` seconds on the way (stands at other cars' meets); as if the latest departures
  // were Gaussian. 0 where no way by car.
  double chance_ready(PlaceId from, std::optional<std::size_t> last_met, MeetOptionId option, float lateness,
                      float held);

 private:
  // Time from the last meet (or the epoch) to an event when nothing is met between, on day d.
  float span(HorseId horse, std::optional<std::size_t> last_met, std::size_t event, std::size_t d) const;
  std::size_t sample() const { return days() < 512 ? days() : 512; }
  void fill_reach(PlaceId from, std::optional<std::size_t> last_met, MeetOptionId option);

  const CrewingTask* task_{};
  Instant epoch_;
  DaySet all_;
  DaySet typical_;
  std::vector<std::size_t> first_event_;   // of each horse in the caches' rows
  std::size_t rows_{};                     // events of all horses, and one more each for "not met yet"
  std::size_t columns_{};                  // events of all horses
  std::vector<Expectation> expectations_;  // [row * columns + column]
  std::vector<std::optional<Margin>> margins_;
  std::vector<char> has_expectation_;
  std::vector<char> has_margin_;
  std::vector<float> scratch_;
};

}  // namespace outbye
