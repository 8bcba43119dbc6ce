#include "core/load/load_arrange.h"

#include <algorithm>
#include <array>
#include <utility>

namespace outbye {
namespace {

using Vec = std::array<Millimetres, 3>;

struct Piece {
  std::vector<Vec> sizes;  // still possible; one: decided
  Vec least{};             // of them, axis by axis
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
      decide(piece, {{box.size.length, box.size.width, box.size.height}});
      piece.is_fixed = true;
      piece.at = {box.at.x, box.at.y, box.at.z};
      piece.top = whole_[2];
      pieces_.push_back(piece);
    }
    for (const LoadItemId id : items) {
      const LoadItem& item = at(task.items, id);
      Piece piece;
      piece.top = height_limit(space, item);
      // What is over a thing that must be reached in no moves would have to be moved.
      piece.bears_nothing = item.is_fragile || item.bears.value <= 0.0 || moves_allowed(task, item) == 0;
      std::vector<Vec> sizes;
      for (const LoadSize& size : stances(item)) {
        if (size.length <= whole_[0] && size.width <= whole_[1] && size.height <= piece.top) {
          sizes.push_back({size.length, size.width, size.height});
        }
      }
      decide(piece, std::move(sizes));
      pieces_.push_back(piece);
    }
  }

  Arrangement run() { return branch(); }

 private:
  static Millimetres least(const Piece& piece, std::size_t axis) { return piece.least[axis]; }
  static void decide(Piece& piece, std::vector<Vec> sizes) {
    piece.sizes = std::move(sizes);
    piece.least = piece.sizes[0];
    for (const Vec& size : piece.sizes) {
      for (std::size_t axis = 0; axis < 3; ++axis) piece.least[axis] = std::min(piece.least[axis], size[axis]);
    }
  }

  Millimetres end(const Piece& piece, std::size_t axis) const { return axis == 2 ? piece.top : whole_[axis]; }

  // Least and greatest coordinates under the arcs; false when they leave some piece no place.
  bool settle() {
    at_.assign(pieces_.size(), Vec{});
    late_.assign(pieces_.size(), Vec{});
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      const Piece& piece = pieces_[i];
      for (std::size_t axis = 0; axis < 3; ++axis) {
        at_[i][axis] = piece.is_fixed ? piece.at[axis] : 0;
        late_[i][axis] = piece.is_fixed ? piece.at[axis] : end(piece, axis) - least(piece, axis);
      }
    }
    for (bool changed = true; changed;) {
      changed = false;
      for (const Arc& arc : arcs_) {
        const Millimetres length = least(pieces_[arc.from], arc.axis);
        Millimetres& after = at_[arc.to][arc.axis];
        Millimetres& before = late_[arc.from][arc.axis];
        if (at_[arc.from][arc.axis] + length > after) {
          after = at_[arc.from][arc.axis] + length;
          changed = true;
        }
        if (late_[arc.to][arc.axis] - length < before) {
          before = late_[arc.to][arc.axis] - length;
          changed = true;
        }
        if (after > late_[arc.to][arc.axis] || at_[arc.from][arc.axis] > before) return false;
      }
    }
    return true;
  }

  bool can_precede(std::size_t a, std::size_t b, std::size_t axis) const {
    if (axis == 2 && pieces_[a].bears_nothing) return false;
    return at_[a][axis] + least(pieces_[a], axis) <= late_[b][axis];
  }

  // Of the pairs that overlap at their least coordinates, the one with the fewest ways to part them. Any pair without a
  // way ends the branch.
  bool pick_pair(std::size_t& a, std::size_t& b, bool& is_hopeless) const {
    int fewest = 7;
    double most = 0.0;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (pieces_[i].is_fixed && pieces_[j].is_fixed) continue;
        int ways = 0;
        double volume = 1.0;
        for (std::size_t axis = 0; axis < 3; ++axis) {
          ways += (can_precede(i, j, axis) ? 1 : 0) + (can_precede(j, i, axis) ? 1 : 0);
          const Millimetres from = std::max(at_[i][axis], at_[j][axis]);
          const Millimetres to =
              std::min(at_[i][axis] + least(pieces_[i], axis), at_[j][axis] + least(pieces_[j], axis));
          volume *= std::max(0, to - from);
        }
        is_hopeless = ways == 0;
        if (is_hopeless) return false;
        if (volume > 0.0 && (ways < fewest || (ways == fewest && volume > most))) {
          fewest = ways;
          most = volume;
          a = j;
          b = i;
        }
      }
    }
    return fewest < 7;
  }

  Arrangement branch() {
    if (nodes_left_ == 0 || !work_.spend()) return Arrangement::unknown;
    --nodes_left_;
    if (!settle()) return Arrangement::none;
    std::size_t a = 0;
    std::size_t b = 0;
    bool is_hopeless = false;
    if (!pick_pair(a, b, is_hopeless)) return is_hopeless ? Arrangement::none : branch_on_stance();
    std::array<bool, 6> may{};
    for (std::size_t way = 0; way < 6; ++way) {
      may[way] = way % 2 == 0 ? can_precede(a, b, way / 2) : can_precede(b, a, way / 2);
    }
    bool is_open = false;
    for (const std::size_t way : {4U, 5U, 0U, 1U, 2U, 3U}) {
      if (!may[way]) continue;
      arcs_.push_back(way % 2 == 0 ? Arc{a, b, way / 2} : Arc{b, a, way / 2});
      const Arrangement below = branch();
      arcs_.pop_back();
      if (below == Arrangement::exists) return below;
      if (below == Arrangement::unknown) is_open = true;
      if (is_open && (nodes_left_ == 0 || work_.is_over)) return Arrangement::unknown;
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
      decide(pieces_[i], {size});
      const Arrangement below = branch();
      if (below == Arrangement::exists) {
        decide(pieces_[i], sizes);
        return below;
      }
      if (below == Arrangement::unknown) is_open = true;
    }
    decide(pieces_[i], sizes);
    return is_open ? Arrangement::unknown : Arrangement::none;
  }

  LoadWork& work_;
  std::size_t nodes_left_;
  Vec whole_{};
  std::vector<Piece> pieces_;
  std::vector<Arc> arcs_;
  std::vector<Vec> at_;    // least coordinates
  std::vector<Vec> late_;  // greatest
};

}  // namespace

Arrangement arrange(const LoadTask& task, LoadSpaceId space, const std::vector<LoadItemId>& items,
                    std::size_t most_nodes, LoadWork& work) {
  return Search(task, space, items, most_nodes, work).run();
}

}  // namespace outbye
