#include "core/jobs/step_pass.h"

#include <algorithm>

#include "core/jobs/mask_table.h"

namespace outbye {
namespace {

struct Node {
  StepState state;
  std::int32_t bound{};
  std::int32_t load{};     // free times and the work still to do: the less, the less was idled away
  std::int32_t parent{};   // in the layer before
  std::int32_t sibling{};  // the next node with the same tasks done; -1: none
  std::uint8_t task{};
  std::uint8_t way{};
  bool is_beaten{};
  Places from{0, 1, 2, 3};  // helper h of this node is helper from[h] of the parent
};

// What a node needs once its layer is left.
struct Trail {
  std::int32_t parent;
  std::uint8_t task;
  std::uint8_t way;
  Places from;
};

// Helpers that can stand in for each other in all that is left are told apart by when they are free alone: earliest
// first.
void sort_alike(const StepModel& model, Node& node) {
  for (std::size_t a = 0; a < model.helpers; ++a) {
    for (std::size_t b = a + 1; b < model.helpers; ++b) {
      if (node.state.free[b] < node.state.free[a] && (model.differ[a][b] & ~node.state.done) == 0) {
        std::swap(node.state.free[a], node.state.free[b]);
        std::swap(node.from[a], node.from[b]);
      }
    }
  }
}

class Pass {
 public:
  Pass(const StepModel& model, const PassLimits& limits) : model_(model), limits_(limits) {}

  PassAnswer run() {
    PassAnswer answer;
    Node root;
    root.parent = -1;
    layer_ = {root};
    answer.is_complete = true;
    for (std::size_t k = 0; k < model_.tasks.size() && !layer_.empty(); ++k) {
      next_.clear();
      MaskTable heads;
      for (std::size_t i = 0; i < layer_.size(); ++i) {
        if (answer.nodes >= limits_.nodes) {
          answer.is_complete = false;
          return answer;
        }
        expand(static_cast<std::int32_t>(i), heads, answer);
      }
      answer.is_complete = cut() && answer.is_complete;
      std::vector<Trail> trail;
      trail.reserve(next_.size());
      for (const Node& node : next_) trail.push_back({node.parent, node.task, node.way, node.from});
      trails_.push_back(std::move(trail));
      layer_.swap(next_);
    }
    if (!layer_.empty()) keep(answer);
    return answer;
  }

 private:
  void expand(std::int32_t parent, MaskTable& heads, PassAnswer& answer) {
    const Node& node = layer_[static_cast<std::size_t>(parent)];
    // The task that can be done first of all. A schedule that starts nothing before that end could have done this task
    // in between, so only tasks that start before it are tried.
    std::int32_t first_end = INT32_MAX;
    std::size_t first_task = 0, first_way = 0;
    for_each_start(node.state, [&](std::size_t task, std::size_t way, std::int32_t start) {
      const std::int32_t end = start + model_.tasks[task].ways[way].duration;
      if (end >= first_end) return;
      first_end = end;
      first_task = task;
      first_way = way;
    });
    for_each_start(node.state, [&](std::size_t task, std::size_t way, std::int32_t start) {
      if (start < first_end || (task == first_task && way == first_way)) add(node, parent, task, way, heads, answer);
    });
  }

  template <class Visit>
  void for_each_start(const StepState& state, const Visit& visit) const {
    for (std::size_t task = 0; task < model_.tasks.size(); ++task) {
      const StepTask& what = model_.tasks[task];
      if (((state.done >> task) & 1U) || (what.before & ~state.done) != 0) continue;
      for (std::size_t way = 0; way < what.ways.size(); ++way) {
        visit(task, way, earliest(model_, state, task, what.ways[way].people));
      }
    }
  }

