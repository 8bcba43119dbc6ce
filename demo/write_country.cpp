#include "demo/write_country.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "core/base/text.h"
#include "demo/demo_ride.h"
#include "formats/ride_file/ride_file.h"

namespace outbye::demo {
namespace {

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else
      out += c;
  }
  return out;
}

std::string at_attributes(Position p) {
  return "lat=\"" + fixed(p.latitude, 7) + "\" lon=\"" + fixed(p.longitude, 7) + "\"";
}

std::string waypoint(const Country& country, Position p, const std::string& name, const std::string& note,
                     const char* symbol) {
  return "  <wpt " + at_attributes(p) + ">\n    <ele>" + fixed(country.terrain.height(p).value, 1) +
         "</ele>\n    <name>" + escaped(name) + "</name>\n    <desc>" + escaped(note) + "</desc>\n    <sym>" + symbol +
         "</sym>\n  </wpt>\n";
}

std::string tile_name(int south, int west) {
  char name[32];
  std::snprintf(name, sizeof name, "%c%02d%c%03d.hgt", south < 0 ? 'S' : 'N', std::abs(south), west < 0 ? 'W' : 'E',
                std::abs(west));
  return name;
}

Result<void> write_file(const std::string& path, const std::string& bytes) {
  std::ofstream out(path, std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out) return bad_input(path, "cannot be written");
  return {};
}

}  // namespace

std::string course_gpx(const Country& country) {
  std::string gpx =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<gpx version=\"1.1\" creator=\"outbye-country\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n"
      "  <metadata>\n    <name>" +
      escaped(country.ride_name) +
      "</name>\n    <desc>An invented ride in an invented country.</desc>\n  </metadata>\n";
  gpx +=
      waypoint(country, country.nodes[country.venue], country.venue_name, "Start, vet gate and finish.", "Flag, Green");
  for (const CountryCrewPoint& point : country.crew_points)
    gpx += waypoint(country, point.position, point.name, point.note, "Parking Area");
  for (const CountryLoop& loop : country.loops) {
    gpx += "  <trk>\n    <name>" + escaped(loop.name) + "</name>\n    <trkseg>\n";
    for (const std::uint32_t node : loop.nodes) {
      const Position p = country.nodes[node];
      gpx += "      <trkpt " + at_attributes(p) + "><ele>" + fixed(country.terrain.height(p).value, 1) +
             "</ele></trkpt>\n";
    }
    gpx += "    </trkseg>\n  </trk>\n";
  }
  return gpx + "</gpx>\n";
}

std::vector<std::pair<std::string, std::string>> height_tiles(const Country& country) {
  const double half = 0.52 * country.terrain.side();
  const Position south_west = position_of({-half, -half});
  const Position north_east = position_of({half, half});
  const auto degree = [](double v) { return static_cast<int>(std::floor(v)); };
  std::vector<std::pair<std::string, std::string>> tiles;
  for (int south = degree(south_west.latitude); south <= degree(north_east.latitude); ++south)
    for (int west = degree(south_west.longitude); west <= degree(north_east.longitude); ++west) {
      std::string bytes;
      for (const std::int16_t height : country.terrain.tile(south, west)) {
        const auto bits = static_cast<std::uint16_t>(height);
        bytes += static_cast<char>(bits >> 8);
        bytes += static_cast<char>(bits & 0xFF);
      }
      tiles.emplace_back(tile_name(south, west), std::move(bytes));
    }
  return tiles;
}

Result<std::vector<std::string>> write_country(const Country& country, const std::string& folder, MapFormat format) {
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (failed) return bad_input(folder, "cannot be made: " + failed.message());
  std::vector<std::string> paths;
  const auto path_of = [&](const std::string& name) { return (std::filesystem::path(folder) / name).string(); };

  CountryFiles files;
  files.roads = format == MapFormat::pbf ? "roads.osm.pbf" : "roads.osm";
  paths.push_back(path_of(files.roads));
  if (auto done = write_map(country, paths.back()); !done) return tl::make_unexpected(done.error());
  for (const auto& [name, bytes] : height_tiles(country)) {
    files.heights.push_back(name);
    paths.push_back(path_of(name));
    if (auto done = write_file(paths.back(), bytes); !done) return tl::make_unexpected(done.error());
  }
  paths.push_back(path_of("course.gpx"));
  if (auto done = write_file(paths.back(), course_gpx(country)); !done) return tl::make_unexpected(done.error());
  const Ride ride = demo_ride(country, files);
  paths.push_back(path_of(files.weather));
  if (auto done = write_file(paths.back(), demo_weather()); !done) return tl::make_unexpected(done.error());
  paths.push_back(path_of("gates.json"));
  if (auto done = write_file(paths.back(), demo_gate_log(ride, country)); !done)
    return tl::make_unexpected(done.error());
  paths.push_back(path_of("ride.json"));
  if (auto done = write_file(paths.back(), write_ride_file(ride)); !done) return tl::make_unexpected(done.error());
  return paths;
}

}  // namespace outbye::demo
