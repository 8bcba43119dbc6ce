#include "core/course/line_repair.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

#include "core/course/words.h"

namespace outbye {
namespace {

constexpr Metres same_place{0.1};  // GPX coordinates of 7 decimals are known to about 1 cm

// Straight, which is 1 mm short at 3 km and good enough to tell a repair by.
Metres distance(const LinePoint& a, const LinePoint& b) {
  const EarthVector gap = b.vector - a.vector;
  return {std::sqrt(dot(gap, gap))};
}

struct Piece {
  std::vector<LinePoint> points;
  bool is_timed{};  // recorded in this direction, beyond doubt
};

std::vector<Piece> pieces_of(const LoopSource& loop) {
  std::vector<Piece> pieces;
  for (std::size_t t = 0; t < loop.tracks.size(); ++t) {
    for (const TrackSegment& segment : loop.tracks[t].segments) {
      if (segment.points.empty()) continue;
      Piece piece;
      for (const TrackPoint& p : segment.points) {
        piece.points.push_back({p.position, earth_vector(p.position), p.elevation, p.time,
                                static_cast<std::uint32_t>(t), p.number, static_cast<std::uint32_t>(pieces.size())});
      }
      const auto& first = piece.points.front().time;
      const auto& last = piece.points.back().time;
      piece.is_timed = first && last && *first < *last;
      pieces.push_back(std::move(piece));
    }
  }
  return pieces;
}

// Which pieces to turn round so that the gaps between them add up to least. Turning one costs as much as a gap of
// `settings.warn_gap`, so that nothing is turned for the sake of a few metres. Two states a piece (Viterbi).
std::vector<bool> pieces_to_turn(const std::vector<Piece>& pieces, const CourseSettings& settings) {
  const std::size_t n = pieces.size();
  struct State {
    double cost{};
    bool before{};  // the previous piece's state on the best way here
  };
  std::vector<std::array<State, 2>> best(n);
  const auto enters = [&](std::size_t i, bool turned) {
    return turned ? pieces[i].points.back() : pieces[i].points.front();
  };
  const auto leaves = [&](std::size_t i, bool turned) { return enters(i, !turned); };
  const auto price = [&](std::size_t i, bool turned) {
    if (!turned) return 0.0;
    return pieces[i].is_timed ? 1e12 : settings.warn_gap.value;
  };
  for (std::size_t i = 0; i < n; ++i) {
    for (const bool turned : {false, true}) {
      State& state = best[i][turned ? 1 : 0];
      if (i == 0) {
        state.cost = price(i, turned);
        continue;
      }
      for (const bool before : {false, true}) {
        const double cost = best[i - 1][before ? 1 : 0].cost + price(i, turned) +
                            distance(leaves(i - 1, before), enters(i, turned)).value;
        if (!before || cost < state.cost) state = {cost, before};
      }
    }
  }
  std::vector<bool> turn(n);
  bool state = n > 0 && best[n - 1][1].cost < best[n - 1][0].cost;
  for (std::size_t i = n; i-- > 0;) {
    turn[i] = state;
    state = best[i][state ? 1 : 0].before;
  }
  return turn;
}

std::vector<LinePoint> joined(const LoopSource& loop, const CourseSettings& settings, Warnings& warnings) {
  std::vector<Piece> pieces = pieces_of(loop);
  const std::vector<bool> turn = pieces_to_turn(pieces, settings);
  std::vector<LinePoint> line;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (turn[i]) {
      warnings.push_back({point_name(loop, pieces[i].points.front()),
                          "begins a segment of " + std::to_string(pieces[i].points.size()) +
                              " points that runs against the rest; it was turned round"});
      std::reverse(pieces[i].points.begin(), pieces[i].points.end());
    }
    line.insert(line.end(), pieces[i].points.begin(), pieces[i].points.end());
  }
  if (loop.reversed) std::reverse(line.begin(), line.end());
  return line;
}

void drop_repeats(std::vector<LinePoint>& line, const LoopSource& loop, Warnings& warnings) {
  std::vector<LinePoint> kept;
  std::size_t dropped = 0;
  const LinePoint* first = nullptr;
  for (const LinePoint& point : line) {
    if (!kept.empty() && distance(kept.back(), point) < same_place) {
      if (!kept.back().elevation) kept.back().elevation = point.elevation;
      // Segments that share the point where they meet are no fault.
      if (kept.back().piece == point.piece && dropped++ == 0) first = &point;
      continue;
    }
    kept.push_back(point);
  }
  if (dropped > 0) {
    std::string what = "repeats the position before it; left out";
    if (dropped > 1) what += " (with " + std::to_string(dropped - 1) + " more like it in this loop)";
    warnings.push_back({point_name(loop, *first), std::move(what)});
  }
  line = std::move(kept);
}

Metres step(const std::vector<LinePoint>& line, std::size_t i) { return distance(line[i], line[i + 1]); }

// The lower quartile, which strays of their own do not lengthen.
Metres usual_step(const std::vector<LinePoint>& line) {
  if (line.size() < 2) return Metres{0};
  std::vector<Metres> steps;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) steps.push_back(step(line, i));
  const auto quarter = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 4);
  std::nth_element(steps.begin(), quarter, steps.end());
  return *quarter;
}

// Faster than any horse or the car that carries the recorder: 90 km/h.
bool is_too_fast(const LinePoint& a, const LinePoint& b, Metres way) {
  if (!a.time || !b.time) return false;
  const Seconds took = *b.time - *a.time;
  return way.value > 25.0 * std::abs(took.count());
}

