// The usual tasks of a crew at its stops, as data: what, how long by how many hands, in which order, how necessary.
// Durations are common practice (no source) and meant to be edited; pouring: a 2 L bottle takes 6-8 s each hand, a 15 L
// bucket with a jug about 90 s; stops: flying bottle 10-20 s, short 1-3 min, drink stop 4-6 min; setting up 3-5 min,
// packing 2-4 min (common practice).
#pragma once

#include <string>
#include <vector>

#include "core/jobs/stop_task.h"

namespace outbye {

enum class StopKind { flying_bottle, short_stop, drink_stop, vet_gate, finish };
const char* stop_kind_name(StopKind kind);  // "flying bottle"

struct UsualStop {
  StopKind kind{StopKind::short_stop};
  bool is_refilled{};               // water is drawn here first
  bool is_cold{};                   // no pouring; a rug instead
  std::uint32_t most_at_horse{4};   // from the rules of the day
  Seconds horse_at{minutes(10.0)};  // after the car has stopped
};

// The stop for these helpers (1..4). Who holds the horse follows from the crew: a rider alone with one helper holds it.
Result<CrewStop> usual_stop(const UsualStop& what, const std::vector<Helper>& helpers);

// A helper with every skill of the catalogue: where nothing is known of the crew.
Helper helper_of_all_work(std::string name);

// How a crew of this size (1..4) shares the work, in a line: "1 does all; shorten the list of points".
std::string crew_size_advice(std::size_t helpers);

}  // namespace outbye