  void add(const Node& parent, std::int32_t parent_index, std::size_t task, std::size_t way, MaskTable& heads,
           PassAnswer& answer) {
    ++answer.nodes;
    Node child;
    child.state = started(model_, parent.state, task, model_.tasks[task].ways[way]);
    child.parent = parent_index;
    child.task = static_cast<std::uint8_t>(task);
    child.way = static_cast<std::uint8_t>(way);
    child.bound = std::max(parent.bound, end_bound(model_, child.state, limits_.enough));
    if (child.bound >= limits_.enough) {
      answer.bound = std::min(answer.bound, child.bound);
      return;
    }
    sort_alike(model_, child);
    const std::uint32_t open = open_tasks(model_, child.state.done);
    std::int32_t& head = heads[child.state.done];
    for (std::int32_t i = head; i >= 0; i = next_[static_cast<std::size_t>(i)].sibling) {
      const Node& other = next_[static_cast<std::size_t>(i)];
      if (!other.is_beaten && other.state.latest <= child.bound && is_no_later(model_, other.state, child.state, open))
        return;
    }
    for (std::int32_t i = head; i >= 0; i = next_[static_cast<std::size_t>(i)].sibling) {
      Node& other = next_[static_cast<std::size_t>(i)];
      if (!other.is_beaten && child.state.latest <= other.bound && is_no_later(model_, child.state, other.state, open))
        other.is_beaten = true;
    }
    for (std::size_t h = 0; h < model_.helpers; ++h) child.load += child.state.free[h];
    for (std::size_t i = 0; i < model_.tasks.size(); ++i) {
      if (!((child.state.done >> i) & 1U))
        child.load += model_.tasks[i].need[people_sets - 1] + model_.tasks[i].awkward;
    }
    child.sibling = head;
    head = static_cast<std::int32_t>(next_.size());
    next_.push_back(child);
  }

  bool cut() {
    std::erase_if(next_, [](const Node& node) { return node.is_beaten; });
    const auto is_better = [](const Node& a, const Node& b) {
      if (a.bound != b.bound) return a.bound < b.bound;
      if (a.load != b.load) return a.load < b.load;
      return a.state.now < b.state.now;
    };
    std::stable_sort(next_.begin(), next_.end(), is_better);
    if (next_.size() <= limits_.width) return true;
    next_.resize(limits_.width);
    return false;
  }

  // The first node of the last layer as an answer, with everyone's own place again.
  void keep(PassAnswer& answer) {
    const auto best =
        std::min_element(layer_.begin(), layer_.end(), [](const Node& a, const Node& b) { return a.bound < b.bound; });
    std::vector<StepMove> steps;
    auto index = static_cast<std::size_t>(best - layer_.begin());
    for (std::size_t k = trails_.size(); k-- > 0;) {
      const Trail& last = trails_[k][index];
      steps.push_back({last.task, last.way, last.from});
      index = static_cast<std::size_t>(last.parent);
    }
    std::reverse(steps.begin(), steps.end());
    answer.is_found = true;
    answer.end = best->bound;
    answer.starts = starts_along(model_, steps);
  }

  const StepModel& model_;
  PassLimits limits_;
  std::vector<Node> layer_, next_;
  std::vector<std::vector<Trail>> trails_;
};

}  // namespace

PassAnswer step_pass(const StepModel& model, const PassLimits& limits) { return Pass(model, limits).run(); }

std::vector<StepStart> starts_along(const StepModel& model, const std::vector<StepMove>& moves) {
  std::vector<StepStart> starts;
  StepState state;
  Places own{0, 1, 2, 3};  // who stands in the place of helper h of the state
  for (const StepMove& step : moves) {
    StepWay way = model.tasks[step.task].ways[step.way];
    PeopleSet people = 0;
    for (std::size_t h = 0; h < most_helpers; ++h) {
      if ((way.people >> h) & 1U) people = static_cast<PeopleSet>(people | (1U << own[h]));
    }
    way.people = people;
    // People who stand in for each other may have another way of the same length.
    for (const StepWay& mine : model.tasks[step.task].ways) {
      if (mine.people == people && mine.duration == way.duration) way.mode = mine.mode;
    }
    const std::int32_t start = earliest(model, state, step.task, people);
    state = started(model, state, step.task, way);
    starts.push_back({step.task, way, start});
    Places next{};
    for (std::size_t h = 0; h < most_helpers; ++h) next[h] = own[step.from[h]];
    own = next;
  }
  return starts;
}

}  // namespace outbye