// A stray run: up to three points that the line jumps away to and comes back from, to near where it left. Without times
// a sparse out-and-back looks the same, so the jump must also be long against the usual step; with times its speed
// tells.
class Strays {
 public:
  Strays(const LoopSource& loop, std::vector<LinePoint>& line, const CourseSettings& settings, Warnings& warnings)
      : loop_(loop), line_(line), settings_(settings), warnings_(warnings), usual_(usual_step(line)) {}

  void drop() {
    drop_end(false);
    drop_end(true);
    std::vector<LinePoint> kept;
    for (std::size_t i = 0; i < line_.size();) {
      const std::size_t run = kept.empty() ? 0 : stray_run(kept.back(), i);
      if (run == 0) {
        kept.push_back(line_[i++]);
        continue;
      }
      const Metres away = distance(kept.back(), line_[i]);
      say(line_[i], run, "lies " + in_words(away) + " off the line");
      i += run;
    }
    line_ = std::move(kept);
  }

 private:
  static constexpr std::size_t longest_run = 3;

  std::size_t stray_run(const LinePoint& before, std::size_t i) const {
    const Metres out = distance(before, line_[i]);
    if (out < Metres{50}) return 0;
    for (std::size_t run = 1; run <= longest_run && i + run < line_.size(); ++run) {
      const LinePoint& last = line_[i + run - 1];
      const LinePoint& after = line_[i + run];
      const Metres back = distance(last, after);
      const Metres least = std::min(out, back);
      if (distance(before, after) > 0.2 * least) continue;
      const bool is_long = least > std::max(Metres{300}, 10 * usual_);
      const bool is_fast = least > 5 * usual_ && is_too_fast(before, line_[i], out) && is_too_fast(last, after, back);
      const bool has_times = before.time && line_[i].time && last.time && after.time;
      if (is_fast || (is_long && !has_times) || (is_long && least > settings_.refuse_gap)) return run;
    }
    return 0;
  }

  // A single point at either end, a refused gap away from a line of short steps: a receiver without a fix yet.
  void drop_end(bool at_back) {
    if (line_.size() < 4) return;
    const std::size_t i = at_back ? line_.size() - 2 : 0;
    const std::size_t other = at_back ? 0 : line_.size() - 2;
    const Metres gap = step(line_, i);
    if (gap <= settings_.refuse_gap || gap <= 20 * usual_) return;
    // A point that closes the loop is where it should be: what is missing is the way to it.
    const bool closes =
        distance(line_.front(), line_.back()) < Metres{500} && step(line_, other) <= settings_.refuse_gap;
    if (closes) return;
    const LinePoint& end = at_back ? line_.back() : line_.front();
    say(end, 1, "lies " + in_words(gap) + (at_back ? " after the rest of the line" : " before the rest of the line"));
    line_.erase(at_back ? line_.end() - 1 : line_.begin());
  }

  void say(const LinePoint& point, std::size_t run, std::string what) {
    what += run > 1 ? "; it and the " + std::to_string(run - 1) + " after it are left out" : "; left out";
    warnings_.push_back({point_name(loop_, point), std::move(what)});
  }

  const LoopSource& loop_;
  std::vector<LinePoint>& line_;
  const CourseSettings& settings_;
  Warnings& warnings_;
  Metres usual_;
};

std::optional<Problem> check_gaps(const std::vector<LinePoint>& line, const LoopSource& loop,
                                  const CourseSettings& settings, Warnings& warnings) {
  const LinePoint* first = nullptr;
  Metres longest{};
  std::size_t gaps = 0;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Metres gap = step(line, i);
    if (gap > settings.refuse_gap) {
      return Problem{Problem::Kind::bad_input, point_name(loop, line[i + 1]),
                     "is " + in_words(gap) + " from the point before it (number " + std::to_string(line[i].number) +
                         "): draw the missing piece, check the order of the tracks, or allow longer gaps (over " +
                         in_words(settings.refuse_gap) + " is refused)"};
    }
    if (gap <= settings.warn_gap) continue;
    if (gaps++ == 0) first = &line[i + 1];
    longest = std::max(longest, gap);
  }
  if (gaps == 1) {
    warnings.push_back({point_name(loop, *first),
                        "is " + in_words(longest) + " from the point before it; bridged by a straight line"});
  } else if (gaps > 1) {
    warnings.push_back({point_name(loop, *first), "and " + std::to_string(gaps - 1) + " more are up to " +
                                                      in_words(longest) +
                                                      " from the point before; bridged by straight lines"});
  }
  return std::nullopt;
}

}  // namespace

std::string loop_name(const std::string& name) { return name.empty() ? "unnamed loop" : "loop '" + name + "'"; }

std::string point_name(const LoopSource& loop, const LinePoint& point) {
  const Track& track = loop.tracks[point.track];
  std::string name = loop_name(loop.name) + ", " + (track.is_route ? "route" : "track");
  if (loop.tracks.size() > 1) name += " '" + track.name + "'";
  name += " point " + std::to_string(point.number);
  if (!track.file.empty()) name += " of " + track.file;
  return name;
}

Result<std::vector<LinePoint>> repaired_line(const LoopSource& loop, const CourseSettings& settings,
                                             Warnings& warnings) {
  std::vector<LinePoint> line = joined(loop, settings, warnings);
  drop_repeats(line, loop, warnings);
  Strays(loop, line, settings, warnings).drop();
  drop_repeats(line, loop, warnings);  // a line that came back to the very point where a stray left it
  if (line.size() < 2) {
    return bad_input(loop_name(loop.name), line.empty() ? "has no points: choose another track"
                                                        : "never moves: all its points are in one place");
  }
  if (auto trouble = check_gaps(line, loop, settings, warnings)) return tl::make_unexpected(std::move(*trouble));
  return line;
}

}  // namespace outbye
