#include "demo/drawing.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "demo/names.h"

namespace outbye::demo {
namespace {

constexpr double roundabout_radius = 18.0;  // metres

// `count` + 1 spots at equal distances along the line between the metres `from` and `to`.
std::vector<Spot> evenly(const std::vector<Spot>& line, double from, double to, std::size_t count) {
  std::vector<Spot> spots;
  spots.reserve(count + 1);
  std::size_t i = 1;
  double start = 0;  // metres at line[i - 1]
  for (std::size_t k = 0; k <= count; ++k) {
    const double wanted = from + (to - from) * static_cast<double>(k) / static_cast<double>(count);
    double piece = distance(line[i - 1], line[i]);
    while (i + 1 < line.size() && start + piece < wanted) {
      start += piece;
      ++i;
      piece = distance(line[i - 1], line[i]);
    }
    const double share = piece > 0 ? std::clamp((wanted - start) / piece, 0.0, 1.0) : 0.0;
    spots.push_back((1.0 - share) * line[i - 1] + share * line[i]);
  }
  return spots;
}

std::size_t pieces(const Link& link, double spacing) {
  return static_cast<std::size_t>(std::max(1.0, std::round(link.length / spacing)));
}

std::vector<bool> roundabouts(const Net& net, const LinksAt& at, Seed seed) {
  std::vector<bool> is_roundabout(net.sites.size());
  for (std::uint32_t s = 0; s < net.sites.size(); ++s) {
    int main_roads = 0;
    bool is_roomy = true;
    for (std::uint32_t k = at.start[s]; k < at.start[s + 1]; ++k) {
      const Link& link = net.links[at.links[k]];
      if (link.road <= RoadClass::secondary) ++main_roads;
      if (link.length < 4.0 * roundabout_radius || link.crosses_river) is_roomy = false;
    }
    is_roundabout[s] = main_roads >= 3 && is_roomy && chance(seed, s, 0, 50) < 0.5;
  }
  return is_roundabout;
}

class Drafter {
 public:
  Drafter(const Net& net, const Terrain& terrain, Seed seed, std::size_t road_nodes)
      : net_(net), terrain_(terrain), seed_(seed), at_(net), site_node_(net.sites.size(), nowhere) {
    drawing_.is_roundabout = roundabouts(net, at_, seed);
    spacing_ = spacing_for(road_nodes);
    name_streets();
    rings_.resize(net.sites.size());
    drawing_.link_nodes.resize(net.links.size());
    first_way_.resize(net.links.size());
    last_way_.resize(net.links.size());
  }

  Drawing finished() {
    for (std::uint32_t i = 0; i < net_.links.size(); ++i) draw_link(i);
    draw_rings();
    restrict_turns();
    draw_rivers();
    draw_places();
    std::sort(drawing_.node_tags.begin(), drawing_.node_tags.end(),
              [](const NodeTags& a, const NodeTags& b) { return a.node < b.node; });
    count_road_nodes();
    return std::move(drawing_);
  }

 private:
  // The spacing of shape nodes, metres, that gives the wanted number.
  double spacing_for(std::size_t road_nodes) const {
    std::vector<bool> on_road(net_.sites.size());
    for (const Link& link : net_.links)
      if (is_for_cars(link.road)) on_road[link.from] = on_road[link.to] = true;
    const auto junctions = static_cast<std::size_t>(std::count(on_road.begin(), on_road.end(), true));
    double low = 3.0;
    double high = 400.0;
    for (int step = 0; step < 40; ++step) {
      const double middle = std::sqrt(low * high);
      std::size_t count = junctions;
      for (const Link& link : net_.links)
        if (is_for_cars(link.road)) count += pieces(link, middle) - 1;
      (count > road_nodes ? low : high) = middle;
    }
    return high;
  }

  void name_streets() {
    street_names_.resize(net_.links.size());
    Names names(Seed{seed_.value ^ 0x737472ULL});
    for (std::uint32_t i = 0; i < net_.links.size(); ++i) {
      const Link& link = net_.links[i];
      const bool has_name = link.road <= RoadClass::residential && (link.road != RoadClass::unclassified || i % 3 != 0);
      if (link.street == i && has_name) street_names_[i] = names.street();
    }
  }

  std::uint32_t add_node(Spot s) {
    drawing_.nodes.push_back(position_of(s));
    drawing_.spots.push_back(s);
    return static_cast<std::uint32_t>(drawing_.nodes.size() - 1);
  }

