// libosmium's assembler works on its own objects, whose coordinates are 1e-7 degrees; the world square is handed to it
// as if it were degrees of a smaller one. Its exceptions end here.
#include "formats/map_tiles/assemble.h"

#include <algorithm>
#include <exception>
#include <map>
#include <osmium/area/assembler.hpp>
#include <osmium/builder/osm_object_builder.hpp>
#include <osmium/memory/buffer.hpp>
#include <osmium/osm/area.hpp>
#include <unordered_set>

namespace outbye {
namespace {

// A location holds any pair of whole numbers, and checks only that they look like degrees: |x| <= 1.8e9 and
// |y| <= 0.9e9. World units run to 1.07e9, so y is shifted by half of it.
constexpr std::int32_t shift = world_size / 2;
osmium::Location location_of(WorldPoint p) { return {p.x - shift, p.y - shift}; }
WorldPoint point_of(osmium::Location at) { return {at.x() + shift, at.y() + shift}; }

// Takes out ways that hang in the air, until every end meets another.
void drop_dangling(std::vector<AreaWay>& ways) {
  for (bool is_changed = true; is_changed;) {
    std::map<std::int64_t, int> ends;
    for (const AreaWay& way : ways) {
      ++ends[way.refs.front()];
      ++ends[way.refs.back()];
    }
    const auto gone = std::remove_if(ways.begin(), ways.end(), [&](const AreaWay& way) {
      return ends[way.refs.front()] % 2 != 0 || ends[way.refs.back()] % 2 != 0;
    });
    is_changed = gone != ways.end();
    ways.erase(gone, ways.end());
  }
}

template <class Ring>
AreaRing ring_of(const Ring& nodes, bool is_hole) {
  AreaRing ring{{}, is_hole};
  for (const osmium::NodeRef& node : nodes) ring.points.push_back(point_of(node.location()));
  return ring;
}

}  // namespace

std::vector<AreaRing> assembled(std::int64_t relation, std::vector<AreaWay> ways, bool is_incomplete) {
  std::unordered_set<std::int64_t> inner_nodes;
  if (is_incomplete) {
    drop_dangling(ways);
    for (const AreaWay& way : ways) {
      if (way.is_inner) inner_nodes.insert(way.refs.begin(), way.refs.end());
    }
    for (const AreaWay& way : ways) {
      if (way.is_inner) continue;
      for (const std::int64_t ref : way.refs) inner_nodes.erase(ref);
    }
  }
  if (ways.empty()) return {};
  std::vector<AreaRing> rings;
  try {
    constexpr std::size_t start_size = 64 * 1024;
    osmium::memory::Buffer in(start_size, osmium::memory::Buffer::auto_grow::yes);
    osmium::memory::Buffer out(start_size, osmium::memory::Buffer::auto_grow::yes);
    std::vector<std::size_t> places;
    for (const AreaWay& way : ways) {
      {
        osmium::builder::WayBuilder builder(in);
        builder.set_id(way.id);
        osmium::builder::WayNodeListBuilder nodes(builder);
        for (std::size_t i = 0; i < way.refs.size(); ++i) nodes.add_node_ref(way.refs[i], location_of(way.points[i]));
      }
      places.push_back(in.commit());
    }
    {
      osmium::builder::RelationBuilder builder(in);
      builder.set_id(relation);
      osmium::builder::RelationMemberListBuilder members(builder);
      for (const AreaWay& way : ways) members.add_member(osmium::item_type::way, way.id, "");
    }
    const std::size_t at = in.commit();
    std::vector<const osmium::Way*> members;
    members.reserve(places.size());
    for (const std::size_t place : places) members.push_back(&in.get<osmium::Way>(place));
    osmium::area::AssemblerConfig config;
    config.create_empty_areas = false;
    osmium::area::Assembler assembler(config);
    if (!assembler(in.get<osmium::Relation>(at), members, out)) return {};
    out.commit();
    for (const osmium::Area& area : out.select<osmium::Area>()) {
      for (const osmium::OuterRing& outer : area.outer_rings()) {
        const auto is_inner = [&](const osmium::NodeRef& node) { return inner_nodes.count(node.ref()) != 0; };
        if (is_incomplete && std::all_of(outer.begin(), outer.end(), is_inner)) continue;
        rings.push_back(ring_of(outer, false));
        for (const osmium::InnerRing& inner : area.inner_rings(outer)) rings.push_back(ring_of(inner, true));
      }
    }
  } catch (const std::exception&) {
    return {};
  }
  return rings;
}

}  // namespace outbye
