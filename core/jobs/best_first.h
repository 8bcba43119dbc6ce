// The shortest schedule of a step among those that end before some time, best bound first: each state is made once and
// kept. Of the states with the least bound one of each layer (as many tasks started) in turn goes on, the one that has
// idled away the least, so that complete schedules turn up early.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/jobs/mask_table.h"
#include "core/jobs/step_pass.h"

namespace outbye {

class BestFirst {
 public:
  explicit BestFirst(const StepModel& model);

  // Goes on for about so many nodes, or until a schedule that ends before `end` is found (true, then `end` and `starts`
  // are of it), or until there is none that ends before `end`.
  bool run(std::uint64_t nodes, std::int32_t& end, std::vector<StepStart>& starts);

  std::int32_t bound() const { return bound_; }  // no schedule that ends before the `end` of the last run ends earlier
  std::uint64_t nodes() const { return made_; }
  std::size_t open() const {
    std::size_t n = 0;
    for (const auto& layer : layers_) n += layer.size();
    return n;
  }

 private:
  struct Node {
    StepState state;
    std::int32_t bound{};
    std::int32_t load{};
    std::int32_t parent{-1};
    std::uint8_t task{}, way{};
    bool is_beaten{};
    Places from{0, 1, 2, 3};
  };
  // Nodes that stay where they are: growing copies none.
  class Pool {
   public:
    Node& operator[](std::size_t i) { return chunks_[i / chunk][i % chunk]; }
    const Node& operator[](std::size_t i) const { return chunks_[i / chunk][i % chunk]; }
    std::size_t size() const { return chunks_.empty() ? 0 : (chunks_.size() - 1) * chunk + chunks_.back().size(); }
    void push_back(const Node& node) {
      if (chunks_.empty() || chunks_.back().size() == chunk) {
        chunks_.emplace_back();
        chunks_.back().reserve(chunk);
      }
      chunks_.back().push_back(node);
    }

   private:
    static constexpr std::size_t chunk = 128;
    std::vector<std::vector<Node>> chunks_;
  };
  // What decides first whether one state beats another with the same tasks done.
  struct Mark {
    std::array<std::int32_t, most_helpers> free;
    std::int32_t latest, bound, node;
  };
  struct Open {
    std::int32_t bound, load, node;
    bool operator<(const Open& other) const {  // for a heap with the best on top
      if (bound != other.bound) return bound > other.bound;
      if (load != other.load) return load > other.load;
      return node > other.node;
    }
  };

  // What all children of a state have in common: computed once for them.
  struct Family {
    std::int32_t parent{};
    std::size_t left_count{}, group_count{};
    std::array<std::uint8_t, most_tasks> left{};   // tasks not started, in the order of the model
    std::array<std::int32_t, most_tasks> ready{};  // of each, by the tasks done
    std::array<std::uint8_t, most_tasks> group{};  // of each task: the tasks left, by tail
    std::array<std::int32_t, most_tasks> tail{};   // of each group
    std::vector<std::int32_t> work;                // of each limit and group: of all tasks with at least that tail
  };

  void expand(std::int32_t parent, std::int32_t end);
  void meet(std::int32_t parent);
  bool begin(std::size_t task, std::size_t way, std::int32_t start, std::int32_t end, Node& child, std::uint32_t& open);
  void keep(Node& child, std::uint32_t open);
  std::vector<StepStart> starts_of(std::int32_t node) const;

  const StepModel& model_;
  Pool nodes_;
  std::vector<std::vector<Open>> layers_;
  MaskTable heads_;
  std::vector<std::vector<Mark>> buckets_;
  std::size_t layer_{};
  std::int32_t bound_{};
  std::int32_t found_{-1};
  std::uint64_t made_{};
  Family family_;
  std::size_t killer_{};
  std::vector<PeopleSet> sets_;  // of people that some way needs
};

}  // namespace outbye
