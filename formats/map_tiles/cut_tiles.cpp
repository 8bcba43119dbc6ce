#include "formats/map_tiles/cut_tiles.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "formats/map_tiles/cut.h"
#include "formats/map_tiles/map_tiles.h"
#include "formats/map_tiles/tile_writer.h"

namespace outbye {
namespace {

constexpr std::int32_t pixel = tile_extent / 512;  // in a tile's own units
constexpr std::int32_t buffer = 8 * pixel;

struct Piece {
  std::vector<WorldPoint> points;
  bool is_hole{};
};

// Tiles from west to east and north to south, ends included.
struct TileRange {
  std::int64_t west{}, north{}, east{}, south{};
};

class Cutter {
 public:
  Cutter(const MapFeatures& map, int z) : map_(map), z_(z), side_(tile_side(z)), unit_(tile_unit(z)) {}

  void add(const MapFeature& feature) {
    feature_ = &feature;
    if (feature.shape == MapShape::point) return add_points();
    const double world_pixel = static_cast<double>(pixel * unit_);
    const double tolerance = world_pixel / (z_ == map_max_zoom ? 8 : 2);
    // Two pixels square: less is a speck. Close in nothing is left out.
    const double least = z_ == map_max_zoom ? 0.0 : 4 * world_pixel * world_pixel;
    std::vector<Piece> pieces;
    bool is_left_out = false;
    for (const MapPart& part : map_.parts_of(feature)) {
      const auto points = map_.points_of(part);
      if (feature.shape == MapShape::area) {
        const bool is_speck = std::fabs(twice_area(points)) / 2 < least;
        if (!part.is_hole) is_left_out = is_speck;  // and its holes with it
        if (is_speck || is_left_out) continue;
      }
      pieces.push_back({simplified(points, tolerance), part.is_hole});
    }
    if (!pieces.empty()) add(pieces, range_of(pieces));
  }

  std::map<std::pair<std::int64_t, std::int64_t>, TileDraft> drafts;  // by y, x

 private:
  std::int64_t last_tile() const { return (std::int64_t{1} << z_) - 1; }

  TileRange range_of(const std::vector<Piece>& pieces) const {
    WorldBox box = box_of(pieces.front().points);
    for (const Piece& piece : pieces) {
      const WorldBox more = box_of(piece.points);
      box = {std::min(box.west, more.west), std::min(box.north, more.north), std::max(box.east, more.east),
             std::max(box.south, more.south)};
    }
    const std::int64_t margin = std::int64_t{buffer} * unit_;
    const auto tile = [&](std::int64_t at) {
      return std::clamp(at >> (world_bits - z_), std::int64_t{0}, last_tile());
    };
    return {tile(box.west - margin), tile(box.north - margin), tile(box.east + margin), tile(box.south + margin)};
  }

  // Halves the range until one tile is left, cutting on the way: a long shape is not gone through for every tile.
  void add(const std::vector<Piece>& pieces, const TileRange& range) {
    const std::int64_t margin = std::int64_t{buffer} * unit_;
    const auto world = [](std::int64_t v) {
      return static_cast<std::int32_t>(std::clamp<std::int64_t>(v, -world_size, std::int64_t{2} * world_size - 1));
    };
    const WorldBox box{world(range.west * side_ - margin), world(range.north * side_ - margin),
                       world((range.east + 1) * side_ + margin), world((range.south + 1) * side_ + margin)};
    std::vector<Piece> inside;
    for (const Piece& piece : pieces) {
      if (feature_->shape == MapShape::line) {
        for (auto& line : line_within(piece.points, box)) inside.push_back({std::move(line), false});
      } else if (auto ring = ring_within(piece.points, box); !ring.empty()) {
        inside.push_back({std::move(ring), piece.is_hole});
      }
    }
    if (inside.empty()) return;
    if (range.west == range.east && range.north == range.south) return draw(inside, range.west, range.north);
    TileRange first = range, second = range;
    if (range.east - range.west >= range.south - range.north) {
      first.east = (range.west + range.east) / 2;
      second.west = first.east + 1;
    } else {
      first.south = (range.north + range.south) / 2;
      second.north = first.south + 1;
    }
    add(inside, first);
    add(inside, second);
  }

