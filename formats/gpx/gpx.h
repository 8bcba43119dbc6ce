// GPX 1.0 and 1.1 in, GPX 1.1 out. Positions are WGS84 degrees, heights metres, times UTC.
// The format: the GPX 1.1 schema documentation, topografix.com/GPX/1/1.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/course/track.h"
#include "core/geo/position.h"

namespace outbye {

// Reads the bytes of a GPX file: UTF-8 (with or without a mark), UTF-16, UTF-32, ISO-8859-1; any namespace prefix;
// extensions are skipped; entities of a DTD are never expanded. `file` is for messages only.
// Tracks and routes come in the order of the file. Missing heights and times stay missing.
//
// Refused (bad_input, with file, line and point number): not XML or not well formed; no <gpx> element; a coordinate
// that is missing or no number (a decimal comma has a message of its own); a track of which no point is on Earth.
// Kept with a warning: points out of range (dropped), unreadable heights and times (dropped, the point stays), times
// without a zone (taken as UTC), tracks and routes without points (left out), text that is not UTF-8.
Result<GpxDocument> read_gpx(std::string_view bytes, std::string file);

struct OutWaypoint {
  std::string name;
  std::string comment;      // <cmt>: shown by many devices
  std::string description;  // <desc>
  std::string symbol;       // <sym>: "Parking Area", "Flag, Blue", ...
  std::string type;         // <type>: "meet", "refill", ...
  Position position;
  std::optional<Metres> elevation;
  std::optional<Instant> time;
};

struct OutRoute {
  std::string name;
  std::string description;
  std::vector<OutWaypoint> points;
};

struct OutTrackPoint {
  Position position;
  std::optional<Metres> elevation;
  std::optional<Instant> time;
};

struct OutTrack {
  std::string name;
  std::string description;
  std::vector<std::vector<OutTrackPoint>> segments;
};

struct GpxOutput {
  std::string name;
  std::string description;
  std::optional<Instant> time;  // of the file; nothing: not written, so that equal plans give equal bytes
  std::vector<OutWaypoint> waypoints;
  std::vector<OutRoute> routes;
  std::vector<OutTrack> tracks;
};

// Valid GPX 1.1 in UTF-8 for any input: text is escaped, bytes that are not UTF-8 become U+FFFD and characters that
// XML forbids are left out. Coordinates have 7 decimals (about 1 cm), heights 1, times whole seconds in UTC.
// The same value gives the same bytes. Positions must be finite and in range.
std::string write_gpx(const GpxOutput& output);

}  // namespace outbye
