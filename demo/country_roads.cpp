#include "demo/country_roads.h"

#include <string_view>

#include "core/roads/road_builder.h"

namespace outbye::demo {

Result<RoadGraph> build_roads(const Country& country, const RoadOptions& options) {
  RoadBuilder builder;
  for (const Position& p : country.nodes) builder.add_point(p);
  std::vector<outbye::Tag> tags;
  const auto views = [&](const std::vector<Tag>& made) {
    tags.clear();
    for (const auto& [key, value] : made) tags.emplace_back(key, value);
    return Tags(tags);
  };
  for (const NodeTags& node : country.node_tags) switch (interpret_node(views(node.tags))) {
      case NodeBarrier::open:
        break;
      case NodeBarrier::gate:
        builder.mark_gate(node.node);
        break;
      case NodeBarrier::blocked:
        builder.block(node.node);
        break;
    }
  for (const NodeTags& node : country.node_tags) {
    const auto value = [&](std::string_view key) {
      for (const auto& [k, v] : node.tags)
        if (k == key) return std::string_view(v);
      return std::string_view();
    };
    if (value("amenity") == "fuel")
      builder.add_pump({fixed_position(country.nodes[node.node]), builder.name(value("name"))});
  }
  for (const CountryWay& way : country.ways) {
    const std::optional<RoadAttributes> attributes = interpret_way(views(way.tags), options);
    if (attributes) builder.add_way(way.id, way.nodes, *attributes, builder.name(road_label(Tags(tags))));
  }
  for (const TurnRestriction& made : country.restrictions) {
    const std::vector<Tag> relation{{"type", "restriction"}, {"restriction", made.kind}};
    const RestrictionReading reading = interpret_restriction(views(relation));
    if (reading.restriction)
      builder.add_restriction({reading.restriction->kind, made.from_way, made.to_way, made.via_node, {}});
  }
  return builder.build();
}

}  // namespace outbye::demo
