// From points and ways, already interpreted, to a road graph. Nodes of the graph arise only at junctions, ends and
// closed barriers; the geometry between them is kept. Lengths are WGS84 to 1e-6 or better (pieces under 10 km).
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/base/result.h"
#include "core/roads/road_graph.h"
#include "core/roads/road_rules.h"

namespace outbye {

// A turn restriction as mapped: from one way over a point or over other ways to a third.
struct TurnRestriction {
  RestrictionTag::Kind kind{};
  std::int64_t from{};                     // way id
  std::int64_t to{};                       // way id
  std::optional<std::uint32_t> via_point;  // index of a point, or
  std::vector<std::int64_t> via_ways;      // way ids in the order driven
};

struct RoadBuildCounts {
  std::uint32_t restrictions_used{};
  std::uint32_t restrictions_off_map{};  // a way of it is not on the map or not for cars
  std::uint32_t restrictions_unclear{};  // its ways do not join as they should
  std::uint32_t pieces_cut{};            // ways cut where a point is missing
};

class RoadBuilder {
 public:
  // Points are numbered from 0 in the order added.
  std::uint32_t add_point(FixedPosition position) {
    points_.push_back(position);
    return static_cast<std::uint32_t>(points_.size() - 1);
  }
  std::uint32_t add_point(Position position) { return add_point(fixed_position(position)); }
  void set_points(std::vector<FixedPosition> points) { points_ = std::move(points); }

  // Nothing drives through a blocked point; a gate is noted on its edges. Any time before build().
  void block(std::uint32_t point) { blocked_.push_back(point); }
  void mark_gate(std::uint32_t point) { gates_.push_back(point); }

  // The number of a name for add_way; 0 for the empty name.
  std::uint32_t name(std::string_view text);

  void add_pump(RoadPump pump) { pumps_.push_back(pump); }

  // Ids are unique, ascending or not; points may be added later; `no_road_index` stands for a point that is not on
  // the map: the way is cut there.
  void add_way(std::int64_t id, std::span<const std::uint32_t> points, const RoadAttributes& attributes,
               std::uint32_t name);
  void add_restriction(TurnRestriction restriction) { restrictions_.push_back(std::move(restriction)); }

  std::size_t way_count() const { return ways_.size(); }
  // Errors: not_found when no way can be driven.
  Result<RoadGraph> build();
  // After build().
  const RoadBuildCounts& counts() const { return counts_; }

 private:
  struct Way {
    std::int64_t id{};
    std::uint32_t first_point{};  // in way_points_
    std::uint32_t name{};
    RoadAttributes attributes;
  };
  std::vector<std::uint32_t> make_edges(RoadGraphParts& parts);  // the node at each point
  void restrict_turns(RoadGraphParts& parts, const std::vector<std::uint32_t>& node_of_point);

  std::vector<FixedPosition> points_;
  std::vector<std::uint32_t> blocked_, gates_;
  std::vector<RoadPump> pumps_;
  std::vector<Way> ways_;
  std::vector<std::uint32_t> way_points_;
  std::vector<std::uint32_t> way_edges_;  // first edge of each way, and one more
  std::vector<TurnRestriction> restrictions_;
  std::vector<std::uint32_t> name_first_{0, 0};
  std::string names_;
  std::unordered_map<std::string, std::uint32_t> name_numbers_;  // never iterated
  RoadBuildCounts counts_;
};

}  // namespace outbye
