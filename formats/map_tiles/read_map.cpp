// Extracts by libosmium, whose exceptions end here.
#include "formats/map_tiles/read_map.h"

#include <algorithm>
#include <exception>
#include <map>
#include <osmium/io/any_input.hpp>
#include <osmium/osm.hpp>
#include <set>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "formats/map_tiles/assemble.h"
#include "formats/map_tiles/cut.h"
#include "formats/map_tiles/node_places.h"
#include "formats/osm/osm_raw.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

struct KeptWay {
  std::int64_t id{};
  std::size_t first_ref{}, ref_count{};
  std::optional<MapLook> line, area, point;
};

struct KeptArea {
  std::int64_t id{};
  std::vector<std::pair<std::int64_t, bool>> members;  // way, said to be inner
  std::optional<MapLook> area, point;
};

class MapReader {
 public:
  MapReader(bool several, const std::function<bool(double)>& go_on) : several_(several), go_on_(go_on) {}

  void take(const osmium::Relation& relation) {
    const char* type = relation.tags().get_value_by_key("type");
    if (!relation.visible() || type == nullptr || std::string_view(type) != "multipolygon") return;
    if (several_ && !seen_relations_.insert(relation.id()).second) return;
    gather_tags(relation.tags());
    KeptArea kept{relation.id(), {}, area_look(tags_), point_look(tags_)};
    if (!kept.area && !kept.point) return;
    for (const osmium::RelationMember& member : relation.members()) {
      if (member.type() != osmium::item_type::way) continue;
      kept.members.emplace_back(member.ref(), std::string_view(member.role()) == "inner");
      member_ways_.try_emplace(member.ref());
    }
    areas_.push_back(std::move(kept));
  }

  void take(const osmium::Node& node) {
    if (!node.visible() || !node.location().valid()) return;
    const WorldPoint at = world_point({node.location().lat(), node.location().lon()});
    places_.add(node.id(), at);
    if (node.tags().empty()) return;
    gather_tags(node.tags());
    const auto look = point_look(tags_);
    if (!look || (several_ && !seen_nodes_.insert(node.id()).second)) return;
    map_.begin(MapShape::point, *look);
    map_.add_part(std::span(&at, 1));
  }

  void take(const osmium::Way& way) {
    if (!way.visible() || way.nodes().size() < 2) return;
    const auto member = member_ways_.find(way.id());
    const bool is_member = member != member_ways_.end();
    if (way.tags().empty() && !is_member) return;
    if (several_ && !seen_ways_.insert(way.id()).second) return;
    gather_tags(way.tags());
    const bool is_closed = way.is_closed() && way.nodes().size() > 3;
    KeptWay kept{way.id(), refs_.size(), way.nodes().size(), line_look(tags_), {}, point_look(tags_)};
    if (is_closed) kept.area = area_look(tags_);
    if (kept.point && kept.point->layer == MapLayer::places) kept.point.reset();  // the node of that name is drawn
    if (!kept.line && !kept.area && !kept.point && !is_member) return;
    for (const osmium::NodeRef& ref : way.nodes()) refs_.push_back(ref.ref());
    if (is_member) member->second = {kept.first_ref, kept.ref_count};
    ways_.push_back(std::move(kept));
  }

  // Into shapes. False: stopped.
  bool draw() {
    places_.sort();
    return draw_ways() && draw_areas();
  }

  MapFeatures& map() { return map_; }
  bool has_nodes() const { return !places_.empty(); }

 private:
  using RefRange = std::pair<std::size_t, std::size_t>;  // first, count; of none: not in the extract

  void gather_tags(const osmium::TagList& list) {
    tags_.clear();
    for (const osmium::Tag& tag : list) tags_.emplace_back(tag.key(), tag.value());
  }

  // The way's points in runs without a hole: where a node is missing (the extract was cut there) a new one begins.
  std::vector<std::vector<WorldPoint>> runs_of(const KeptWay& way) {
    std::vector<std::vector<WorldPoint>> runs(1);
    for (std::size_t i = 0; i < way.ref_count; ++i) {
      const auto at = places_.find(refs_[way.first_ref + i]);
      if (!at) {
        if (!runs.back().empty()) runs.emplace_back();
      } else if (runs.back().empty() || !(runs.back().back() == *at)) {
        runs.back().push_back(*at);
      }
    }
    const auto is_short = [](const std::vector<WorldPoint>& run) { return run.size() < 2; };
    runs.erase(std::remove_if(runs.begin(), runs.end(), is_short), runs.end());
    return runs;
  }

  bool draw_ways() {
    std::map<std::pair<int, MapAttributes>, std::uint32_t> kinds;
    std::vector<MapLook> looks;
    std::vector<LooseLine> lines;
    for (std::size_t i = 0; i < ways_.size(); ++i) {
      if (i % 4096 == 0 && !go_on_(0.5 * static_cast<double>(i) / static_cast<double>(ways_.size()))) return false;
      KeptWay& way = ways_[i];
      if (!way.line && !way.area && !way.point) continue;
      auto runs = runs_of(way);
      if (runs.empty()) continue;
      const bool is_ring = runs.size() == 1 && runs[0].size() > 3 && runs[0].front() == runs[0].back();
      if (way.area && is_ring) {
        map_.begin(MapShape::area, *way.area);
        map_.add_part(runs[0]);
      }
      if (way.point) mark(*way.point, is_ring ? middle_of(runs[0]) : runs[0][runs[0].size() / 2]);
      if (!way.line) continue;
      const auto [at, is_new] =
          kinds.try_emplace({static_cast<int>(way.line->layer) * 100 + way.line->min_zoom, way.line->attributes},
                            static_cast<std::uint32_t>(looks.size()));
      if (is_new) looks.push_back(*way.line);
      for (auto& run : runs) lines.push_back({at->second, std::move(run)});
    }
    for (const LooseLine& line : joined_lines(std::move(lines))) {
      map_.begin(MapShape::line, looks[line.kind]);
      map_.add_part(line.points);
    }
    return true;
  }

