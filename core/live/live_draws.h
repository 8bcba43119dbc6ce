// What is drawn once a ride, so that an answer on the day has only to place it and to weigh it: how the loops still to
// be begun go at the ride's expected pace, how long stands and recoveries are, what holds her up, and the normals that
// the loop she is on is drawn with. The pace of the whole ride (R) and the loop she is on follow from what was noted;
// given R, the later loops do not depend on it (core/live/live_pace.h), so their draws stay good all day.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/base/random.h"
#include "core/live/live_pace.h"

namespace outbye {

struct LiveDraws {
  std::size_t days{};  // of a batch
  Seed seed;
  // Columns by event, then by day: [event * days + day].
  std::vector<double> riding;  // seconds from the start of the event's loop, with R at 0
  std::vector<double> stand;   // at a pass; at a gate and the finish the recovery
  // By loop, then by day.
  std::vector<double> held_at;               // the expected second of the loop at which something holds her up
  std::vector<double> held_for;              // seconds; mostly 0
  std::size_t rows{};                        // of normals
  std::vector<std::vector<double>> normals;  // by batch: [row * days + day]
};

// Rows of the normals: R and the cells of one loop, then these.
struct LiveRows {
  std::size_t wait;        // the delay of the start, or the stay where she was seen last
  std::size_t held_share;  // where on the loop she is held up, by the normal's distribution function
  std::size_t held_for;
};
LiveRows live_rows(const LiveDraws& draws);

// `batches`: normals drawn beforehand; later ones are drawn when they are asked for. The numbers do not depend on it.
LiveDraws live_draws(const LivePace& pace, Seed seed, std::size_t batches);

// The normals of a batch: those kept in `draws`, or drawn into `store`.
std::span<const double> normals_of(const LiveDraws& draws, std::size_t batch, std::vector<double>& store);

double drawn(const UncertainTime& time, double normal);  // lognormal

}  // namespace outbye
