#include "formats/elevation/hgt.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <memory>
#include <utility>

namespace outbye {
namespace {

std::optional<int> number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
    value = 10 * value + (c - '0');
  }
  return value;
}

char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

struct Corner {
  int south{}, west{};
};
// N49E011 at the start of the file's name.
std::optional<Corner> corner_named(std::string_view file) {
  const std::size_t slash = file.find_last_of("/\\");
  const std::string_view name = slash == std::string_view::npos ? file : file.substr(slash + 1);
  if (name.size() < 7) return std::nullopt;
  const char north_south = upper(name[0]), east_west = upper(name[3]);
  const auto latitude = number(name.substr(1, 2)), longitude = number(name.substr(4, 3));
  if ((north_south != 'N' && north_south != 'S') || (east_west != 'E' && east_west != 'W')) return std::nullopt;
  if (!latitude || !longitude) return std::nullopt;
  const Corner corner{north_south == 'N' ? *latitude : -*latitude, east_west == 'E' ? *longitude : -*longitude};
  if (corner.south < -90 || corner.south > 89 || corner.west < -180 || corner.west > 179) return std::nullopt;
  return corner;
}

std::size_t samples_of(std::size_t bytes) {
  for (const std::size_t side : {std::size_t{1201}, std::size_t{3601}}) {
    if (bytes == 2 * side * side) return side;
  }
  return 0;
}

// A height that the ground may have; -32768 and other fillers are none.
std::optional<double> sample(const ElevationTile& tile, std::size_t row, std::size_t column) {
  const std::int16_t height = tile.heights[row * tile.samples + column];
  if (height < -500 || height > 9000) return std::nullopt;
  return height;
}

std::optional<Metres> height_in(const ElevationTile& tile, double latitude, double longitude) {
  const auto last = static_cast<double>(tile.samples - 1);
  const double down = std::clamp((tile.south + 1 - latitude) * last, 0.0, last);
  const double right = std::clamp((longitude - tile.west) * last, 0.0, last);
  const auto row = std::min(static_cast<std::size_t>(down), tile.samples - 2);
  const auto column = std::min(static_cast<std::size_t>(right), tile.samples - 2);
  const double v = down - static_cast<double>(row), u = right - static_cast<double>(column);
  const std::array<double, 4> weights{(1 - v) * (1 - u), (1 - v) * u, v * (1 - u), v * u};
  double sum = 0, weight = 0;
  for (std::size_t k = 0; k < 4; ++k) {
    if (weights[k] < 1e-10) continue;  // on a row or column but for rounding
    const auto height = sample(tile, row + k / 2, column + k % 2);
    if (!height) return std::nullopt;
    sum += weights[k] * *height;
    weight += weights[k];
  }
  return Metres{sum / weight};
}

int wrapped(int longitude) {
  return longitude >= 180 ? longitude - 360 : (longitude < -180 ? longitude + 360 : longitude);
}

}  // namespace

Result<ElevationTile> read_hgt(std::string_view bytes, std::string file) {
  const std::optional<Corner> corner = corner_named(file);
  if (!corner) {
    return bad_input(
        std::move(file),
        "does not say where it lies: an SRTM tile is named after its south-west corner, as in N49E011.hgt");
  }
  if (bytes.substr(0, 2) == "PK" || bytes.substr(0, 2) == "\x1f\x8b") {
    return bad_input(std::move(file), "is compressed; unpack it and use the .hgt file inside");
  }
  ElevationTile tile{corner->south, corner->west, samples_of(bytes.size()), {}};
  if (tile.samples == 0) {
    return bad_input(std::move(file),
                     "has " + std::to_string(bytes.size()) +
                         " bytes; an SRTM tile has 2884802 (3 arc seconds) or 25934402 (1 arc second): "
                         "fetch it again");
  }
  tile.heights.resize(tile.samples * tile.samples);
  for (std::size_t i = 0; i < tile.heights.size(); ++i) {
    const auto high = static_cast<unsigned char>(bytes[2 * i]);
    const auto low = static_cast<unsigned char>(bytes[2 * i + 1]);
    tile.heights[i] = static_cast<std::int16_t>(static_cast<std::uint16_t>((high << 8) | low));
  }
  return tile;
}

ElevationSource elevation_source(ElevationTiles tiles) {
  if (tiles.empty()) return {};
  // Shared, because a std::function is copied about and a tile has up to 26 MB.
  const auto by_corner = std::make_shared<std::map<std::pair<int, int>, ElevationTile>>();
  for (ElevationTile& tile : tiles) by_corner->insert_or_assign({tile.south, tile.west}, std::move(tile));
  return [by_corner](Position position) -> std::optional<Metres> {
    const auto south = static_cast<int>(std::floor(position.latitude));
    const auto west = static_cast<int>(std::floor(position.longitude));
    const bool on_row = position.latitude == south, on_column = position.longitude == west;
    // An edge belongs to the tiles on both its sides.
    for (int i = 0; i <= (on_row ? 1 : 0); ++i) {
      for (int k = 0; k <= (on_column ? 1 : 0); ++k) {
        const auto tile = by_corner->find({south - i, wrapped(west - k)});
        if (tile == by_corner->end()) continue;
        // In the tile's own longitudes: 180 degrees is the east edge of E179 and the west edge of W180.
        const double east_of_corner = position.longitude - (west - k);
        if (auto height = height_in(tile->second, position.latitude, tile->second.west + east_of_corner)) return height;
      }
    }
    return std::nullopt;
  };
}

}  // namespace outbye
