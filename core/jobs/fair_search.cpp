#include "core/jobs/fair_search.h"

#include <algorithm>

#include "core/jobs/fair_question.h"
#include "core/jobs/mask_table.h"

namespace outbye {
namespace {

struct Node {
  StepState state;
  Work work{};  // of the day so far included
  Fairness bound;
  std::int32_t end{};      // bound of the step's end
  std::int32_t parent{};   // in the layer before
  std::int32_t sibling{};  // the next node with the same tasks done; -1: none
  std::uint8_t choice{};
  std::uint8_t task{};
  std::uint8_t way{};
  bool is_beaten{};
};

struct Trail {
  std::int32_t parent;
  std::uint8_t choice, task, way;
};

struct Best {
  Fairness fairness;
  std::vector<StepRun> runs;
  std::uint64_t nodes{};
};

class Pass {
 public:
  // is_second: `most` is settled, the least worked helper is looked at.
  Pass(const FairQuestion& question, bool is_second, std::size_t width, std::uint64_t limit)
      : question_(question), is_second_(is_second), width_(width), limit_(limit) {}

  bool run(Best& best) {
    bool is_complete = true;
    Node root;
    root.parent = -1;
    root.work = carried_work(question_);
    layer_ = {root};
    for (std::size_t step = 0; step < question_.steps.size() && !layer_.empty(); ++step) {
      enter(step, best);
      const std::size_t tasks = question_.steps[step].choices.front().model.tasks.size();
      for (std::size_t k = 0; k < tasks && !layer_.empty(); ++k) {
        next_.clear();
        MaskTable heads;
        for (std::size_t i = 0; i < layer_.size(); ++i) {
          if (best.nodes >= limit_) return false;
          expand(step, static_cast<std::int32_t>(i), heads, best);
        }
        is_complete = leave(false) && is_complete;
      }
    }
    if (!layer_.empty()) keep(best);
    return is_complete;
  }

 private:
  bool is_hopeless(const Node& node, const Best& best) const {
    if (!is_second_) return node.bound.most >= best.fairness.most;
    return node.bound.most > best.fairness.most || node.bound.least <= best.fairness.least;
  }

  bool is_work_as_good(const Node& a, const Node& b) const {
    for (std::size_t h = 0; h < question_.helpers.size(); ++h) {
      if (is_second_ ? a.work[h] != b.work[h] : a.work[h] > b.work[h]) return false;
    }
    return true;
  }

  // The step begins: everybody is free, and whoever holds the horse works through it. What is left of the past is the
  // work.
  void enter(std::size_t step, const Best& best) {
    next_.clear();
    MaskTable heads;
    const FairStep& now = question_.steps[step];
    for (std::size_t i = 0; i < layer_.size(); ++i) {
      for (std::size_t c = 0; c < now.choices.size(); ++c) {
        Node node;
        node.parent = static_cast<std::int32_t>(i);
        node.choice = static_cast<std::uint8_t>(c);
        node.task = UINT8_MAX;
        node.work = layer_[i].work;
        if (now.choices[c].crew.holder) node.work[now.choices[c].crew.holder->value] += now.length;
        const StepModel& model = now.choices[c].model;
        node.bound = fairness_bound(question_, step, model, 0, node.work);
        if (!is_hopeless(node, best)) insert(model, node, 0, heads[c]);
      }
    }
    leave(true);
  }

  void expand(std::size_t step, std::int32_t parent_index, MaskTable& heads, Best& best) {
    const Node& parent = layer_[static_cast<std::size_t>(parent_index)];
    const FairStep& now = question_.steps[step];
    const StepModel& model = now.choices[parent.choice].model;
    for (std::size_t task = 0; task < model.tasks.size(); ++task) {
      const StepTask& what = model.tasks[task];
      if (((parent.state.done >> task) & 1U) || (what.before & ~parent.state.done) != 0) continue;
      for (std::size_t way = 0; way < what.ways.size(); ++way) {
        ++best.nodes;
        Node node;
        node.state = started(model, parent.state, task, what.ways[way]);
        node.end = end_bound(model, node.state, now.length + 1);
        if (node.end > now.length) continue;
        node.parent = parent_index;
        node.choice = parent.choice;
        node.task = static_cast<std::uint8_t>(task);
        node.way = static_cast<std::uint8_t>(way);
        node.work = parent.work;
        add_work(node.work, what.ways[way].people, what.ways[way].duration);
        node.bound = fairness_bound(question_, step, model, node.state.done, node.work);
        if (is_hopeless(node, best)) continue;
        const std::uint64_t key = (std::uint64_t{node.choice} << 32U) | node.state.done;
        insert(model, node, open_tasks(model, node.state.done), heads[key]);
      }
    }
  }

