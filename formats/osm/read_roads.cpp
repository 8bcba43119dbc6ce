#include <algorithm>
#include <limits>
#include <numeric>

#include "formats/osm/load_roads.h"
#include "formats/osm/osm_raw.h"

namespace outbye {
namespace {

// From OSM node id to its place in a list sorted by id. Ways mostly run through neighbouring ids, so the entry after
// the last one found is tried first; else a table by the leading bits narrows a binary search.
class NodeLookup {
 public:
  explicit NodeLookup(const std::vector<std::int64_t>& ids) : ids_(ids) {
    if (ids.empty()) return;
    const std::uint64_t span = static_cast<std::uint64_t>(ids.back()) - static_cast<std::uint64_t>(ids.front());
    while ((span >> shift_) > ids.size()) ++shift_;
    first_.assign(static_cast<std::size_t>(span >> shift_) + 2, 0);
    for (const std::int64_t id : ids) ++first_[bucket(id) + 1];
    std::partial_sum(first_.begin(), first_.end(), first_.begin());
  }
  std::uint32_t find(std::int64_t id) {
    if (ids_.empty() || id < ids_.front() || id > ids_.back()) return no_road_index;
    if (next_ < ids_.size() && ids_[next_] == id) return static_cast<std::uint32_t>(next_++);
    const std::size_t b = bucket(id);
    const auto begin = ids_.begin() + first_[b], end = ids_.begin() + first_[b + 1];
    const auto found = std::lower_bound(begin, end, id);
    if (found == end || *found != id) return no_road_index;
    next_ = static_cast<std::size_t>(found - ids_.begin()) + 1;
    return static_cast<std::uint32_t>(next_ - 1);
  }

 private:
  std::size_t bucket(std::int64_t id) const {  // unsigned: ids made by editors may be far below zero
    return static_cast<std::size_t>((static_cast<std::uint64_t>(id) - static_cast<std::uint64_t>(ids_.front())) >>
                                    shift_);
  }
  const std::vector<std::int64_t>& ids_;
  std::vector<std::uint32_t> first_;
  unsigned shift_{};
  std::size_t next_{};
};

template <class Less>
std::vector<std::uint32_t> sorted_order(std::size_t count, const Less& less) {
  std::vector<std::uint32_t> order(count);
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), less);
  return order;
}

// Ascending ids, each once: as most files are already; not so when extracts overlap or an editor wrote the file.
void put_in_order(RawRoads& roads) {
  const auto rises = [](const auto& items, const auto& id_of) {
    for (std::size_t i = 1; i < items.size(); ++i)
      if (!(id_of(items[i - 1]) < id_of(items[i]))) return false;
    return true;
  };
  if (!rises(roads.node_ids, [](std::int64_t id) { return id; })) {
    const auto order = sorted_order(
        roads.node_ids.size(), [&](std::uint32_t a, std::uint32_t b) { return roads.node_ids[a] < roads.node_ids[b]; });
    std::vector<std::int64_t> ids;
    std::vector<FixedPosition> positions;
    for (const std::uint32_t i : order) {
      if (!ids.empty() && ids.back() == roads.node_ids[i]) continue;
      ids.push_back(roads.node_ids[i]);
      positions.push_back(roads.node_positions[i]);
    }
    roads.node_ids = std::move(ids);
    roads.node_positions = std::move(positions);
  }
  if (!rises(roads.ways, [](const RawWay& way) { return way.id; })) {
    const auto order = sorted_order(
        roads.ways.size(), [&](std::uint32_t a, std::uint32_t b) { return roads.ways[a].id < roads.ways[b].id; });
    std::vector<RawWay> ways;
    std::vector<std::int64_t> refs;
    for (const std::uint32_t i : order) {
      if (!ways.empty() && ways.back().id == roads.ways[i].id) continue;
      const std::size_t begin = roads.ways[i].first_ref;
      const std::size_t end = i + 1 < roads.ways.size() ? roads.ways[i + 1].first_ref : roads.refs.size();
      ways.push_back(roads.ways[i]);
      ways.back().first_ref = refs.size();
      refs.insert(refs.end(), roads.refs.begin() + static_cast<std::ptrdiff_t>(begin),
                  roads.refs.begin() + static_cast<std::ptrdiff_t>(end));
    }
    roads.ways = std::move(ways);
    roads.refs = std::move(refs);
  }
}

std::string listed(const std::vector<std::filesystem::path>& files) {
  std::string text;
  for (const auto& file : files) text += (text.empty() ? "" : ", ") + file.string();
  return text;
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

}  // namespace

