// outbye-country: writes an invented country and ride for the demo and the benchmarks.
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/text.h"
#include "demo/country.h"
#include "demo/write_country.h"

namespace {

constexpr const char* help =
    "Usage: outbye-country [--nodes N] [--seed S] [--out DIR] [--format pbf|osm] [--help]\n"
    "\n"
    "Makes an invented rural country with an endurance ride on it: an OpenStreetMap extract, height tiles, the course\n"
    "as GPX and a ride file. The same numbers make the same bytes.\n"
    "\n"
    "  --nodes N     nodes on roads, 2000 to 2000000 (24000)\n"
    "  --seed S      a whole number that chooses the country (7)\n"
    "  --out DIR     the folder to write to, made if missing (country)\n"
    "  --format F    of the map: pbf or osm (pbf)\n";

int refuse(const std::string& where, const std::string& what) {
  std::fprintf(stderr, "outbye-country: %s: %s\nTry --help.\n", where.c_str(), what.c_str());
  return 2;
}

std::optional<std::uint64_t> whole_number(std::string_view text) {
  if (text.empty() || text.size() > 18) return std::nullopt;
  std::uint64_t value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = 10 * value + static_cast<std::uint64_t>(c - '0');
  }
  return value;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace outbye;
  demo::CountrySettings settings;
  demo::MapFormat format = demo::MapFormat::pbf;
  std::string folder = "country";
  for (int i = 1; i < argc; ++i) {
    const std::string option = argv[i];
    if (option == "--help" || option == "-h") {
      std::fputs(help, stdout);
      return 0;
    }
    if (option != "--nodes" && option != "--seed" && option != "--out" && option != "--format")
      return refuse(option, "is not an option");
    if (i + 1 == argc) return refuse(option, "wants a value");
    const std::string value = argv[++i];
    const std::optional<std::uint64_t> number = whole_number(value);
    if ((option == "--nodes" || option == "--seed") && !number)
      return refuse(option, "\"" + value + "\" is not a whole number");
    if (option == "--nodes") settings.road_nodes = static_cast<std::size_t>(*number);
    if (option == "--seed") settings.seed = Seed{*number};
    if (option == "--out") folder = value;
    if (option == "--format") {
      if (value != "pbf" && value != "osm") return refuse(option, "\"" + value + "\" is neither pbf nor osm");
      format = value == "pbf" ? demo::MapFormat::pbf : demo::MapFormat::osm;
    }
  }
  const Result<demo::Country> country = demo::make_country(settings);
  if (!country) return refuse(country.error().where, country.error().what);
  const Result<std::vector<std::string>> written = demo::write_country(*country, folder, format);
  if (!written) return refuse(written.error().where, written.error().what);

  double length = 0;
  for (const demo::CountryLoop& loop : country->loops) length += loop.length;
  std::printf("%s: %zu road nodes, %zu places, %.1f km in %zu loops, %zu crew points\n", country->ride_name.c_str(),
              country->road_nodes, country->places.size(), length / 1000.0, country->loops.size(),
              country->crew_points.size());
  for (const std::string& path : *written) std::printf("  %s\n", path.c_str());
  return 0;
}
