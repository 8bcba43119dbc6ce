// Roads from libosmium, whose exceptions end here.
#include "formats/osm/osm_raw.h"

#include <array>
#include <exception>
#include <fstream>
#include <osmium/io/any_input.hpp>
#include <osmium/osm.hpp>
#include <string_view>

#include "core/base/progress.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

std::string_view view(const char* text) { return text ? std::string_view(text) : std::string_view(); }

class Gatherer {
 public:
  Gatherer(const RoadOptions& options, RoadBuilder& builder, RawRoads& roads)
      : options_(options), builder_(builder), roads_(roads) {}

  void take(const osmium::OSMEntity& entity) {
    switch (entity.type()) {
      case osmium::item_type::node:
        take(static_cast<const osmium::Node&>(entity));
        break;
      case osmium::item_type::way:
        take(static_cast<const osmium::Way&>(entity));
        break;
      case osmium::item_type::relation:
        take(static_cast<const osmium::Relation&>(entity));
        break;
      default:
        break;
    }
  }

 private:
  void gather_tags(const osmium::TagList& list) {
    tags_.clear();
    for (const osmium::Tag& tag : list) tags_.emplace_back(tag.key(), tag.value());
  }

  // "brand" where it has no name of its own: that is what the sign says. Not one for a yard's or an airfield's own use.
  void take_pump(const osmium::TagList& tags, std::int64_t node) {
    if (view(tags.get_value_by_key("amenity", "")) != "fuel") return;
    const std::string_view access = view(tags.get_value_by_key("access", ""));
    if (access == "no" || access == "private") return;
    std::string_view name = view(tags.get_value_by_key("name", ""));
    if (name.empty()) name = view(tags.get_value_by_key("brand", ""));
    roads_.pumps.push_back({node, builder_.name(name)});
  }

  void take(const osmium::Node& node) {
    ++roads_.all_nodes;
    if (!node.visible() || !node.location().valid()) return;
    roads_.node_ids.push_back(node.id());
    roads_.node_positions.push_back({node.location().y(), node.location().x()});
    if (node.tags().empty()) return;
    take_pump(node.tags(), node.id());
    if (!node.tags().has_key("barrier")) return;
    gather_tags(node.tags());
    switch (interpret_node(tags_)) {
      case NodeBarrier::open:
        break;
      case NodeBarrier::gate:
        roads_.gates.push_back(node.id());
        break;
      case NodeBarrier::blocked:
        roads_.blocked.push_back(node.id());
        break;
    }
  }

  void take(const osmium::Way& way) {
    ++roads_.all_ways;
    if (!way.visible() || way.nodes().size() < 2) return;
    bool is_road = false;  // most ways are houses and fences: told by their keys alone
    for (const osmium::Tag& tag : way.tags()) {
      const std::string_view key = view(tag.key());
      is_road = is_road || key == "highway" || key == "route";
      if (key == "amenity") take_pump(way.tags(), way.nodes().front().ref());
    }
    if (!is_road) return;
    gather_tags(way.tags());
    const auto attributes = interpret_way(tags_, options_);
    if (!attributes) return;
    roads_.ways.push_back({way.id(), roads_.refs.size(), builder_.name(road_label(tags_)), *attributes});
    for (const osmium::NodeRef& ref : way.nodes()) roads_.refs.push_back(ref.ref());
  }

  void take(const osmium::Relation& relation) {
    if (!relation.visible()) return;
    const std::string_view type = view(relation.tags().get_value_by_key("type", ""));
    if (type != "restriction" && type != "restriction:motorcar" && type != "restriction:motor_vehicle") return;
    gather_tags(relation.tags());
    const RestrictionReading reading = interpret_restriction(tags_);
    if (reading.is_conditional) ++roads_.conditional_restrictions;
    if (reading.is_unknown) ++roads_.unknown_restrictions;
    if (!reading.restriction) return;
    RawRestriction restriction;
    restriction.kind = reading.restriction->kind;
    for (const osmium::RelationMember& member : relation.members()) {
      const std::string_view role = view(member.role());
      const bool is_way = member.type() == osmium::item_type::way;
      if (role == "from" && is_way) restriction.from.push_back(member.ref());
      if (role == "to" && is_way) restriction.to.push_back(member.ref());
      if (role == "via" && is_way) restriction.via_ways.push_back(member.ref());
      if (role == "via" && member.type() == osmium::item_type::node) {
        restriction.via_node = member.ref();
        restriction.has_via_node = true;
      }
    }
    roads_.restrictions.push_back(std::move(restriction));
  }

  const RoadOptions& options_;
  RoadBuilder& builder_;
  RawRoads& roads_;
  std::vector<Tag> tags_;
};

}  // namespace

Result<std::string> extract_format(const fs::path& file) {
  std::error_code error;
  if (!fs::exists(file, error)) return not_found(file.string(), "does not exist; check the path to the road map");
  if (fs::is_directory(file, error)) return bad_input(file.string(), "is a folder; name a map file in it");
  std::ifstream stream(file, std::ios::binary);
  std::array<char, 512> bytes{};
  stream.read(bytes.data(), bytes.size());
  const std::string_view head(bytes.data(), static_cast<std::size_t>(stream.gcount()));
  if (!stream.is_open() || stream.bad()) return bad_input(file.string(), "cannot be read; check its permissions");
  if (head.empty()) return bad_input(file.string(), "is empty; get the road map again");
  if (head.size() > 15 && head.substr(6, 9) == "OSMHeader") return "pbf";
  if (head.starts_with("\x1f\x8b")) return "osm.gz";
  if (head.starts_with("BZh")) return "osm.bz2";
  const std::size_t text = head.find_first_not_of(" \t\r\n", head.starts_with("\xef\xbb\xbf") ? 3 : 0);
  if (text != std::string_view::npos && head[text] == '<') {
    if (head.find("<osmChange") != std::string_view::npos)
      return bad_input(file.string(), "is a change file (.osc), not a map; use an extract (.osm.pbf or .osm)");
    if (head.find("<gpx") != std::string_view::npos)
      return bad_input(file.string(), "is a GPX file, not a road map; use an OpenStreetMap extract (.osm.pbf or .osm)");
    return "osm";
  }
  return bad_input(file.string(), "is not an OpenStreetMap map; use an extract ending in .osm.pbf or .osm");
}

Result<void> read_extract(const fs::path& file, const RoadOptions& options, RoadBuilder& builder, RawRoads& roads,
                          const std::function<bool(double share)>& go_on) {
  const Result<std::string> format = extract_format(file);
  if (!format) return tl::make_unexpected(format.error());
  try {
    osmium::io::Reader reader(osmium::io::File(file.string(), *format), osmium::osm_entity_bits::nwr,
                              osmium::io::read_meta::no);
    const double size = static_cast<double>(std::max<std::size_t>(reader.file_size(), 1));
    Gatherer gatherer(options, builder, roads);
    while (const osmium::memory::Buffer buffer = reader.read()) {
      for (const auto& entity : buffer.select<osmium::OSMEntity>()) gatherer.take(entity);
      if (go_on && !go_on(std::min(1.0, static_cast<double>(reader.offset()) / size))) return cancelled(file.string());
    }
    reader.close();
  } catch (const std::exception& fault) {
    return bad_input(file.string(), "is damaged or cut short, or no OpenStreetMap map (" + std::string(fault.what()) +
                                        "); get the road map again");
  }
  return {};
}

}  // namespace outbye
