#include "core/jobs/fair_question.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace outbye {
namespace {

// The work that a set of people has in a step, at least and at most, over all ways to crew it.
void add_step(const FairStep& step, std::size_t set, Outlook& outlook) {
  std::int32_t need = INT32_MAX, most = 0;
  for (const StepChoice& choice : step.choices) {
    const bool is_in = choice.crew.holder && ((set >> choice.crew.holder->value) & 1U);
    std::int32_t least_here = is_in ? step.length : 0, most_here = least_here;
    for (const StepTask& task : choice.model.tasks) {
      least_here += task.need[set];
      most_here += task.most[set];
    }
    need = std::min(need, least_here);
    most = std::max(most, most_here);
  }
  outlook.need[set] += need;
  outlook.most[set] += most;
}

}  // namespace

FairQuestion fair_question(const std::vector<FairStep>& steps, const std::vector<Helper>& helpers) {
  FairQuestion question{steps, helpers, std::vector<Outlook>(steps.size()), {}, true};
  for (std::size_t set = 1; set < (std::size_t{1} << helpers.size()); ++set) {
    const auto first = static_cast<std::size_t>(std::countr_zero(set));
    question.share[set] = question.share[set & (set - 1)] + helpers[first].share;
    question.is_whole = question.is_whole && helpers[first].share == 1.0;
  }
  for (std::size_t k = steps.size(); k-- > 1;) {
    question.after[k - 1] = question.after[k];
    for (std::size_t set = 1; set < people_sets; ++set) add_step(steps[k], set, question.after[k - 1]);
  }
  return question;
}

Fairness fairness_bound(const FairQuestion& question, std::size_t step, const StepModel& model, std::uint32_t done,
                        const Work& work) {
  Fairness best{0.0, INFINITY};
  std::array<std::int32_t, people_sets> sum{};
  for (std::size_t set = 1; set < (std::size_t{1} << question.helpers.size()); ++set) {
    sum[set] = sum[set & (set - 1)] + work[static_cast<std::size_t>(std::countr_zero(set))];
    std::int32_t need = sum[set] + question.after[step].need[set];
    std::int32_t most = sum[set] + question.after[step].most[set];
    for (std::size_t i = 0; i < model.tasks.size(); ++i) {
      if ((done >> i) & 1U) continue;
      need += model.tasks[i].need[set];
      most += model.tasks[i].most[set];
    }
    const double high = need / question.share[set], low = most / question.share[set];
    best.most = std::max(best.most, question.is_whole ? std::ceil(high) : high);
    best.least = std::min(best.least, question.is_whole ? std::floor(low) : low);
  }
  return best;
}

Fairness root_bound(const FairQuestion& question) {
  Fairness bound{INFINITY, 0.0};
  for (const StepChoice& choice : question.steps.front().choices) {
    Work work = carried_work(question);
    if (choice.crew.holder) work[choice.crew.holder->value] += question.steps.front().length;
    const Fairness one = fairness_bound(question, 0, choice.model, 0, work);
    bound.most = std::min(bound.most, one.most);
    bound.least = std::max(bound.least, one.least);
  }
  return bound;
}

Fairness fairness_of(const FairQuestion& question, const Work& work) {
  Fairness fairness{0.0, INFINITY};
  for (std::size_t h = 0; h < question.helpers.size(); ++h) {
    const double load = work[h] / question.helpers[h].share;
    fairness.most = std::max(fairness.most, load);
    fairness.least = std::min(fairness.least, load);
  }
  return fairness;
}

Work carried_work(const FairQuestion& question) {
  Work work{};
  for (std::size_t h = 0; h < question.helpers.size(); ++h) {
    work[h] = static_cast<std::int32_t>(std::llround(question.helpers[h].carried.count()));
  }
  return work;
}

Work work_of(const FairQuestion& question, const std::vector<StepRun>& runs) {
  Work work = carried_work(question);
  for (std::size_t k = 0; k < runs.size(); ++k) {
    const FairStep& step = question.steps[k];
    if (const auto holder = step.choices[runs[k].choice].crew.holder) work[holder->value] += step.length;
    for (const StepStart& start : runs[k].starts) add_work(work, start.way.people, start.way.duration);
  }
  return work;
}

void add_work(Work& work, PeopleSet people, std::int32_t duration) {
  for (std::size_t h = 0; h < most_helpers; ++h) {
    if ((people >> h) & 1U) work[h] += duration;
  }
}

}  // namespace outbye