  // On the tile's grid; neighbours that fall together become one.
  std::vector<TilePoint> on_grid(const std::vector<WorldPoint>& points, std::int64_t x, std::int64_t y) const {
    std::vector<TilePoint> result;
    result.reserve(points.size());
    for (const WorldPoint p : points) {
      const TilePoint at{rounded(p.x - x * side_), rounded(p.y - y * side_)};
      if (result.empty() || !(result.back() == at)) result.push_back(at);
    }
    return result;
  }
  // Halves upwards, for all tiles alike: a point has the same place in each.
  std::int32_t rounded(std::int64_t world) const {
    return static_cast<std::int32_t>(world + unit_ / 2 >= 0 ? (world + unit_ / 2) / unit_
                                                            : -((-(world + unit_ / 2) + unit_ - 1) / unit_));
  }

  void draw(const std::vector<Piece>& pieces, std::int64_t x, std::int64_t y) {
    bool has_outer = false;  // a hole without its ring would be painted
    for (const Piece& piece : pieces) {
      std::vector<TilePoint> points = on_grid(piece.points, x, y);
      if (feature_->shape == MapShape::line) {
        if (points.size() > 1) draft(x, y).add_line(points);
        continue;
      }
      if (points.size() > 1 && points.front() == points.back()) points.pop_back();
      std::int64_t area = 0;
      for (std::size_t i = 0; i < points.size(); ++i) {
        const TilePoint a = points[i], b = points[(i + 1) % points.size()];
        area += std::int64_t{a.x} * b.y - std::int64_t{b.x} * a.y;
      }
      const bool is_flat = points.size() < 3 || area == 0;
      if (!piece.is_hole) has_outer = !is_flat;
      if (is_flat || !has_outer) continue;
      if ((area > 0) == piece.is_hole) std::reverse(points.begin(), points.end());
      draft(x, y).add_ring(points);
    }
  }

  void add_points() {
    for (const MapPart& part : map_.parts_of(*feature_)) {
      const WorldPoint at = map_.points_of(part).front();
      const TileId tile = tile_at(at, z_);
      const auto within = [&](std::int64_t world) {
        return static_cast<std::int32_t>(std::min<std::int64_t>(world / unit_, tile_extent - 1));
      };
      draft(tile.x, tile.y).add_point({within(at.x - tile.x * side_), within(at.y - tile.y * side_)});
    }
  }

  TileGeometry& draft(std::int64_t x, std::int64_t y) {
    return drafts[{y, x}].geometry(feature_->layer, feature_->shape, feature_->attributes);
  }

  const MapFeatures& map_;
  int z_;
  std::int64_t side_, unit_;
  const MapFeature* feature_{};
};

}  // namespace

Result<void> cut_tiles(const MapFeatures& map, int z, const std::function<bool(double share)>& go_on,
                       const std::function<Result<void>(TileId tile, std::string bytes)>& take) {
  const auto stopped = [] { return problem(Problem::Kind::cancelled, "map", "was stopped before it was done"); };
  constexpr std::size_t batch = 2000;
  Cutter cutter(map, z);
  for (std::size_t i = 0; i < map.features.size(); ++i) {
    if (map.features[i].min_zoom <= z) cutter.add(map.features[i]);
    const double share = static_cast<double>(i) / static_cast<double>(map.features.size());
    if (i % batch == 0 && !go_on(0.5 * share)) return stopped();
  }
  std::size_t done = 0;
  for (const auto& [at, draft] : cutter.drafts) {
    auto taken = take({z, at.second, at.first}, draft.written(map.attributes));
    if (!taken) return taken;
    const double share = static_cast<double>(++done) / static_cast<double>(cutter.drafts.size());
    if (done % 16 == 0 && !go_on(0.5 + 0.5 * share)) return stopped();
  }
  return {};
}

}  // namespace outbye
