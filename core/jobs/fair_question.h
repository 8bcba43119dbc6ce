// How fair a schedule is, and how fair one can become at best: the work of each set of people so far, what is left of
// the step, and what the steps after it add at least and at most.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/jobs/fair_search.h"

namespace outbye {

using Work = std::array<std::int32_t, most_helpers>;

struct Fairness {
  double most{};   // of work over share: as little as possible
  double least{};  // as much as possible
};

// What the steps after one add to the work of each set of people, at least and at most.
struct Outlook {
  std::array<std::int32_t, people_sets> need{}, most{};
};

struct FairQuestion {
  const std::vector<FairStep>& steps;
  const std::vector<Helper>& helpers;
  std::vector<Outlook> after;  // one a step
  std::array<double, people_sets> share{};
  bool is_whole{};  // all shares 1: work over share is a whole number
};

// Refers to `steps` and `helpers`.
FairQuestion fair_question(const std::vector<FairStep>& steps, const std::vector<Helper>& helpers);

// No completion is fairer, with these tasks of the step done and this work so far.
Fairness fairness_bound(const FairQuestion& question, std::size_t step, const StepModel& model, std::uint32_t done,
                        const Work& work);
Fairness root_bound(const FairQuestion& question);  // no schedule at all is fairer

Fairness fairness_of(const FairQuestion& question, const Work& work);
Work carried_work(const FairQuestion& question);
Work work_of(const FairQuestion& question, const std::vector<StepRun>& runs);
void add_work(Work& work, PeopleSet people, std::int32_t duration);

}  // namespace outbye
