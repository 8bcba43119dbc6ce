// The map under the plan: what OpenStreetMap extracts show, cut into vector tiles once and served one by one.
//
// The file is an MBTiles 1.3 set (SQLite): tiles are Mapbox vector tiles 2.1, gzip-compressed, in the usual Web
// Mercator pyramid, zoom 8 to 14; closer in, the page enlarges those of 14. What the layers hold: README.md.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/geo/bounding_box.h"

namespace outbye {

inline constexpr int map_min_zoom = 8;
inline constexpr int map_max_zoom = 14;

struct MapProgress {
  std::function<void(const std::string& step, double share)> tell;  // share of the whole, 0..1, rising; may be empty
  std::function<bool()> is_cancelled;                               // asked some times a second; may be empty
};

// Makes the map of the extracts, joined into one, at `out_file`: whole or not at all, in the place of what was there.
// Nothing else is left behind, but for what a killed process leaves at `out_file` + ".part", which the next run takes
// away.
// Errors: not_found (no such extract), bad_input (not a map, damaged, or nothing in it to draw), cancelled (asked to
// stop, or the disk refuses).
Result<void> make_map(const std::vector<std::filesystem::path>& extracts, const std::filesystem::path& out_file,
                      const MapProgress& progress = {});

struct MapFacts {
  BoundingBox bounds;  // of what is drawn
  int min_zoom{map_min_zoom};
  int max_zoom{map_max_zoom};
  std::string attribution;  // to be shown with the map, as text
};

// An open map. May be asked from several threads at once.
class MapSource {
 public:
  struct Store;
  explicit MapSource(std::unique_ptr<Store> store);
  MapSource(MapSource&&) noexcept;
  MapSource& operator=(MapSource&&) noexcept;
  ~MapSource();

  const MapFacts& facts() const;
  Store& store() const { return *store_; }

 private:
  std::unique_ptr<Store> store_;
};

// Errors: not_found (no such file), bad_input (no map of ours, damaged, or of another version: make it again).
Result<MapSource> open_map(const std::filesystem::path& file);

// The bytes of a vector tile, not compressed; nothing where nothing is drawn, or outside the zooms and the pyramid. x
// counts from the antimeridian eastward, y from the north southward. Errors: bad_input (damaged).
Result<std::optional<std::string>> map_tile(const MapSource& map, int z, std::int64_t x, std::int64_t y);

}  // namespace outbye
