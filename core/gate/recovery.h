// When the pulse is likely to be down to the limit: heart-rate recovery fitted to the readings taken after arrival, as
// a range and never a promise. It speaks of the pulse alone; whether the horse is accepted is for the vet.
//
//   H(t) = H_rest + (H_0 - H_rest) exp(-t / tau),  t from arrival
//
// Source: mathematical modelling of post-exercise heart rate recovery in ponies, Biomed Sci Instrum 28 (1992) 151-156:
// two exponentials, 15 s over the first 55 s, then 455 +- 78 s. Range: readings 55 s to an hour after arrival; earlier
// ones belong to the fast part and are left out. Error: one paper on ponies; tau falls with training (Equine Vet J
// Suppl 2006), so it is a wide prior here that the readings narrow. Fright, feeding or a hot box is not in the
// model.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/physical_units.h"
#include "core/base/units.h"

namespace outbye {

struct PulseReading {
  Instant at;
  BeatsPerMinute pulse{};
};

// One curve. H_0 is that of the slow part, read back to arrival.
struct RecoveryCurve {
  BeatsPerMinute at_arrival{};
  BeatsPerMinute resting{44.0};  // the horse's own rate at a gate, standing quiet: 40-48
  Seconds tau{455.0};
};

BeatsPerMinute pulse_at(const RecoveryCurve& curve, Seconds after_arrival);
// 0 when it is there on arrival; nothing when the curve never comes down to `pulse`.
std::optional<Seconds> time_to_pulse(const RecoveryCurve& curve, BeatsPerMinute pulse);

// What is believed before the first reading.
struct RecoveryPrior {
  Seconds tau{455.0};            // median of a lognormal
  double tau_log_sd{0.35};       // twice the ponies' spread (78 / 455 = 0.17): other horses, fitter ones (a choice)
  BeatsPerMinute resting{44.0};  // normal; 40-48 is its 10 to 90 % range
  BeatsPerMinute resting_sd{3.12};
  BeatsPerMinute counting_error{3.0};  // sd of a reading: one beat too many in 15 s is 4 bpm, in 30 s 2 bpm
};

enum class RecoveryBasis {
  nothing,  // no usable reading: no range
  rough,    // one or two: mostly what is known of other horses
  fitted,   // three or more
};

// The 10, 50 and 90 % quantiles of the instant when the pulse is down to the limit. A quantile is nothing when it lies
// beyond two hours after arrival or never comes.
struct RecoveryForecast {
  RecoveryBasis basis{RecoveryBasis::nothing};
  std::size_t readings_used{};
  std::size_t readings_too_early{};  // within 55 s of arrival
  std::optional<Instant> p10;
  std::optional<Instant> p50;
  std::optional<Instant> p90;
  std::optional<double> chance_in_time;  // of being down by the latest presentation, 0..1, if there is one
  RecoveryCurve curve;                   // posterior means, to draw
  std::vector<std::string> missing;      // what would make it a better one, in sentences
};

// `limit` is the greatest pulse that counts as down. Readings in any order; those before arrival are ignored, and of
// very many the last 40 are used.
RecoveryForecast forecast_recovery(Instant arrival, const std::vector<PulseReading>& readings, BeatsPerMinute limit,
                                   std::optional<Instant> latest_presentation, const RecoveryPrior& prior = {});

// For people: "Likely down to 64 bpm between 10:38 and 10:43 (8 times in 10), no promise." Early ends are rounded down
// to the minute and late ends up. One sentence each.
std::vector<std::string> describe(const RecoveryForecast& forecast, BeatsPerMinute limit, Instant now,
                                  const Clock& clock);

}  // namespace outbye
