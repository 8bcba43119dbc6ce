// Files of a country: an OpenStreetMap extract, SRTM height tiles, the course as GPX 1.1 and a ride file to plan.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "demo/country.h"

namespace outbye::demo {

enum class MapFormat { pbf, osm };

// Everything that the demo needs, in one folder, which is made if missing. The paths written, in order.
// Errors: bad_input with the path that could not be written.
Result<std::vector<std::string>> write_country(const Country& country, const std::string& folder, MapFormat format);

// One at a time. `path`: overwritten if there. A map's format is chosen by its ending, .osm.pbf or .osm.
Result<void> write_map(const Country& country, const std::string& path);
// "N54W016.hgt" and its bytes: 1201 x 1201 big-endian 16-bit metres, north row first (the SRTM convention).
std::vector<std::pair<std::string, std::string>> height_tiles(const Country& country);
std::string course_gpx(const Country& country);

}  // namespace outbye::demo
