#include <fcntl.h>
#include <unistd.h>

#include <algorithm>

#include "formats/map_tiles/cut.h"
#include "formats/map_tiles/cut_tiles.h"
#include "formats/map_tiles/map_tiles.h"
#include "formats/map_tiles/mbtiles.h"
#include "formats/map_tiles/read_map.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

// What a zoom takes of the time of cutting, as measured: each has about twice the tiles of the one before.
double share_before(int z) {
  const auto weight = [](int zoom) { return static_cast<double>((1 << (zoom - map_min_zoom + 1)) - 1); };
  return weight(z - 1) / weight(map_max_zoom);
}

BoundingBox bounds_of(const MapFeatures& map) {
  const WorldBox box = box_of(map.points);
  const Position north_west = position_of(WorldPoint{box.west, box.north});
  const Position south_east = position_of(WorldPoint{box.east, box.south});
  return {south_east.latitude, north_west.longitude, north_west.latitude, south_east.longitude};
}

bool is_on_disk(const fs::path& file) {
  const int handle = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
  if (handle < 0) return false;
  const bool is_done = ::fsync(handle) == 0;
  ::close(handle);
  return is_done;
}

Result<void> write_map(const MapFeatures& map, const fs::path& file, const std::function<bool(int, double)>& go_on) {
  auto writer = MbtilesWriter::create(file);
  if (!writer) return tl::make_unexpected(writer.error());
  for (int z = map_min_zoom; z <= map_max_zoom; ++z) {
    auto cut = cut_tiles(
        map, z, [&](double share) { return go_on(z, share); },
        [&](TileId tile, const std::string& bytes) { return writer->add(tile, bytes); });
    if (!cut) return cut;
  }
  MapFacts facts;
  facts.bounds = bounds_of(map);
  facts.attribution = "© OpenStreetMap contributors";  // as the licence asks (ODbL 1.0, 4.3)
  return writer->finish(facts);
}

}  // namespace

Result<void> make_map(const std::vector<fs::path>& extracts, const fs::path& out_file, const MapProgress& progress) {
  const auto go_on = [&](const std::string& step, double share) {
    if (progress.tell) progress.tell(step, share);
    return !(progress.is_cancelled && progress.is_cancelled());
  };
  constexpr double reading = 0.4;  // of the time, as measured
  const auto map = read_map(extracts, [&](double share) { return go_on("reading the map", reading * share); });
  if (!map) return tl::make_unexpected(map.error());
  const fs::path part = out_file.string() + ".part";
  std::error_code error;
  fs::remove(part, error);
  auto written = write_map(*map, part, [&](int z, double share) {
    const double done = share_before(z) + share * (share_before(z + 1) - share_before(z));
    return go_on("drawing zoom " + std::to_string(z), reading + (1 - reading) * done);
  });
  if (written && !is_on_disk(part)) {
    written = problem(Problem::Kind::cancelled, out_file.string(), "cannot be written; is the disk full?");
  }
  if (written) {
    fs::rename(part, out_file, error);
    if (error) {
      written = problem(Problem::Kind::cancelled, out_file.string(), "cannot be put in its place: " + error.message());
    }
  }
  if (!written) fs::remove(part, error);
  if (written && progress.tell) progress.tell("done", 1.0);
  return written;
}

}  // namespace outbye