Result<LoadedRoads> read_roads(const std::vector<std::filesystem::path>& extracts, const RoadOptions& options,
                               const Progress& progress) {
  const std::string where = listed(extracts);
  if (extracts.empty()) return bad_input("road maps", "none given; name at least one .osm.pbf or .osm file");
  RoadBuilder builder;
  RawRoads raw;
  for (std::size_t i = 0; i < extracts.size(); ++i) {
    const auto tell_share = [&](double share) {
      tell(progress, "reading " + extracts[i].filename().string(),
           0.8 * (static_cast<double>(i) + share) / static_cast<double>(extracts.size()));
      return !is_cancelled(progress);
    };
    if (const auto read = read_extract(extracts[i], options, builder, raw, tell_share); !read)
      return tl::make_unexpected(read.error());
  }
  if (is_cancelled(progress)) return cancelled("road maps");
  tell(progress, "joining roads", 0.8);
  if (raw.ways.empty())
    return not_found(where, "has no road that a car may use (" + std::to_string(raw.all_nodes) + " points, " +
                                std::to_string(raw.all_ways) + " ways); use an extract that covers the ride");
  put_in_order(raw);
  if (raw.node_ids.size() >= no_road_index) return bad_input(where, "is too large: use a smaller extract");

  NodeLookup lookup(raw.node_ids);
  std::vector<std::uint32_t> point_of(raw.node_ids.size(), no_road_index);  // only the points on roads are kept
  std::vector<FixedPosition> points;
  std::vector<std::uint32_t> way_points;
  std::size_t missing = 0;
  for (std::size_t w = 0; w < raw.ways.size(); ++w) {
    const std::size_t end = w + 1 < raw.ways.size() ? raw.ways[w + 1].first_ref : raw.refs.size();
    way_points.clear();
    for (std::size_t r = raw.ways[w].first_ref; r < end; ++r) {
      const std::uint32_t node = lookup.find(raw.refs[r]);
      if (node == no_road_index) {
        ++missing;
        way_points.push_back(no_road_index);
        continue;
      }
      if (point_of[node] == no_road_index) {
        point_of[node] = static_cast<std::uint32_t>(points.size());
        points.push_back(raw.node_positions[node]);
      }
      way_points.push_back(point_of[node]);
    }
    builder.add_way(raw.ways[w].id, way_points, raw.ways[w].attributes, raw.ways[w].name);
  }
  if (points.empty())
    return bad_input(where, "holds roads but none of their points; make the extract with complete ways");
  builder.set_points(std::move(points));
  const auto point_at = [&](std::int64_t id) {
    const std::uint32_t node = lookup.find(id);
    return node == no_road_index ? no_road_index : point_of[node];
  };
  for (const std::int64_t id : raw.blocked)
    if (const std::uint32_t point = point_at(id); point != no_road_index) builder.block(point);
  for (const std::int64_t id : raw.gates)
    if (const std::uint32_t point = point_at(id); point != no_road_index) builder.mark_gate(point);
  // By id, each once: extracts overlap.
  std::stable_sort(raw.pumps.begin(), raw.pumps.end(),
                   [](const RawPump& a, const RawPump& b) { return a.node < b.node; });
  for (std::size_t i = 0; i < raw.pumps.size(); ++i) {
    if (i > 0 && raw.pumps[i - 1].node == raw.pumps[i].node) continue;
    const std::uint32_t node = lookup.find(raw.pumps[i].node);
    if (node != no_road_index) builder.add_pump({raw.node_positions[node], raw.pumps[i].name});
  }
  std::size_t off_map = 0;
  for (const RawRestriction& r : raw.restrictions) {
    TurnRestriction restriction;
    restriction.kind = r.kind;
    restriction.via_ways = r.via_ways;
    if (r.has_via_node) {
      restriction.via_point = point_at(r.via_node);
      if (*restriction.via_point == no_road_index) {
        ++off_map;
        continue;
      }
    }
    for (const std::int64_t from : r.from)
      for (const std::int64_t to : r.to) {
        restriction.from = from;
        restriction.to = to;
        builder.add_restriction(restriction);
      }
  }
  if (is_cancelled(progress)) return cancelled("road maps");
  tell(progress, "joining roads", 0.9);
  Result<RoadGraph> graph = builder.build();
  if (!graph) return problem(graph.error().kind, where, graph.error().what);

  Warnings warnings;
  const RoadBuildCounts& counts = builder.counts();
  if (missing > 0)
    warnings.push_back({where, counted(missing, "point of a road is", "points of roads are") +
                                   " missing: roads are cut there, as at the edge of an extract"});
  if (raw.conditional_restrictions > 0)
    warnings.push_back(
        {where, counted(raw.conditional_restrictions, "turn restriction holds", "turn restrictions hold") +
                    " only at certain times and is left out"});
  if (counts.restrictions_unclear + raw.unknown_restrictions > 0)
    warnings.push_back({where, counted(counts.restrictions_unclear + raw.unknown_restrictions, "turn restriction was",
                                       "turn restrictions were") +
                                   " left out: the roads named do not join as they should"});
  static_cast<void>(off_map);  // a junction that no car reaches needs no restriction
  tell(progress, "joining roads", 1.0);
  return LoadedRoads{std::move(*graph), std::move(warnings), false, {}};
}

}  // namespace outbye
