// Fastest drives from one place to many. Used by route.cpp and drive_table.cpp.
//
// Dijkstra's method over the states of the graph, stopped when every target is settled. A car must not turn back on
// the road it came by (except at a dead end), so the way to reach a state fastest may not be the way to go on from it.
// Each state therefore keeps two ways: the fastest, and the fastest over another road. Both are enough: only going back
// over the road of the first is closed to it, and open to the second. Exact.
//
// The second way is driven only where it can pay. Going back from a state leads to the state behind it. If that one was
// settled before, and going back from it in turn cannot pay, nor can going back from here. Without turn restrictions
// this goes on down to the start, so that second ways are driven only in the surroundings of a restriction.
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
  struct Way {  // to a state
    double seconds{};
    double metres{};
    std::uint32_t before{};  // item it came from; no_road_index: the start
    std::uint32_t link{};    // driven to get here
  };
  struct alignas(64) Label {  // a cache line
    Way ways[2];              // the fastest, and the fastest over another link
    std::uint32_t round{};    // of the search that wrote it
    // Once settled: the first state on the way back whose own state behind it is not settled; no_road_index: none.
    std::uint32_t waits_at{};
    bool is_settled[2]{};
  };
  // An item is 2 * state, + 1 for the second way to it.
  struct Queued {
    double seconds;
    std::uint32_t item;
  };
  struct Arrival {  // best way found to a target
    double seconds;
    double metres;
    std::uint32_t before{no_road_index};  // item the target was reached from; no_road_index: straight along the edge
    std::uint32_t link{};
  };
  void search(const Snap& from, bool may_turn_back);
  void begin();
  void straight_along(const Snap& from);
  void reach(std::uint32_t state, const Way& way);
  void settle(std::uint32_t state, bool may_turn_back);
  void go_back(std::uint32_t state);
  void arrive(std::uint32_t state, bool may_turn_back);
  bool is_settled(std::uint32_t state) const { return labels_[state].round == round_ && labels_[state].is_settled[0]; }
  std::uint32_t arc_back(std::uint32_t state) const;
  std::uint32_t settled_behind(std::uint32_t arc) const;
  bool may_pay_to_go_back(std::uint32_t state);
  std::uint32_t node_of(std::uint32_t state) const {
    return state < parts_.nodes.size() ? state : parts_.copy_of[state - parts_.nodes.size()];
  }
  bool is_dead_end(std::uint32_t node) const { return parts_.state_first[node + 1] - parts_.state_first[node] == 1; }
  void push(Queued entry);
  Queued pop();
  bool is_done(double seconds) const;
  FoundDrive collect(const Arrival& arrival, bool with_links) const;

  const RoadGraphParts& parts_;
  std::vector<Label> labels_;  // by state
  std::uint32_t round_{};
  std::vector<Queued> queue_;
  std::vector<std::uint32_t> passed_;  // by may_pay_to_go_back
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
