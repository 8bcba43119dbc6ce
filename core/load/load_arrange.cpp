#include "core/load/load_arrange.h"

#include <algorithm>
#include <array>

namespace outbye {
namespace {

using Vec = std::array<Millimetres, 3>;

struct Piece {
  std::vector<Vec> sizes;  // still possible; one: decided
  Millimetres top{};       // may not reach higher
  bool bears_nothing{false};
  bool is_fixed{false};  // a blocked box
  Vec at{};              // where, if fixed
};

struct Arc {
  std::size_t from{};
  std::size_t to{};  // lies after `from` along `axis`
  std::size_t axis{};
};

class Search {
 public:
  Search(const LoadTask& task, LoadSpaceId space_id, const std::vector<LoadItemId>& items, std::size_t most_nodes,
         LoadWork& work)
      : work_(work), nodes_left_(most_nodes) {
    const LoadSpace& space = at(task.spaces, space_id);
    whole_ = {space.size.length, space.size.width, space.size.height};
    for (const LoadBox& box : space.blocked) {
      Piece piece;
      piece.sizes = {{box.size.length, box.size.width, box.size.height}};
      piece.is_fixed = true;
      piece.at = {box.at.x, box.at.y, box.at.z};
      piece.top = whole_[2];
      pieces_.push_back(piece);
    }
    for (const LoadItemId id : items) {
      const LoadItem& item = at(task.items, id);
      Piece piece;
      piece.top = height_limit(space, item);
      piece.bears_nothing = item.is_fragile || item.bears.value <= 0.0;
      for (const LoadSize& size : stances(item)) {
        if (size.length <= whole_[0] && size.width <= whole_[1] && size.height <= piece.top) {
          piece.sizes.push_back({size.length, size.width, size.height});
        }
      }
      pieces_.push_back(piece);
    }
  }

  Arrangement run() { return branch(); }

 private:
  static Millimetres least(const Piece& piece, std::size_t axis) {
    Millimetres value = piece.sizes[0][axis];
    for (const Vec& size : piece.sizes) value = std::min(value, size[axis]);
    return value;
  }

  // Least coordinates under the arcs; false when something would stick out or a fixed box would have to move.
  bool settle() {
    at_.assign(pieces_.size(), Vec{});
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (pieces_[i].is_fixed) at_[i] = pieces_[i].at;
    }
    for (std::size_t round = 0;; ++round) {
      bool changed = false;
      for (const Arc& arc : arcs_) {
        const Millimetres after = at_[arc.from][arc.axis] + least(pieces_[arc.from], arc.axis);
        if (after > at_[arc.to][arc.axis]) {
          if (pieces_[arc.to].is_fixed) return false;
          at_[arc.to][arc.axis] = after;
          const Millimetres end = arc.axis == 2 ? pieces_[arc.to].top : whole_[arc.axis];
          if (after + least(pieces_[arc.to], arc.axis) > end) return false;
          changed = true;
        }
      }
      if (!changed) return true;
      if (round > pieces_.size()) return false;  // a ring of arcs
    }
  }

  Arrangement branch() {
    if (nodes_left_ == 0 || !work_.spend()) return Arrangement::unknown;
    --nodes_left_;
    if (!settle()) return Arrangement::none;
    // The pair that overlaps most is the hardest to part.
    std::size_t a = 0;
    std::size_t b = 0;
    double most = 0.0;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (pieces_[i].is_fixed && pieces_[j].is_fixed) continue;
        double volume = 1.0;
        for (std::size_t axis = 0; axis < 3; ++axis) {
          const Millimetres from = std::max(at_[i][axis], at_[j][axis]);
          const Millimetres to =
              std::min(at_[i][axis] + least(pieces_[i], axis), at_[j][axis] + least(pieces_[j], axis));
          volume *= std::max(0, to - from);
        }
        if (volume > most) {
          most = volume;
          a = j;
          b = i;
        }
      }
    }
    if (most <= 0.0) return branch_on_stance();
    bool is_open = false;
    for (const std::size_t axis : {std::size_t{2}, std::size_t{0}, std::size_t{1}}) {
      for (const bool turned : {false, true}) {
        const std::size_t first = turned ? b : a;
        const std::size_t second = turned ? a : b;
        if (axis == 2 && pieces_[first].bears_nothing) continue;
        arcs_.push_back({first, second, axis});
        const Arrangement below = branch();
        arcs_.pop_back();
        if (below == Arrangement::exists) return below;
        if (below == Arrangement::unknown) is_open = true;
        if (is_open && (nodes_left_ == 0 || work_.is_over)) return Arrangement::unknown;
      }
    }
    return is_open ? Arrangement::unknown : Arrangement::none;
  }

  // Nothing overlaps at the least sizes: decide how the next thing stands. Its true sizes may overlap again.
  Arrangement branch_on_stance() {
    std::size_t i = 0;
    while (i < pieces_.size() && pieces_[i].sizes.size() == 1) ++i;
    if (i == pieces_.size()) return Arrangement::exists;
    const std::vector<Vec> sizes = pieces_[i].sizes;
    bool is_open = false;
    for (const Vec& size : sizes) {
      pieces_[i].sizes = {size};
      const Arrangement below = branch();
      if (below == Arrangement::exists) {
        pieces_[i].sizes = sizes;
        return below;
      }
      if (below == Arrangement::unknown) is_open = true;
    }
    pieces_[i].sizes = sizes;
    return is_open ? Arrangement::unknown : Arrangement::none;
  }

  LoadWork& work_;
  std::size_t nodes_left_;
  Vec whole_{};
  std::vector<Piece> pieces_;
  std::vector<Arc> arcs_;
  std::vector<Vec> at_;
};

}  // namespace

Arrangement arrange(const LoadTask& task, LoadSpaceId space, const std::vector<LoadItemId>& items,
                    std::size_t most_nodes, LoadWork& work) {
  return Search(task, space, items, most_nodes, work).run();
}

}  // namespace outbye
