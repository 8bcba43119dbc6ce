#include "core/gate/recovery_index.h"

#include <cmath>

#include "core/base/text.h"

namespace outbye {
namespace {

constexpr BeatsPerMinute suspect_rise{4.0};
constexpr BeatsPerMinute high_first{60.0};
// 68 of 180 horses were counted late in the published trial; a stopwatch in the hand is good to a few seconds.
constexpr Seconds wanted{60.0};
constexpr Seconds tolerated{5.0};

}  // namespace

RecoveryIndex recovery_index(BeatsPerMinute first, BeatsPerMinute second, Seconds after_trot_began) {
  RecoveryIndex index;
  index.rise = second - first;
  index.is_suspect = index.rise > suspect_rise;
  if (index.is_suspect) {
    index.warnings.push_back({"recovery index", "rises by " + fixed(index.rise.value, 0) +
                                                    " bpm after the trot, more than 4: suspect; ask the vet"});
  }
  if (first > high_first) {
    index.warnings.push_back(
        {"recovery index", "the first pulse is " + fixed(first.value, 0) +
                               " bpm: above 60 at the end of the hold went with more eliminations "
                               "later in a published study (Equine Vet J Suppl 2002); ask the vet"});
  }
  if (std::abs((after_trot_began - wanted).count()) > tolerated.count()) {
    index.warnings.push_back(
        {"recovery index", "counted " + fixed(after_trot_began.count(), 0) +
                               " s after the trot began instead of 60: the rise cannot be compared"});
  }
  return index;
}

}  // namespace outbye
