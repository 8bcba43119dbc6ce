// The times noted of one horse, made into sightings that can be: what contradicts is left out and said. Internal to
// engine.
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "core/live/hybrid_clock.h"
#include "engine/day_fold.h"

namespace outbye {

struct Noted {  // a time of a horse at an event
  Instant at;
  std::string id;
  HybridTime noted;
};
struct NotedPass {
  std::optional<Noted> in, in_time, out;
};
using NotedPasses = std::map<std::size_t, NotedPass>;        // by event
using CarsStood = std::vector<std::pair<PlaceId, Instant>>;  // where a car of ours has parked, and since when

// A time at an event; of two that differ the one noted later counts, and both are named.
void note_time(const DayFold& fold, HorseId horse, std::size_t event, std::optional<Noted>& slot, Noted noted);
// Fills in `seen` and the arrivals of the gates. Erases from `noted` what cannot be.
void settle_sightings(const DayFold& fold, NotedPasses& noted, const CarsStood& stood, HorseOnDay& horse);

}  // namespace outbye
