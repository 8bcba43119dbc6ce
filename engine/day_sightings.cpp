#include "engine/day_sightings.h"

#include <algorithm>
#include <cmath>

#include "engine/places.h"

namespace outbye {
namespace {

// Faster than this share of the expected riding time nobody rides (a choice): two such sightings contradict.
constexpr double least_share = 0.45;

class Sightings {
 public:
  Sightings(const DayFold& fold, NotedPasses& noted, const CarsStood& stood, HorseOnDay& horse)
      : fold_(fold), noted_(noted), stood_(stood), horse_(horse) {}

  void settle() {
    drop_contradictions();
    for (auto& [event, pass] : noted_) {
      const RideEvent& what = fold_.names.events()[event];
      if (pass.in && pass.out && pass.out->at < pass.in->at) {
        fold_.trouble(pass.out->id, "has her leave " + fold_.names.label(horse_.horse, event) +
                                        " before she came; the time of "
                                        "leaving is left aside: put one of the two right");
        pass.out.reset();
      }
      if (pass.in && pass.in_time && pass.in_time->at < pass.in->at) {
        fold_.trouble(pass.in_time->id, "is an in-time before she came in; it is left aside: put one of the two right");
        pass.in_time.reset();
        horse_.gates[what.loop.value].in_time.reset();
      }
      OwnSighting seen;
      seen.event = event;
      if (pass.in) seen.in = pass.in->at;
      if (pass.in_time) seen.in_time = pass.in_time->at;
      if (pass.out) seen.out = pass.out->at;
      if (!seen.in && !seen.in_time && !seen.out) continue;
      if (what.pass) {
        const PlaceId place = crew_point_place(at(fold_.plan.survey.course.passes, *what.pass).crew_point);
        const Instant when = seen.in.value_or(seen.out.value_or(fold_.now));
        const bool stood = seen.in && seen.out && *seen.out - *seen.in > Seconds{30};
        seen.is_met = stood || (!(seen.in && seen.out) && a_car_stood(place, when));
      } else if (seen.in) {
        horse_.gates[what.loop.value].arrival = seen.in;
      }
      horse_.seen.push_back(seen);
    }
  }

 private:
  bool a_car_stood(PlaceId place, Instant when) const {
    for (const auto& [stood, since] : stood_) {
      if (stood == place && since <= when) return true;
    }
    return false;
  }

  // Sightings in an order or at a pace that cannot be are left out one by one, the one first that clashes with most;
  // of equals, the one farther from the plan.
  void drop_contradictions() {
    auto& noted = noted_;
    const HorseId horse = horse_.horse;
    const auto time_of = [](const NotedPass& p) { return p.in ? *p.in : p.in_time ? *p.in_time : *p.out; };
    for (;;) {
      std::map<std::size_t, int> clashes;
      for (auto a = noted.begin(); a != noted.end(); ++a) {
        for (auto b = std::next(a); b != noted.end(); ++b) {
          const Instant left = a->second.out ? a->second.out->at : time_of(a->second).at;
          if (time_of(b->second).at - left >= least_share * riding_between(a->first, b->first)) continue;
          ++clashes[a->first];
          ++clashes[b->first];
        }
      }
      if (clashes.empty()) return;
      std::size_t worst = clashes.begin()->first;
      const auto off = [&](std::size_t e) {
        return std::fabs((time_of(noted[e]).at - fold_.names.due(horse, e)).count());
      };
      for (const auto& [event, count] : clashes) {
        if (count > clashes[worst] || (count == clashes[worst] && off(event) > off(worst))) worst = event;
      }
      const Noted dropped = time_of(noted[worst]);
      std::string others;
      for (const auto& [event, count] : clashes) {
        if (event == worst) continue;
        others += (others.empty() ? "" : ", ") + fold_.names.label(horse, event) + " at " +
                  fold_.clock_time(time_of(noted[event]).at);
      }
      fold_.trouble(dropped.id, "has her at " + fold_.names.label(horse, worst) + " at " +
                                    fold_.clock_time(dropped.at) + ", which cannot be together with " + others +
                                    "; it is kept but not used: correct or "
                                    "withdraw whichever is wrong");
      noted.erase(worst);
    }
  }

  // Expected riding time without stands and gates, from the plan's own speeds.
  Seconds riding_between(std::size_t from, std::size_t to) const {
    Seconds sum{0};
    const auto& events = fold_.names.events();
    double along = events[from].ride_along.value;
    for (std::size_t l = events[from].loop.value; l <= events[to].loop.value; ++l) {
      double end = 0;
      for (const auto& e : events) {
        if (!e.pass && e.loop.value == l) end = e.ride_along.value;
      }
      const double until = std::min(end, events[to].ride_along.value);
      if (until > along) sum += Metres{until - along} / fold_.plan.ride.loops[l].pace.speed;
      along = std::max(along, until);
    }
    return sum;
  }

  const DayFold& fold_;
  NotedPasses& noted_;
  const CarsStood& stood_;
  HorseOnDay& horse_;
};

}  // namespace

void note_time(const DayFold& fold, HorseId horse, std::size_t event, std::optional<Noted>& slot, Noted noted) {
  if (slot && std::fabs((slot->at - noted.at).count()) > 60.0) {
    const bool later = noted.noted > slot->noted;
    const Noted& kept = later ? noted : *slot;
    const Noted& other = later ? *slot : noted;
    fold.trouble(other.id, fold.names.label(horse, event) + " is noted at " + fold.clock_time(other.at) + " and at " +
                               fold.clock_time(kept.at) +
                               "; the one noted last counts: withdraw or correct the wrong one");
  }
  if (!slot || noted.noted > slot->noted) slot = std::move(noted);
}

void settle_sightings(const DayFold& fold, NotedPasses& noted, const CarsStood& stood, HorseOnDay& horse) {
  Sightings(fold, noted, stood, horse).settle();
}

}  // namespace outbye
