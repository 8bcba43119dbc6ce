// A first guess of time zone and country from where the course is.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

struct ZoneGuess {
  std::string zone;     // "Europe/London"
  std::string country;  // "GB"; of the zone's main city, so wrong near a border
  Metres distance{};    // from the course to that city
};

// The nearest main city of the time-zone table (zone.tab of the tz database, public domain) in `table`, the text of
// that file; nothing when it holds no city. Great-circle distances are fine for ranking.
// With a `country`, only its cities count, and the zone of most of it wins.
std::optional<ZoneGuess> nearest_zone(Position place, std::string_view table, std::string_view country = {});

// The same with the table of this machine; nothing when it has none.
std::optional<ZoneGuess> nearest_zone_here(Position place, std::string_view country = {});

// The country of a zone in the table of this machine; nothing when unknown (offsets, UTC).
std::optional<std::string> country_of_zone(std::string_view zone);

// Of the table of this machine, each once and in order; empty when it has none.
struct KnownZones {
  std::vector<std::string> zones;
  std::vector<std::string> countries;
};
KnownZones known_zones();

}  // namespace outbye
