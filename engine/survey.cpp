#include <algorithm>
#include <set>

#include "core/base/text.h"
#include "core/geo/geodesic.h"
#include "engine/use_cases.h"

namespace outbye {
namespace {

bool has_points(const Track& track) {
  return std::any_of(track.segments.begin(), track.segments.end(), [](const auto& s) { return !s.points.empty(); });
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const auto& name : names) text += (text.empty() ? "'" : ", '") + name + "'";
  return text;
}

std::string did_you_mean(std::string_view name, const std::vector<std::string>& known) {
  const std::vector<std::string_view> views(known.begin(), known.end());
  const auto nearest = nearest_name(name, views);
  if (nearest) return "; did you mean '" + std::string(*nearest) + "'?";
  return known.empty() ? "" : "; known are " + listed(known);
}

// Tracks that can be loops: <trk> where there is any, else <rte>. Empty ones are left out.
std::vector<const Track*> candidate_tracks(const std::vector<GpxDocument>& files) {
  std::vector<const Track*> tracks;
  std::vector<const Track*> routes;
  for (const auto& file : files) {
    for (const auto& track : file.tracks) {
      if (has_points(track)) (track.is_route ? routes : tracks).push_back(&track);
    }
  }
  return tracks.empty() ? routes : tracks;
}

const Track* find_track(const std::vector<GpxDocument>& files, const std::string& name) {
  for (const auto& file : files) {
    for (const auto& track : file.tracks) {
      if (track.name == name) return &track;
    }
  }
  for (const auto& file : files) {
    for (const auto& track : file.tracks) {
      if (same_name(track.name, name)) return &track;
    }
  }
  return nullptr;
}

std::string loop_name(std::string_view given, std::size_t index) {
  return given.empty() ? "Loop " + std::to_string(index + 1) : std::string(given);
}

Result<std::vector<LoopSource>> loop_sources(const RideInputs& inputs, std::vector<std::string>& assumptions) {
  const auto candidates = candidate_tracks(inputs.course_files);
  if (candidates.empty()) {
    return bad_input(inputs.course_files.empty() ? "course" : inputs.course_files.front().file,
                     "holds no track or route with points; give a GPX file with one track for each loop");
  }
  std::vector<LoopSource> sources;
  if (inputs.ride.loops.empty()) {
    for (std::size_t i = 0; i < candidates.size(); ++i) {
      sources.push_back({loop_name(candidates[i]->name, i), {*candidates[i]}, false});
    }
    assumptions.push_back(std::string("Every ") + (candidates.front()->is_route ? "route" : "track") +
                          " of the course files is one loop, ridden in the order of the files.");
    return sources;
  }
  std::size_t next = 0;
  for (std::size_t i = 0; i < inputs.ride.loops.size(); ++i) {
    const RideLoop& loop = inputs.ride.loops[i];
    LoopSource source{loop_name(loop.name, i), {}, loop.reversed};
    for (const auto& name : loop.tracks) {
      const Track* track = find_track(inputs.course_files, name);
      if (track == nullptr) {
        std::vector<std::string> known;
        for (const auto* candidate : candidates) known.push_back(candidate->name);
        return not_found("loop '" + source.name + "'",
                         "names the track '" + name + "', which no course file holds" + did_you_mean(name, known));
      }
      source.tracks.push_back(*track);
    }
    if (loop.tracks.empty()) {
      if (next == candidates.size()) {
        return not_found("loop '" + source.name + "'", "has no track left in the course files, which hold " +
                                                           std::to_string(candidates.size()) +
                                                           "; take the loop out or name its track");
      }
      source.tracks.push_back(*candidates[next++]);
    }
    sources.push_back(std::move(source));
  }
  return sources;
}

struct NamedWaypoint {
  std::string name;
  const Waypoint* waypoint;
};

// Waypoints with names made unique; a nameless one is called by its number.
std::vector<NamedWaypoint> named_waypoints(const std::vector<GpxDocument>& files, Warnings& warnings) {
  std::vector<NamedWaypoint> named;
  std::set<std::string> used;
  for (const auto& file : files) {
    for (const auto& waypoint : file.waypoints) {
      std::string name(trimmed(waypoint.name));
      if (name.empty()) name = "Point " + std::to_string(named.size() + 1);
      const bool same_place = std::any_of(named.begin(), named.end(), [&](const NamedWaypoint& other) {
        return other.name == name && other.waypoint->position == waypoint.position;
      });
      if (same_place) continue;  // the same waypoint in two files
      std::string unique = name;
      for (int n = 2; used.count(in_lower_case(unique)) != 0; ++n) unique = name + " (" + std::to_string(n) + ")";
      if (unique != name) {
        warnings.push_back(
            {"waypoint '" + name + "'", "stands more than once; the later one is called '" + unique + "'"});
      }
      used.insert(in_lower_case(unique));
      named.push_back({unique, &waypoint});
    }
  }
  return named;
}

std::optional<Position> first_point(const LoopSource& loop) {
  for (const auto& track : loop.tracks) {
    for (const auto& segment : track.segments) {
      if (!segment.points.empty()) {
        return (loop.reversed ? segment.points.back() : segment.points.front()).position;
      }
    }
  }
  return std::nullopt;
}

constexpr Metres near_venue{150.0};

struct Venue {
  Position position;
  std::string waypoint;  // the waypoint it is, or empty
};

Venue find_venue(const Ride& ride, const std::vector<NamedWaypoint>& waypoints, Position start,
                 std::vector<std::string>& assumptions) {
  for (const auto& [name, waypoint] : waypoints) {
    if (same_name(name, ride.venue)) return {ride.venue_position.value_or(waypoint->position), name};
  }
  if (ride.venue_position) return {*ride.venue_position, ""};
  const NamedWaypoint* nearest = nullptr;
  Metres best = near_venue;
  for (const auto& candidate : waypoints) {
    const Metres distance = geodesic_distance(candidate.waypoint->position, start);
    if (distance <= best) {
      best = distance;
      nearest = &candidate;
    }
  }
  if (nearest != nullptr) {
    assumptions.push_back("The venue (start, finish and vet gate) is the waypoint '" + nearest->name + "', " +
                          fixed(best.value, 0) + " m from the start of loop 1.");
    return {nearest->waypoint->position, nearest->name};
  }
  assumptions.push_back("The venue (start, finish and vet gate) is where loop 1 starts: no waypoint is called '" +
                        ride.venue + "'.");
  return {start, ""};
}

Result<std::vector<CrewPoint>> crew_points_of(const Ride& ride, const std::vector<NamedWaypoint>& waypoints,
                                              const Venue& venue, std::vector<std::string>& assumptions) {
  std::vector<CrewPoint> points;
  if (ride.crew_points.empty()) {
    for (const auto& [name, waypoint] : waypoints) {
      if (name != venue.waypoint) points.push_back({name, waypoint->position, waypoint->description});
    }
    assumptions.push_back("Every waypoint but the venue is a crew point that crews may use (" +
                          std::to_string(points.size()) + ").");
    return points;
  }
  for (const auto& wanted : ride.crew_points) {
    CrewPoint point{wanted.name, {}, wanted.note, wanted.corrections};
    const auto found = std::find_if(waypoints.begin(), waypoints.end(),
                                    [&](const NamedWaypoint& w) { return same_name(w.name, wanted.name); });
    if (wanted.position) {
      point.position = *wanted.position;
    } else if (found != waypoints.end()) {
      point.position = found->waypoint->position;
    } else {
      std::vector<std::string> known;
      for (const auto& w : waypoints) known.push_back(w.name);
      return not_found(
          "crew point '" + wanted.name + "'",
          "has no position and no course file holds a waypoint of that name" + did_you_mean(wanted.name, known));
    }
    if (point.note.empty() && found != waypoints.end()) point.note = found->waypoint->description;
    points.push_back(std::move(point));
  }
  return points;
}

void warn_of_open_loops(const Course& course, Position venue, Warnings& warnings) {
  constexpr Metres far{500.0};
  for (const auto& loop : course.loops) {
    const Metres out = geodesic_distance(loop.points.front().position, venue);
    const Metres in = geodesic_distance(loop.points.back().position, venue);
    if (out > far) {
      warnings.push_back({"loop '" + loop.name + "'", "starts " + fixed(out.value / 1000, 1) + " km from the venue"});
    }
    if (in > far) {
      warnings.push_back({"loop '" + loop.name + "'", "ends " + fixed(in.value / 1000, 1) + " km from the venue"});
    }
  }
}

}  // namespace

Result<CourseReport> survey_course(const RideInputs& inputs) {
  CourseReport report;
  auto sources = loop_sources(inputs, report.assumptions);
  if (!sources) return tl::unexpected(sources.error());
  const auto start = first_point(sources->front());
  if (!start) return bad_input("loop '" + sources->front().name + "'", "has no points");
  Warnings warnings;
  const auto waypoints = named_waypoints(inputs.course_files, warnings);
  const Venue venue = find_venue(inputs.ride, waypoints, *start, report.assumptions);
  report.venue = venue.position;
  const auto crew_points = crew_points_of(inputs.ride, waypoints, venue, report.assumptions);
  if (!crew_points) return tl::unexpected(crew_points.error());
  auto course = build_course(*sources, *crew_points, inputs.ride.course, inputs.elevation);
  if (!course) return tl::unexpected(course.error());
  report.course = std::move(*course);
  for (const auto& file : inputs.course_files) {
    warnings.insert(warnings.end(), file.warnings.begin(), file.warnings.end());
  }
  report.course.warnings.insert(report.course.warnings.begin(), warnings.begin(), warnings.end());
  warn_of_open_loops(report.course, report.venue, report.course.warnings);
  return report;
}

}  // namespace outbye