  bool draw_areas() {
    for (std::size_t i = 0; i < areas_.size(); ++i) {
      if (i % 64 == 0 && !go_on_(0.5 + 0.5 * static_cast<double>(i) / static_cast<double>(areas_.size()))) return false;
      const KeptArea& area = areas_[i];
      std::vector<AreaWay> ways;
      std::set<std::int64_t> used;
      bool is_incomplete = false;
      for (const auto& [id, is_inner] : area.members) {
        if (!used.insert(id).second) continue;
        AreaWay way = way_of(id);
        way.is_inner = is_inner;
        if (way.refs.size() < 2) {
          is_incomplete = true;
        } else {
          ways.push_back(std::move(way));
        }
      }
      const std::vector<AreaRing> rings = assembled(area.id, std::move(ways), is_incomplete);
      if (rings.empty()) continue;
      if (area.area) {
        map_.begin(MapShape::area, *area.area);
        for (const AreaRing& ring : rings) map_.add_part(ring.points, ring.is_hole);
      }
      if (area.point && area.point->layer == MapLayer::points) mark(*area.point, middle_of(rings[0].points));
    }
    return true;
  }

  // Empty when it or one of its nodes is not in the extract.
  AreaWay way_of(std::int64_t id) {
    const auto [first, count] = member_ways_.at(id);
    AreaWay way{id, {}, {}, false};
    for (std::size_t i = first; i < first + count; ++i) {
      const auto at = places_.find(refs_[i]);
      if (!at) return {};
      way.refs.push_back(refs_[i]);
      way.points.push_back(*at);
    }
    return way;
  }

  void mark(const MapLook& look, WorldPoint at) {
    map_.begin(MapShape::point, look);
    map_.add_part(std::span(&at, 1));
  }

  static WorldPoint middle_of(const std::vector<WorldPoint>& ring) {
    std::int64_t x = 0, y = 0;
    const auto n = static_cast<std::int64_t>(ring.size() - 1);
    for (std::size_t i = 1; i < ring.size(); ++i) {
      x += ring[i].x;
      y += ring[i].y;
    }
    return {static_cast<std::int32_t>(x / n), static_cast<std::int32_t>(y / n)};
  }

  bool several_;
  const std::function<bool(double)>& go_on_;
  std::vector<Tag> tags_;
  MapFeatures map_;
  NodePlaces places_;
  std::vector<KeptWay> ways_;
  std::vector<std::int64_t> refs_;
  std::vector<KeptArea> areas_;
  std::unordered_map<std::int64_t, RefRange> member_ways_;
  std::unordered_set<std::int64_t> seen_nodes_, seen_ways_, seen_relations_;
};

tl::unexpected<Problem> stopped() { return problem(Problem::Kind::cancelled, "map", "was stopped before it was done"); }

// Hands everything of one kind in a file to the reader.
template <class... Kinds>
Result<void> read_file(const fs::path& file, osmium::osm_entity_bits::type kinds, MapReader& reader,
                       const std::function<bool(double)>& go_on) {
  const Result<std::string> format = extract_format(file);
  if (!format) return tl::make_unexpected(format.error());
  try {
    osmium::io::Reader input(osmium::io::File(file.string(), *format), kinds, osmium::io::read_meta::no);
    const double size = static_cast<double>(std::max<std::size_t>(input.file_size(), 1));
    while (const osmium::memory::Buffer some = input.read()) {
      (
          [&] {
            for (const auto& entity : some.select<Kinds>()) reader.take(entity);
          }(),
          ...);
      if (go_on(std::min(1.0, static_cast<double>(input.offset()) / size))) continue;
      input.close();
      return stopped();
    }
    input.close();
  } catch (const std::exception& fault) {
    return bad_input(file.string(), "is damaged or cut short, or no OpenStreetMap map (" + std::string(fault.what()) +
                                        "); get the map again");
  }
  return {};
}

}  // namespace

Result<MapFeatures> read_map(const std::vector<fs::path>& extracts, const std::function<bool(double share)>& go_on) {
  if (extracts.empty()) return bad_input("map", "has no extract to be made from; add a map file (.osm.pbf)");
  const std::function<bool(double)> drawing = [&](double share) { return go_on(0.8 + 0.2 * share); };
  MapReader reader(extracts.size() > 1, drawing);
  // What areas are made of must be known before the ways come by; relations stand last in a file.
  const double files = static_cast<double>(extracts.size());
  double before = 0;
  const auto part = [&](double from, double length) {
    return [&, from, length](double share) { return go_on(from + length * (before + share) / files); };
  };
  for (const fs::path& file : extracts) {
    auto read = read_file<osmium::Relation>(file, osmium::osm_entity_bits::relation, reader, part(0.0, 0.2));
    if (!read) return tl::make_unexpected(read.error());
    ++before;
  }
  before = 0;
  for (const fs::path& file : extracts) {
    auto read = read_file<osmium::Node, osmium::Way>(file, osmium::osm_entity_bits::node | osmium::osm_entity_bits::way,
                                                     reader, part(0.2, 0.6));
    if (!read) return tl::make_unexpected(read.error());
    ++before;
  }
  if (!reader.draw()) return stopped();
  if (reader.map().features.empty()) {
    return bad_input(extracts.front().string(), reader.has_nodes()
                                                    ? "holds nothing that the map shows; is this the right extract?"
                                                    : "holds no points; get an extract with nodes and ways");
  }
  return std::move(reader.map());
}

}  // namespace outbye
