#include "formats/map_tiles/tile_writer.h"

#include <protozero/pbf_writer.hpp>

namespace outbye {
namespace {

// Mapbox Vector Tile specification 2.1: 4.3.1 commands, 4.3.2 zigzag parameters, and vector_tile.proto for the fields.
enum Command : std::uint32_t { move_to = 1, line_to = 2, close_path = 7 };
constexpr std::uint32_t command(Command id, std::uint32_t count) { return id | (count << 3U); }

namespace tile_field {
constexpr protozero::pbf_tag_type layers = 3;
}
namespace layer_field {
constexpr protozero::pbf_tag_type name = 1, features = 2, keys = 3, values = 4, extent = 5, version = 15;
}
namespace feature_field {
constexpr protozero::pbf_tag_type tags = 2, type = 3, geometry = 4;
}
namespace value_field {
constexpr protozero::pbf_tag_type text = 1, whole = 4;
}

constexpr std::int32_t type_of(MapShape shape) {
  return shape == MapShape::point ? 1 : shape == MapShape::line ? 2 : 3;
}

std::string written_value(const MapValue& value) {
  std::string bytes;
  protozero::pbf_writer out(bytes);
  if (const auto* text = std::get_if<std::string>(&value)) {
    out.add_string(value_field::text, *text);
  } else {
    out.add_int64(value_field::whole, std::get<std::int64_t>(value));
  }
  return bytes;
}

// Numbers things in the order in which they are first asked for.
template <class T>
struct Numbering {
  std::map<T, std::uint32_t> numbers;
  std::vector<T> things;
  std::uint32_t of(const T& thing) {
    const auto [at, is_new] = numbers.try_emplace(thing, static_cast<std::uint32_t>(things.size()));
    if (is_new) things.push_back(thing);
    return at->second;
  }
};

}  // namespace

void TileGeometry::step_to(TilePoint point) {
  words_.push_back(protozero::encode_zigzag32(point.x - pen_.x));
  words_.push_back(protozero::encode_zigzag32(point.y - pen_.y));
  pen_ = point;
}

void TileGeometry::add_point(TilePoint point) {
  ++points_;
  step_to(point);
}

void TileGeometry::add_line(std::span<const TilePoint> line) {
  words_.push_back(command(move_to, 1));
  step_to(line.front());
  words_.push_back(command(line_to, static_cast<std::uint32_t>(line.size() - 1)));
  for (const TilePoint point : line.subspan(1)) step_to(point);
}

void TileGeometry::add_ring(std::span<const TilePoint> ring) {
  add_line(ring);
  words_.push_back(command(close_path, 1));
}

std::vector<std::uint32_t> TileGeometry::commands() const {
  if (points_ == 0) return words_;
  std::vector<std::uint32_t> all{command(move_to, points_)};
  all.insert(all.end(), words_.begin(), words_.end());
  return all;
}

TileGeometry& TileDraft::geometry(MapLayer layer, MapShape shape, std::uint32_t attributes) {
  auto& features = layers_[static_cast<std::size_t>(layer)];
  const auto [at, is_new] = known_.try_emplace({layer, shape, attributes}, features.size());
  if (is_new) features.push_back({shape, attributes, {}});
  return features[at->second].geometry;
}

std::string TileDraft::written(const std::vector<MapAttributes>& attributes) const {
  std::string bytes;
  protozero::pbf_writer tile(bytes);
  for (std::size_t i = 0; i < map_layer_count; ++i) {
    if (layers_[i].empty()) continue;
    protozero::pbf_writer layer(tile, tile_field::layers);
    layer.add_uint32(layer_field::version, 2);
    const std::string_view name = layer_name(static_cast<MapLayer>(i));
    layer.add_string(layer_field::name, name.data(), name.size());
    Numbering<std::string_view> keys;
    Numbering<MapValue> values;
    for (const Feature& feature : layers_[i]) {
      std::vector<std::uint32_t> tags;
      for (const auto& [key, value] : attributes[feature.attributes]) {
        tags.push_back(keys.of(key));
        tags.push_back(values.of(value));
      }
      const std::vector<std::uint32_t> commands = feature.geometry.commands();
      protozero::pbf_writer out(layer, layer_field::features);
      if (!tags.empty()) out.add_packed_uint32(feature_field::tags, tags.begin(), tags.end());
      out.add_enum(feature_field::type, type_of(feature.shape));
      out.add_packed_uint32(feature_field::geometry, commands.begin(), commands.end());
    }
    for (const std::string_view key : keys.things) layer.add_string(layer_field::keys, key.data(), key.size());
    for (const MapValue& value : values.things) layer.add_message(layer_field::values, written_value(value));
    layer.add_uint32(layer_field::extent, static_cast<std::uint32_t>(tile_extent));
  }
  return bytes;
}

}  // namespace outbye
