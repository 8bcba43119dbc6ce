// What a GPX file holds, as plain values: tracks or routes, their segments, and waypoints. Nothing is judged yet.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

struct TrackPoint {
  Position position;
  std::optional<Metres> elevation;  // above sea level, as in the file; missing is not 0 m
  std::optional<Instant> time;
  std::uint32_t number{};  // 1-based within its track, counted through all its segments: "track point 214"
};

struct TrackSegment {
  std::vector<TrackPoint> points;
};

struct Track {
  std::string name;  // may be empty
  std::string file;  // where it came from, for messages
  bool is_route{};   // <rte> rather than <trk>
  std::vector<TrackSegment> segments;
};

struct Waypoint {
  std::string name;
  std::string description;
  std::string symbol;
  Position position;
  std::optional<Metres> elevation;
};

struct GpxDocument {
  std::string file;
  std::string name;
  std::vector<Track> tracks;
  std::vector<Waypoint> waypoints;
  Warnings warnings;  // odd but usable: an unreadable time, points dropped and why
};

}  // namespace outbye