  void insert(const StepModel& model, Node& node, std::uint32_t open, std::int32_t& head) {
    for (std::int32_t i = head; i >= 0; i = next_[static_cast<std::size_t>(i)].sibling) {
      const Node& other = next_[static_cast<std::size_t>(i)];
      if (!other.is_beaten && is_work_as_good(other, node) && is_no_later(model, other.state, node.state, open)) return;
    }
    for (std::int32_t i = head; i >= 0; i = next_[static_cast<std::size_t>(i)].sibling) {
      Node& other = next_[static_cast<std::size_t>(i)];
      if (is_work_as_good(node, other) && is_no_later(model, node.state, other.state, open)) other.is_beaten = true;
    }
    node.sibling = head;
    head = static_cast<std::int32_t>(next_.size());
    next_.push_back(node);
  }

  bool leave(bool is_entry) {
    std::erase_if(next_, [](const Node& node) { return node.is_beaten; });
    const bool is_second = is_second_;
    std::stable_sort(next_.begin(), next_.end(), [is_second](const Node& a, const Node& b) {
      if (is_second && a.bound.least != b.bound.least) return a.bound.least > b.bound.least;
      if (a.bound.most != b.bound.most) return a.bound.most < b.bound.most;
      if (a.bound.least != b.bound.least) return a.bound.least > b.bound.least;
      return a.end < b.end;
    });
    const bool is_cut = !is_entry && next_.size() > width_;
    if (is_cut) next_.resize(width_);
    std::vector<Trail> trail;
    trail.reserve(next_.size());
    for (const Node& node : next_) trail.push_back({node.parent, node.choice, node.task, node.way});
    trails_.push_back(std::move(trail));
    layer_.swap(next_);
    return !is_cut;
  }

  void keep(Best& best) {
    std::size_t found = 0;
    for (std::size_t i = 1; i < layer_.size(); ++i) {
      const Fairness a = fairness_of(question_, layer_[i].work), b = fairness_of(question_, layer_[found].work);
      if (a.most < b.most || (a.most == b.most && a.least > b.least)) found = i;
    }
    best.fairness = fairness_of(question_, layer_[found].work);
    std::vector<Trail> path;
    for (std::size_t k = trails_.size(); k-- > 0;) {
      path.push_back(trails_[k][found]);
      found = static_cast<std::size_t>(trails_[k][found].parent);
    }
    std::reverse(path.begin(), path.end());
    best.runs.clear();
    StepState state;
    for (const Trail& trail : path) {
      if (trail.task == UINT8_MAX) {
        best.runs.push_back({trail.choice, {}});
        state = {};
        continue;
      }
      const StepModel& model = question_.steps[best.runs.size() - 1].choices[trail.choice].model;
      const StepWay& way = model.tasks[trail.task].ways[trail.way];
      best.runs.back().starts.push_back({trail.task, way, earliest(model, state, trail.task, way.people)});
      state = started(model, state, trail.task, way);
    }
  }

  const FairQuestion& question_;
  bool is_second_;
  std::size_t width_;
  std::uint64_t limit_;
  std::vector<Node> layer_, next_;
  std::vector<std::vector<Trail>> trails_;
};

}  // namespace

FairAnswer fairest_runs(const std::vector<FairStep>& steps, const std::vector<Helper>& helpers,
                        const std::vector<StepRun>& known, std::uint64_t limit) {
  if (steps.empty()) return {{}, true, 0};
  const FairQuestion question = fair_question(steps, helpers);
  Best best{fairness_of(question, work_of(question, known)), known, 0};
  const Fairness bound = root_bound(question);
  bool is_proven = true;
  for (const bool is_second : {false, true}) {
    const std::uint64_t until = is_second ? limit : limit / 2;
    const auto is_reached = [&] {
      return is_second ? best.fairness.least >= std::min(bound.least, best.fairness.most)
                       : best.fairness.most <= bound.most;
    };
    bool is_complete = false;
    for (std::size_t width = 4; !is_complete && !is_reached() && best.nodes < until; width *= 8) {
      is_complete = Pass(question, is_second, width, until).run(best);
    }
    is_proven = is_proven && (is_complete || is_reached());
  }
  return {std::move(best.runs), is_proven, best.nodes};
}

}  // namespace outbye
