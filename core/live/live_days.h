// Days as they may still become, given everything noted: drawn from the pace that our own and other riders' sightings
// leave (live_pace.h, exact), and weighed by what was not seen and by doubtful word (likelihood weights).
//   watching from a to b without seeing her, chance q of overlooking:  days on which she passes between count q, others
//   1 word that she passed about t (sd s, trust r):  r N(t; passing, s) + (1 - r) / 2 h word that she had not passed by
//   t (trust r):   days on which she had count 1 - r, others 1
// What holds a horse up (LiveSettings::held_up) is drawn oftener than it happens and weighed back, so that long silence
// still finds days that agree with it.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/live/live_draws.h"
#include "core/live/live_pace.h"

namespace outbye {

struct Watch {
  std::size_t event{};
  Instant from;
  Instant to;
  double overlook{0.05};
};

struct Word {
  std::size_t event{};
  Instant at;                      // when it was sent
  std::optional<Instant> seen_at;  // nothing: not yet, by `at`
  Seconds doubt{minutes(3.0)};
  double trust{0.8};
};

struct DayEvidence {
  std::optional<Instant> started;
  std::vector<OwnSighting> own;
  std::vector<RiderStretch> riders;
  std::vector<Watch> watches;
  std::vector<Word> words;
};

// Columns as in HorseDays: the value of event e on day d at [e * days + d], seconds after `origin`. Arrivals hold the
// stands that were noted; stands at passes to come are apart, as there.
struct LiveDays {
  HorseDays days;
  std::vector<double> weight;     // of each day; they sum to 1
  std::vector<double> prior;      // likewise by sightings alone, before what was not seen and doubtful word; of ...
  std::vector<double> unweighed;  // ... these arrivals, where `days` were chosen by weight; empty: of `days`
  double effective{};             // so many days of equal weight tell as much
  bool is_contradicted{};         // no day agrees with what was noted: the weights are those without it
  LiveAnchor anchor;
  std::size_t riders_used{};
};

// Batches drawn at most, when few days agree with what was noted.
inline constexpr std::size_t most_live_batches = 16;

// As many days as a batch of `draws` has. One batch keeps its weights; of more, days are chosen by weight, so that what
// follows costs no more. `draws`: of the same pace.
LiveDays live_days(const LivePace& pace, const DayEvidence& evidence, const LiveDraws& draws);
LiveDays live_days(const LivePace& pace, const DayEvidence& evidence, Seed seed);

// The same days, each as often as its weight says: `count` equal ones.
HorseDays equal_days(const LiveDays& live, std::size_t count, Seed seed);

// One event as it looks at `now`.
struct PassOdds {
  double gone{};              // chance that she has come by already
  std::optional<Window> due;  // when she comes, if she is still to come; nothing when that is below 1 in 1,000
  std::optional<Window> was;  // when she came, if she has; likewise
};
PassOdds pass_odds(const LiveDays& live, std::size_t event, Instant now);
// `arrival`: one a day, instead of the days' own.
PassOdds pass_odds(const LiveDays& live, std::span<const double> arrival, Instant now);
double chance_gone(const LiveDays& live, std::size_t event, Instant now);  // PassOdds::gone alone
// Chance that she would come later than `now` by sightings alone: small when she is overdue.
double chance_of_coming_after(const LiveDays& live, std::size_t event, Instant now);

// Weighted quantile of the values of the days for which `keep` is not 0; nothing when they weigh nothing.
std::optional<double> weighted_quantile(std::span<const double> values, std::span<const double> weights, double p);

}  // namespace outbye
