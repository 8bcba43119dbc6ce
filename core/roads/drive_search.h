// Fastest drives from one place to many. Used by route.cpp and drive_table.cpp.
//
// Dijkstra's method over the states of the graph, stopped when every target is settled. Over states alone a car may
// turn back on the spot, which is never worth while except to get round a turn restriction. So a drive found that way
// is the answer unless it turns back; then the search is done again over arcs, where turning back can be forbidden
// (except at a dead end). Exact in both cases.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "core/roads/road_graph.h"
#include "core/roads/route.h"

namespace outbye {

struct FoundDrive {
  double seconds{};
  double metres{};
  std::vector<std::uint32_t> links;  // edges with direction, first and last only in part; empty unless asked for
};

class DriveSearch {
 public:
  explicit DriveSearch(const RoadGraph& roads);

  // Fastest drives from `from` to each of `to`; nothing where there is no way.
  std::vector<std::optional<FoundDrive>> find(const Snap& from, std::span<const Snap> to, bool with_links);

  // The targets of the following calls of find_marked(), each marked on the graph once.
  void set_targets(std::span<const Snap> to);
  std::vector<std::optional<FoundDrive>> find_marked(const Snap& from, bool with_links);

 private:
  struct Label {
    double seconds{};
    double metres{};
    std::uint32_t round{};   // of the search that wrote it
    std::uint32_t before{};  // state (or arc) it was reached from; no_road_index: the start
    std::uint32_t link{};    // driven to get here
    bool is_settled{};
    bool turns_back{};
  };
  struct Queued {
    double seconds;
    std::uint32_t item;
  };
  struct Arrival {  // best way found to a target
    double seconds;
    double metres;
    std::uint32_t before{no_road_index};  // label the target was reached from; no_road_index: straight along the edge
    std::uint32_t link{};
    bool turns_back{};
  };
  void search_states(const Snap& from);
  void search_arcs(const Snap& from);
  void begin(std::size_t labels);
  void straight_along(const Snap& from);
  void reach(std::uint32_t item, double seconds, double metres, std::uint32_t before, std::uint32_t link,
             bool turns_back);
  void arrive(std::uint32_t state, std::uint32_t item, const Label& label, bool may_turn_back);
  std::uint32_t node_of(std::uint32_t state) const {
    return state < parts_.nodes.size() ? state : parts_.copy_of[state - parts_.nodes.size()];
  }
  bool is_dead_end(std::uint32_t node) const { return parts_.state_first[node + 1] - parts_.state_first[node] == 1; }
  void push(Queued entry);
  Queued pop();
  bool is_done(double seconds) const;
  FoundDrive collect(const Arrival& arrival, bool with_links) const;

  const RoadGraphParts& parts_;
  std::vector<Label> labels_;
  std::uint32_t round_{};
  std::vector<Queued> queue_;
  std::vector<Snap> targets_;
  std::vector<std::uint32_t> target_order_;    // targets sorted by edge
  std::vector<std::uint8_t> has_target_;       // per node: a target lies on an edge that starts or ends here
  std::vector<std::uint8_t> leads_to_target_;  // per node: in a dead-end branch that must be entered
  std::vector<std::uint32_t> marked_;          // nodes to unmark
  std::vector<std::uint8_t> wanted_;           // per target: looked for in this search
  std::vector<Arrival> arrivals_;
  std::size_t missing_{};
  double latest_{};
};

}  // namespace outbye
