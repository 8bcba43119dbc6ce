// Where the nodes of an extract are, by id.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "formats/map_tiles/world.h"

namespace outbye {

class NodePlaces {
 public:
  void add(std::int64_t id, WorldPoint at) {
    is_sorted_ = is_sorted_ && (nodes_.empty() || nodes_.back().id < id);
    nodes_.push_back({id, at});
  }
  // To be called once between adding and asking. Of nodes given twice, the first counts.
  void sort() {
    if (is_sorted_) return;
    std::stable_sort(nodes_.begin(), nodes_.end(), [](const Node& a, const Node& b) { return a.id < b.id; });
    is_sorted_ = true;
  }
  std::optional<WorldPoint> find(std::int64_t id) {
    // Nodes of a way were mostly made one after the other: look beside the last answer first.
    if (hint_ + 1 < nodes_.size() && nodes_[hint_ + 1].id == id) return nodes_[++hint_].at;
    const auto at = std::lower_bound(nodes_.begin(), nodes_.end(), id,
                                     [](const Node& node, std::int64_t wanted) { return node.id < wanted; });
    if (at == nodes_.end() || at->id != id) return std::nullopt;
    hint_ = static_cast<std::size_t>(at - nodes_.begin());
    return at->at;
  }
  bool empty() const { return nodes_.empty(); }

 private:
  struct Node {
    std::int64_t id{};
    WorldPoint at;
  };
  std::vector<Node> nodes_;
  std::size_t hint_{};
  bool is_sorted_{true};
};

}  // namespace outbye
