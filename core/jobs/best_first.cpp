#include "core/jobs/best_first.h"

#include <algorithm>
#include <bit>

namespace outbye {
BestFirst::BestFirst(const StepModel& model) : model_(model), layers_(model.tasks.size()) {
  Node root;
  root.bound = model.bound;
  nodes_.push_back(root);
  layers_.front().push_back({model.bound, 0, 0});
  bound_ = model.bound;
  family_.work.resize(model.limits.size() * most_tasks);
  std::uint32_t sets = 0;
  for (const StepTask& task : model.tasks) {
    for (const StepWay& way : task.ways) sets |= 1U << way.people;
  }
  for (std::size_t set = 1; set < people_sets; ++set) {
    if ((sets >> set) & 1U) sets_.push_back(static_cast<PeopleSet>(set));
  }
}

bool BestFirst::run(std::uint64_t nodes, std::int32_t& end, std::vector<StepStart>& starts) {
  const std::uint64_t until = made_ + nodes;
  while (made_ < until) {
    // The next layer that has a state with the least bound.
    std::size_t tried = 0;
    for (; tried < layers_.size(); ++tried, layer_ = (layer_ + 1) % layers_.size()) {
      auto& open = layers_[layer_];
      while (!open.empty() &&
             (nodes_[static_cast<std::size_t>(open.front().node)].is_beaten || open.front().bound >= end)) {
        std::pop_heap(open.begin(), open.end());
        open.pop_back();
      }
      if (!open.empty() && open.front().bound <= bound_) break;
    }
    if (tried == layers_.size()) {
      std::int32_t least = end;
      for (const auto& open : layers_) {
        if (!open.empty()) least = std::min(least, open.front().bound);
      }
      bound_ = least;
      if (bound_ >= end) return false;
      continue;
    }
    auto& open = layers_[layer_];
    const std::int32_t node = open.front().node;
    std::pop_heap(open.begin(), open.end());
    open.pop_back();
    layer_ = (layer_ + 1) % layers_.size();
    expand(node, end);
    if (found_ >= 0) {
      end = nodes_[static_cast<std::size_t>(found_)].bound;
      starts = starts_of(found_);
      found_ = -1;
      return true;
    }
  }
  return false;
}

void BestFirst::expand(std::int32_t parent, std::int32_t end) {
  meet(parent);
  struct Start {
    const StepWay* way;
    std::int32_t start;
    std::uint8_t task, index;
  };
  std::array<Start, most_tasks * 16> list;
  std::size_t count = 0;
  std::int32_t first_end = INT32_MAX;
  std::size_t first = 0;
  {
    const StepState& state = nodes_[static_cast<std::size_t>(parent)].state;
    std::array<std::int32_t, people_sets> last_free{};
    for (std::size_t set = 1; set < (std::size_t{1} << model_.helpers); ++set) {
      last_free[set] =
          std::max(last_free[set & (set - 1)], state.free[static_cast<std::size_t>(std::countr_zero(set))]);
    }
    for (std::size_t k = 0; k < family_.left_count; ++k) {
      const std::size_t task = family_.left[k];
      const StepTask& what = model_.tasks[task];
      if ((what.before & ~state.done) != 0) continue;
      for (std::size_t way = 0; way < what.ways.size(); ++way) {
        const std::int32_t start = std::max(family_.ready[task], last_free[what.ways[way].people]);
        const std::int32_t finish = start + what.ways[way].duration;
        if (finish < first_end) {
          first_end = finish;
          first = count;
        }
        list[count++] = {&what.ways[way], start, static_cast<std::uint8_t>(task), static_cast<std::uint8_t>(way)};
      }
    }
  }
  for (std::size_t k = 0; k < count; ++k) {
    const Start& one = list[k];
    if (one.start >= first_end && k != first) continue;
    ++made_;
    if (one.start + one.way->duration + model_.tasks[one.task].tail >= end) continue;
    Node child;
    std::uint32_t open = 0;
    if (!begin(one.task, one.index, one.start, end, child, open)) continue;
    keep(child, open);
    if (found_ >= 0) end = std::min(end, nodes_[static_cast<std::size_t>(found_)].bound);
  }
}

// Keeps the state unless another one with the same tasks done is nowhere later, and drops those that it beats.
void BestFirst::keep(Node& child, std::uint32_t open) {
  // Helpers that can stand in for each other in all that is left are told apart by when they are free alone: earliest
  // first.
  for (std::size_t a = 0; a < model_.helpers; ++a) {
    for (std::size_t b = a + 1; b < model_.helpers; ++b) {
      if (child.state.free[b] < child.state.free[a] && (model_.differ[a][b] & ~child.state.done) == 0) {
        std::swap(child.state.free[a], child.state.free[b]);
        std::swap(child.from[a], child.from[b]);
      }
    }
  }
  std::int32_t& bucket = heads_[child.state.done];
  if (bucket < 0) {
    bucket = static_cast<std::int32_t>(buckets_.size());
    buckets_.emplace_back();
  }
  std::vector<Mark>& marks = buckets_[static_cast<std::size_t>(bucket)];
  const Mark mark{child.state.free, child.state.latest, child.bound, static_cast<std::int32_t>(nodes_.size())};
  const auto beats = [&](const Mark& a, const Mark& b, const StepState& of_a, const StepState& of_b) {
    if (a.latest > b.bound) return false;
    for (std::uint32_t rest = open; rest != 0; rest &= rest - 1) {
      const auto i = static_cast<std::size_t>(std::countr_zero(rest));
      if (of_a.finish[i] > of_b.finish[i]) return false;
    }
    return of_a.now <= of_b.now;
  };
  for (std::size_t k = 0; k < marks.size();) {
    const Mark& other = marks[k];
    bool is_first = true, is_second = true;  // who is free no later than the other
    for (std::size_t h = 0; h < most_helpers; ++h) {
      is_first = is_first && other.free[h] <= mark.free[h];
      is_second = is_second && mark.free[h] <= other.free[h];
    }
    if (is_first || is_second) {
      Node& node = nodes_[static_cast<std::size_t>(other.node)];
      if (is_first && beats(other, mark, node.state, child.state)) return;
      if (is_second && beats(mark, other, child.state, node.state)) {
        node.is_beaten = true;
        marks[k] = marks.back();
        marks.pop_back();
        continue;
      }
    }
    ++k;
  }
  marks.push_back(mark);
  for (std::size_t h = 0; h < model_.helpers; ++h) child.load += child.state.free[h];
  for (std::size_t i = 0; i < model_.tasks.size(); ++i) {
    if (!((child.state.done >> i) & 1U)) child.load += model_.tasks[i].need[people_sets - 1] + model_.tasks[i].awkward;
  }
  const std::int32_t index = mark.node;
  const auto layer = static_cast<std::size_t>(std::popcount(child.state.done));
  if (layer == model_.tasks.size()) {
    if (found_ < 0 || child.bound < nodes_[static_cast<std::size_t>(found_)].bound) found_ = index;
  } else {
    layers_[layer].push_back({child.bound, child.load, index});
    std::push_heap(layers_[layer].begin(), layers_[layer].end());
  }
  nodes_.push_back(child);
}

std::vector<StepStart> BestFirst::starts_of(std::int32_t node) const {
  std::vector<StepMove> moves;
  for (; node > 0; node = nodes_[static_cast<std::size_t>(node)].parent) {
    const Node& step = nodes_[static_cast<std::size_t>(node)];
    moves.push_back({step.task, step.way, step.from});
  }
  std::reverse(moves.begin(), moves.end());
  return starts_along(model_, moves);
}

}  // namespace outbye