  std::uint32_t end_node(std::uint32_t site, Spot s) {
    if (drawing_.is_roundabout[site]) {
      rings_[site].push_back(add_node(s));
      return rings_[site].back();
    }
    if (site_node_[site] == nowhere) site_node_[site] = add_node(net_.sites[site].spot);
    return site_node_[site];
  }

  std::int64_t add_way(std::vector<std::uint32_t> nodes, std::vector<Tag> tags) {
    drawing_.ways.push_back({static_cast<std::int64_t>(drawing_.ways.size() + 1), std::move(nodes), std::move(tags)});
    return drawing_.ways.back().id;
  }

  void draw_link(std::uint32_t i) {
    const Link& link = net_.links[i];
    const double trim_from = drawing_.is_roundabout[link.from] ? roundabout_radius : 0.0;
    const double trim_to = drawing_.is_roundabout[link.to] ? roundabout_radius : 0.0;
    const std::vector<Spot> spots = evenly(link.line, trim_from, link.length - trim_to, pieces(link, spacing_));
    std::vector<std::uint32_t>& nodes = drawing_.link_nodes[i];
    nodes.push_back(end_node(link.from, spots.front()));
    for (std::size_t k = 1; k + 1 < spots.size(); ++k) nodes.push_back(add_node(spots[k]));
    nodes.push_back(end_node(link.to, spots.back()));

    // Where it meets the river: roads get a bridge, trails a ford.
    std::vector<std::size_t> crossings;  // the step from k to k + 1
    for (std::size_t k = 0; k + 1 < nodes.size(); ++k)
      if (terrain_.bank(drawing_.spots[nodes[k]]) != terrain_.bank(drawing_.spots[nodes[k + 1]]))
        crossings.push_back(k);
    std::size_t from = 0;
    const auto piece = [&](std::size_t first, std::size_t last, bool bridge) {
      if (last <= first) return;
      const auto at = [&](std::size_t k) { return nodes.begin() + static_cast<std::ptrdiff_t>(k); };
      const std::int64_t id = add_way({at(first), at(last) + 1}, tags_of(net_, i, bridge, street_names_, seed_));
      if (first == 0) first_way_[i] = id;
      last_way_[i] = id;
    };
    for (const std::size_t k : crossings) {
      if (!is_for_cars(link.road)) {
        drawing_.node_tags.push_back({nodes[k], {{"ford", "yes"}}});
        continue;
      }
      piece(from, k, false);
      piece(k, k + 1, true);
      from = k + 1;
    }
    piece(from, nodes.size() - 1, false);
    if (nodes.size() > 3) add_obstacles(link, nodes);
  }

  void add_obstacles(const Link& link, const std::vector<std::uint32_t>& nodes) {
    if (link.has_gate) {
      std::vector<Tag> tags{{"barrier", link.road == RoadClass::track ? "gate" : "cattle_grid"}};
      if (link.is_private) tags.emplace_back("locked", "yes");
      drawing_.node_tags.push_back({nodes[1], tags});
    }
    if (link.has_ford) {
      const auto lower = [&](std::uint32_t a, std::uint32_t b) {
        return terrain_.height(drawing_.spots[a]) < terrain_.height(drawing_.spots[b]);
      };
      drawing_.node_tags.push_back({*std::min_element(nodes.begin() + 1, nodes.end() - 1, lower), {{"ford", "yes"}}});
    }
  }

  // Clockwise, as where one drives on the left.
  void draw_rings() {
    for (std::uint32_t s = 0; s < net_.sites.size(); ++s) {
      if (rings_[s].empty()) continue;
      const Spot centre = net_.sites[s].spot;
      std::vector<std::pair<double, std::uint32_t>> ring;
      for (const std::uint32_t node : rings_[s]) {
        const Spot d = drawing_.spots[node] - centre;
        ring.emplace_back(-std::atan2(d.y, d.x), node);
      }
      std::sort(ring.begin(), ring.end());
      std::vector<std::uint32_t> nodes;
      for (std::size_t k = 0; k < ring.size(); ++k) {
        nodes.push_back(ring[k].second);
        const double next = k + 1 < ring.size() ? ring[k + 1].first : ring[0].first + 2.0 * std::numbers::pi;
        const int between = static_cast<int>((next - ring[k].first) / 0.7);
        for (int j = 1; j <= between; ++j) {
          const double angle = -(ring[k].first + (next - ring[k].first) * j / (between + 1));
          nodes.push_back(add_node(centre + roundabout_radius * Spot{std::cos(angle), std::sin(angle)}));
        }
      }
      nodes.push_back(nodes.front());
      add_way(nodes,
              {{"highway", "primary"}, {"junction", "roundabout"}, {"maxspeed", "30 mph"}, {"surface", "asphalt"}});
    }
  }

