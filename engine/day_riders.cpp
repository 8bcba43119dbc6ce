#include "engine/day_riders.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace outbye {
namespace {

// Faster than this share of the expected time no other rider comes (a choice): a number is a slip.
constexpr double rider_least_share = 0.35;
constexpr Seconds near_window{600.0};

std::uint32_t passes_between(const RidePlan& plan, LoopId loop, Metres from, Metres to) {
  std::uint32_t count = 0;
  for (const Pass& pass : plan.survey.course.passes) {
    if (pass.loop == loop && pass.along.value > from.value + 1 && pass.along.value < to.value - 1) ++count;
  }
  return count;
}

// One key beside or one figure too many or too few.
bool is_one_slip(const std::string& typed, const std::string& meant) {
  return !same_name(typed, meant) && meant.size() > 1 && edit_distance(typed, meant) == 1;
}

// A number seen once, a slip away from ours, where and when ours is due and was not noted.
void doubt_slips_of_ours(const DayFold& fold, const DayState& state) {
  for (const RiderSeen& seen : state.riders) {
    const auto times = std::count_if(state.riders.begin(), state.riders.end(),
                                     [&](const RiderSeen& other) { return same_name(other.number, seen.number); });
    if (times > 1) continue;
    for (const HorseOnDay& horse : state.horses) {
      const std::string& ours = at(fold.plan.ride.horses, horse.horse).number;
      if (ours.empty() || !is_one_slip(seen.number, ours)) continue;
      for (const PassForecast& pass : fold.plan.passes) {
        if (pass.horse != horse.horse || !same_name(pass.name, seen.place) || pass.event.loop != seen.loop) continue;
        const bool is_noted = std::any_of(horse.seen.begin(), horse.seen.end(), [&](const OwnSighting& own) {
          return fold.names.events()[own.event].ride_along == pass.event.ride_along;
        });
        if (is_noted || seen.at < pass.due.p10 - near_window || seen.at > pass.due.p90 + near_window) continue;
        fold.trouble(seen.id, "number " + seen.number + " is one figure off ours, " + ours +
                                  ", and she is due there then; if it was ours, correct the number");
      }
    }
  }
}

// A start number is of figures, with a letter at most; what is much longer than all others is two typed as one.
void doubt_odd_numbers(const DayFold& fold, const DayState& state) {
  std::size_t longest = 3;
  for (const RideHorse& horse : fold.plan.ride.horses) longest = std::max(longest, horse.number.size());
  for (const RiderSeen& seen : state.riders) {
    if (seen.number.size() <= longest + 1) continue;
    fold.trouble(seen.id,
                 "number " + seen.number +
                     " is longer than start numbers are; were two typed as one? Correct it, and note the other");
  }
}

}  // namespace

void settle_riders(const DayFold& fold, DayState& state) {
  doubt_slips_of_ours(fold, state);
  doubt_odd_numbers(fold, state);
  std::map<std::string, const RiderSeen*> last;
  for (const RiderSeen& seen : state.riders) {
    const RiderSeen*& before = last[seen.number];
    if (before != nullptr && before->loop == seen.loop && seen.along > before->along) {
      const Metres way = seen.along - before->along;
      const Seconds time = seen.at - before->at;
      const Seconds expected = way / at(fold.plan.ride.loops, seen.loop).pace.speed;
      if (time < rider_least_share * expected) {
        fold.trouble(seen.id, "number " + seen.number + " would have come from " + before->place + " (" +
                                  fixed(in_kilometres(way), 1) + " km) in " + fixed(in_minutes(time), 0) +
                                  " min; one of the two numbers is a slip: correct it. Neither is used");
      } else {
        state.stretches.push_back({seen.number, seen.loop, before->along, seen.along, time,
                                   passes_between(fold.plan, seen.loop, before->along, seen.along)});
      }
    }
    before = &seen;
  }
}

}  // namespace outbye
