// The net drawn as nodes, ways and turn restrictions with OpenStreetMap tags.
#pragma once

#include <cstdint>
#include <vector>

#include "demo/country.h"
#include "demo/net.h"

namespace outbye::demo {

struct Drawing {
  std::vector<Position> nodes;
  std::vector<Spot> spots;  // of the nodes
  std::vector<NodeTags> node_tags;
  std::vector<CountryWay> ways;
  std::vector<TurnRestriction> restrictions;
  std::vector<std::vector<std::uint32_t>> link_nodes;  // by link, from `from` to `to`
  std::vector<bool> is_roundabout;                     // by site
  std::size_t road_nodes{};
};

// Shape nodes are spaced so that about `road_nodes` nodes lie on ways for cars.
Drawing draw(const Net& net, const Terrain& terrain, Seed seed, std::size_t road_nodes);

// Tags of a way on link `i`; `bridge`: the piece over the river.
std::vector<Tag> tags_of(const Net& net, std::uint32_t i, bool bridge, const std::vector<std::string>& street_names,
                         Seed seed);

}  // namespace outbye::demo
