#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "core/pace/loop_clock.h"
#include "core/pace/pace.h"
#include "core/pace/pace_checks.h"
#include "core/pace/within_loop.h"

namespace outbye {
namespace {

// Days are drawn in whole blocks, so that day 17 is the same day however many are asked for.
constexpr std::size_t block = 64;
using Block = std::array<double, block>;

// The wandering part is drawn on a grid of equal cells that does not know the crew points: with or without a point, the
// horse has the same day. Inside a cell the deviation is its mean over the cell; for a pass in the middle of a 2 km
// cell at 12 km/h that leaves out a standard deviation of 4 s, against minutes from the other parts.
constexpr double longest_cell = 2000.0;

struct EventInLoop {
  std::size_t event;  // index into HorseDays::events
  double in_cell;     // seconds from the start of its cell, expected
};

struct Cell {
  double seconds;  // expected, to ride it
  WanderStep wander;
  std::vector<EventInLoop> events;
};

std::vector<Cell> cells_of(const Course& course, const HorsePace& pace, std::size_t loop_index,
                           const std::vector<RideEvent>& events) {
  const Loop& loop = course.loops[loop_index];
  const LoopClock clock(loop, pace.loops[loop_index]);
  const double longest = std::min(longest_cell, pace.spread.within_length.value / 3.0);
  const auto count = static_cast<std::size_t>(std::max(std::ceil(loop.length.value / longest), 1.0));
  const auto steps = wander_steps(loop.length, count, pace.spread.within, pace.spread.within_length);
  std::vector<Cell> cells(count);
  std::vector<double> start(count + 1);  // seconds at the cells' ends
  for (std::size_t i = 0; i <= count; ++i) {
    start[i] = clock.at(loop.length * (static_cast<double>(i) / static_cast<double>(count))).count();
  }
  start[count] = clock.total().count();
  for (std::size_t i = 0; i < count; ++i) cells[i] = {start[i + 1] - start[i], steps[i], {}};
  for (std::size_t e = 0; e < events.size(); ++e) {
    if (events[e].loop.value != loop_index) continue;
    if (!events[e].pass) {
      cells[count - 1].events.push_back({e, cells[count - 1].seconds});
      continue;
    }
    const double elapsed = clock.at(at(course.passes, *events[e].pass).along).count();
    const auto above = std::upper_bound(start.begin(), start.end(), elapsed);
    const auto cell =
        std::min(static_cast<std::size_t>(std::max<std::ptrdiff_t>(above - start.begin() - 1, 0)), count - 1);
    cells[cell].events.push_back({e, std::max(elapsed - start[cell], 0.0)});
  }
  return cells;
}

// Three streams, so that a change in one part of the model (a crew point more) leaves the draws of the others alone.
Seed stream(Seed seed, std::uint64_t number) {
  // splitmix64 (Steele, Lea, Flood 2014): neighbouring seeds give unrelated streams
  std::uint64_t z = seed.value + 0x9e3779b97f4a7c15u * (number + 1);
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return {z ^ (z >> 31)};
}

// A spread of 0 takes its draws too, so that nothing after it shifts.
void draw_times(Rng& rng, const UncertainTime& time, Block& seconds) {
  standard_normals(rng, seconds);
  for (double& value : seconds) value = time.median.count() * std::exp(time.log_sd * value);
}

}  // namespace

Result<HorseDays> simulate_days(const Course& course, const HorsePace& pace, std::size_t days, Seed seed) {
  if (auto checked = check_pace(course, pace); !checked) return tl::make_unexpected(checked.error());
  if (days == 0 || days > 1'000'000) {
    return bad_input("simulated days", "are " + std::to_string(days) + "; give 1 to 1000000, usually 4096");
  }
  HorseDays result{pace.start, days, ride_events(course), {}, {}, {}};
  const std::size_t events = result.events.size();
  result.base.resize(events * days);
  result.stand.resize(events * days);
  result.in_time.resize(events * days);
  std::vector<std::vector<Cell>> loops;
  for (std::size_t i = 0; i < course.loops.size(); ++i) loops.push_back(cells_of(course, pace, i, result.events));

  Rng parts(stream(seed, 0));   // start, ride, loops, recovery
  Rng wander(stream(seed, 1));  // within a loop
  Rng stands(stream(seed, 2));  // at passes
  Block z, now, ride, scale, state, recovery, elapsed;
  for (std::size_t first = 0; first < days; first += block) {
    const std::size_t count = std::min(block, days - first);
    const auto keep = [&](std::vector<double>& column, std::size_t event, const Block& values) {
      std::copy_n(values.begin(), count, column.begin() + static_cast<std::ptrdiff_t>(event * days + first));
    };
    draw_times(parts, pace.start_delay, now);
    standard_normals(parts, ride);
    for (std::size_t l = 0; l < loops.size(); ++l) {
      standard_normals(parts, scale);
      for (std::size_t d = 0; d < block; ++d) {
        scale[d] = std::exp(pace.spread.ride * ride[d] + pace.spread.loop * scale[d]);
      }
      state.fill(0.0);
      std::size_t gate = events;
      for (const Cell& cell : loops[l]) {
        const WanderStep& w = cell.wander;
        standard_normals(wander, z);
        for (std::size_t d = 0; d < block; ++d) {
          elapsed[d] = scale[d] * std::exp(w.from_state * state[d] + w.from_draw * z[d]);  // over the expected time
          state[d] = w.keep * state[d] + w.learn * z[d];
        }
        for (const EventInLoop& event : cell.events) {
          Block arrival;
          for (std::size_t d = 0; d < block; ++d) arrival[d] = now[d] + event.in_cell * elapsed[d];
          keep(result.base, event.event, arrival);
          if (result.events[event.event].pass) {
            draw_times(stands, at(pace.stops, *result.events[event.event].pass), z);
            keep(result.stand, event.event, z);
          } else {
            gate = event.event;
          }
        }
        for (std::size_t d = 0; d < block; ++d) now[d] += cell.seconds * elapsed[d];
      }
      assert(gate < events);
      draw_times(parts, pace.loops[l].recovery, recovery);
      keep(result.in_time, gate, recovery);
      if (l + 1 == loops.size()) break;
      for (std::size_t d = 0; d < block; ++d) recovery[d] += pace.loops[l].hold.count();
      keep(result.stand, gate, recovery);
      for (std::size_t d = 0; d < block; ++d) now[d] += recovery[d];
    }
  }
  return result;
}

std::vector<double> arrivals(const HorseDays& days, const std::vector<bool>& is_met) {
  assert(is_met.size() == days.events.size());
  std::vector<double> result = days.base;
  std::vector<double> stood(days.days, 0.0);  // at the passes met so far
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    double* const arrival = result.data() + e * days.days;
    for (std::size_t d = 0; d < days.days; ++d) arrival[d] += stood[d];
    if (!is_met[e] || days.events[e].kind != RideEvent::Kind::pass) continue;
    const double* const stand = days.stand.data() + e * days.days;
    for (std::size_t d = 0; d < days.days; ++d) stood[d] += stand[d];
  }
  return result;
}

Window window_of(const HorseDays& days, const std::vector<double>& arrivals, std::size_t event) {
  assert(arrivals.size() == days.base.size() && event < days.events.size() && days.days > 0);
  const auto from = arrivals.begin() + static_cast<std::ptrdiff_t>(event * days.days);
  std::vector<double> column(from, from + static_cast<std::ptrdiff_t>(days.days));
  auto sorted_to = column.begin();  // what lies before it is below what lies after it
  const auto quantile = [&](double p) {
    const double rank = p * static_cast<double>(column.size() - 1);
    const auto below = column.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(sorted_to, below, column.end());
    sorted_to = below;
    const double share = rank - std::floor(rank);
    const double next = below + 1 == column.end() ? *below : *std::min_element(below + 1, column.end());
    return days.origin + Seconds{*below + share * (next - *below)};
  };
  const Instant p10 = quantile(0.1);
  const Instant p50 = quantile(0.5);
  const Instant p90 = quantile(0.9);
  return {p10, p50, p90};
}

}  // namespace outbye