  // Out of a side road one may often turn with the traffic only.
  void restrict_turns() {
    for (std::uint32_t s = 0; s < net_.sites.size(); ++s)
      if (!drawing_.is_roundabout[s] && chance(seed_, s, 0, 51) < 0.10) restrict_one_turn(s);
  }

  void restrict_one_turn(std::uint32_t s) {
    for (std::uint32_t p = at_.start[s]; p < at_.start[s + 1]; ++p)
      for (std::uint32_t q = at_.start[s]; q < at_.start[s + 1]; ++q) {
        const Link& from = net_.links[at_.links[p]];
        const Link& to = net_.links[at_.links[q]];
        if (from.road < RoadClass::tertiary || from.road > RoadClass::residential || from.is_one_way) continue;
        if (to.road > RoadClass::secondary) continue;
        const Spot in = net_.sites[s].spot - net_.sites[other_end(from, s)].spot;
        const Spot out = net_.sites[other_end(to, s)].spot - net_.sites[s].spot;
        const double turn = std::atan2(in.x * out.y - in.y * out.x, in.x * out.x + in.y * out.y);
        if (turn > -0.6 || turn < -2.6) continue;  // not to the right
        return add_restriction(at_.links[p], s, at_.links[q], "no_right_turn");
      }
  }

  void add_restriction(std::uint32_t from, std::uint32_t site, std::uint32_t to, const char* kind) {
    const auto way_at = [&](std::uint32_t i) { return net_.links[i].from == site ? first_way_[i] : last_way_[i]; };
    drawing_.restrictions.push_back({static_cast<std::int64_t>(drawing_.restrictions.size() + 1), way_at(from),
                                     site_node_[site], way_at(to), kind});
  }

  void draw_rivers() {
    Names names(Seed{seed_.value ^ 0x726976ULL});
    for (const River& river : terrain_.rivers()) {
      const std::string name = "River " + names.stem();
      std::vector<std::uint32_t> nodes;
      for (double y = 0.5 * terrain_.side(); y > -0.5 * terrain_.side(); y -= 55.0) {
        const Spot s{river.x_at(y), y};
        if (terrain_.height(s) > 1.0) nodes.push_back(add_node(s));
      }
      if (nodes.size() > 1) add_way(nodes, {{"waterway", "river"}, {"name", name}});
    }
  }

  void draw_places() {
    for (const Place& place : net_.places) {
      const char* const kinds[] = {"town", "village", "village", "hamlet"};
      drawing_.node_tags.push_back({add_node(place.centre + Spot{9.0, 7.0}),
                                    {{"place", kinds[static_cast<std::size_t>(place.kind)]}, {"name", place.name}}});
    }
    for (const Place& place : net_.places) {
      if (place.kind > PlaceKind::large_village) continue;
      drawing_.node_tags.push_back({add_node(place.centre + Spot{-34.0, 21.0}),
                                    {{"amenity", "fuel"}, {"name", place.name + " Filling Station"}}});
    }
  }

  void count_road_nodes() {
    std::vector<bool> on_road(drawing_.nodes.size());
    for (std::size_t i = 0; i < net_.links.size(); ++i)
      if (is_for_cars(net_.links[i].road))
        for (const std::uint32_t node : drawing_.link_nodes[i]) on_road[node] = true;
    for (const CountryWay& way : drawing_.ways)
      if (way.tags.size() > 1 && way.tags[1].first == "junction")
        for (const std::uint32_t node : way.nodes) on_road[node] = true;
    drawing_.road_nodes = static_cast<std::size_t>(std::count(on_road.begin(), on_road.end(), true));
  }

  const Net& net_;
  const Terrain& terrain_;
  Seed seed_;
  LinksAt at_;
  Drawing drawing_;
  double spacing_{};
  std::vector<std::uint32_t> site_node_;
  std::vector<std::vector<std::uint32_t>> rings_;
  std::vector<std::string> street_names_;
  std::vector<std::int64_t> first_way_, last_way_;  // by link
};

}  // namespace

Drawing draw(const Net& net, const Terrain& terrain, Seed seed, std::size_t road_nodes) {
  return Drafter(net, terrain, seed, road_nodes).finished();
}

}  // namespace outbye::demo
