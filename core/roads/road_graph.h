// The drivable road network as a compact directed graph, with turn restrictions, ready to route.
// Built once from ways (road_builder.h) or read back from a cache (road_store.h), then read-only.
//
// An edge is a piece of road between two nodes (junctions, ends, barriers) with its geometry; an arc is an edge in one
// of the directions a car may drive it. Turn restrictions are part of the graph: a drive is always in a state, which is
// a node, or a node together with the arcs of a restriction driven so far (a "copy" of the node). The arcs out of a
// copy lack the forbidden one, so the shortest path through states keeps every restriction (Aho and Corasick's pattern
// automaton, Comm. ACM 18 (1975) 333-340, over arcs in place of letters).
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/index.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/geo/position.h"
#include "core/roads/road_class.h"

namespace outbye {

inline constexpr std::uint32_t no_road_index = std::numeric_limits<std::uint32_t>::max();

struct RoadEdge {
  enum Flag : std::uint8_t {
    roundabout = 1,
    destination_only = 2,  // access for those with business there
    ford = 4,
    joined = 8,  // both ends can reach, and be reached from, the bulk of the network
    gate = 16,   // a gate or the like at the head or tail
  };
  std::uint32_t tail{};
  std::uint32_t head{};
  std::uint32_t geometry{};  // first point; the points run to the next edge's first and include both ends
  std::uint32_t name{};      // 0: none
  double metres{};           // over the ground, WGS84
  double forward{std::numeric_limits<double>::infinity()};   // seconds from tail to head; infinite: not allowed
  double backward{std::numeric_limits<double>::infinity()};  // seconds from head to tail; infinite: not allowed
  RoadClass road_class{};
  std::uint8_t flags{};
  std::uint16_t unused{};  // no hidden bytes: edges are stored as they lie in memory
  std::uint32_t unused_too{};
  std::uint32_t arcs[2]{no_road_index, no_road_index};  // forward, backward: an index into `arcs` below
};

static_assert(sizeof(RoadEdge) == 56);

struct RoadArc {
  std::uint32_t head{};  // a state
  std::uint32_t link{};  // 2 * edge, + 1 when driven from head to tail
  double seconds{};
  double metres{};
};

// Where fuel is sold, as mapped.
struct RoadPump {
  FixedPosition position;
  std::uint32_t name{};  // 0: none
};

// A grid of cells over the roads: which edges touch a cell. For snapping.
struct RoadGrid {
  FixedPosition low, high;
  std::uint32_t rows{};
  std::uint32_t columns{};
  std::vector<std::uint32_t> first;  // rows * columns + 1
  std::vector<std::uint32_t> edges;
};

// Plain data, as stored. RoadGraph::from_parts checks that it hangs together.
struct RoadGraphParts {
  std::vector<FixedPosition> nodes;
  std::vector<RoadEdge> edges;
  std::vector<FixedPosition> geometry;
  std::vector<std::uint32_t> name_first{0};  // where each name starts in `names`; one more than there are names
  std::string names;
  std::vector<std::uint32_t> state_first;  // arcs of state s: state_first[s] .. state_first[s + 1]
  std::vector<std::uint32_t> copy_of;      // the node of state nodes.size() + i
  std::vector<RoadArc> arcs;               // those of the nodes first
  // Per node in a dead-end branch without turn restrictions: the next node on the way out, else no_road_index. Only a
  // drive that starts or stops in such a branch enters it.
  std::vector<std::uint32_t> way_out;
  RoadGrid grid;
  std::uint32_t restrictions{};  // turn restrictions in force
  std::vector<RoadPump> pumps;
};

class RoadGraph {
 public:
  // Errors: bad_input when an index points outside (a damaged cache).
  static Result<RoadGraph> from_parts(RoadGraphParts parts);

  const RoadGraphParts& parts() const { return parts_; }
  std::size_t node_count() const { return parts_.nodes.size(); }
  std::size_t edge_count() const { return parts_.edges.size(); }
  std::size_t restriction_count() const { return parts_.restrictions; }
  const std::vector<RoadEdge>& edges() const { return parts_.edges; }
  Position node_position(std::uint32_t node) const { return position_of(parts_.nodes[node]); }

  const std::vector<RoadPump>& pumps() const { return parts_.pumps; }
  std::string_view name_of(const RoadPump& pump) const;  // empty when it has none

  // From tail to head, at least two points.
  std::vector<Position> geometry(std::uint32_t edge) const;
  // "Mill Lane (B640)", "A606"; empty when the road has neither name nor number.
  std::string_view name(std::uint32_t edge) const;
  // The name, or "unnamed service road".
  std::string label(std::uint32_t edge) const;

  struct Box {
    Position south_west, north_east;
  };
  // Where the roads are: the ends of minor roads, less the outermost half per cent on each side. A map's own header
  // may be nonsense, and main roads may run far out of an extract as part of a whole route. Ends, not bends, so a road
  // may bulge out of it. Sorts: not for inner loops.
  Box box() const;
  // Length of all edges; an edge with two directions counts once.
  Metres total_length() const;

 private:
  friend class RoadBuilder;
  std::string_view name_numbered(std::uint32_t name) const;
  explicit RoadGraph(RoadGraphParts parts) : parts_(std::move(parts)) {}
  RoadGraphParts parts_;
};

}  // namespace outbye
