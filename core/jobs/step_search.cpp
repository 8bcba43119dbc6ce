#include "core/jobs/step_search.h"

#include <algorithm>

#include "core/jobs/best_first.h"

namespace outbye {
namespace {

std::uint32_t turned(std::uint32_t tasks, std::size_t n) {
  std::uint32_t other = 0;
  for (std::size_t i = 0; i < n; ++i) other |= ((tasks >> i) & 1U) << (n - 1 - i);
  return other;
}

// The step run backwards: what came first comes last.
StepModel backwards(const StepModel& model) {
  const std::size_t n = model.tasks.size();
  StepModel back = model;
  std::reverse(back.tasks.begin(), back.tasks.end());
  for (std::size_t i = 0; i < n; ++i) {
    StepTask& task = back.tasks[n - 1 - i];
    std::swap(task.head, task.tail);
    task.before = 0;
    for (std::size_t j = i + 1; j < n; ++j) {
      if ((model.tasks[j].before >> i) & 1U) task.before |= 1U << (n - 1 - j);
    }
  }
  for (Limit& limit : back.limits)
    std::reverse(limit.need.begin(), limit.need.begin() + static_cast<std::ptrdiff_t>(n));
  for (auto& row : back.differ) {
    for (std::uint32_t& tasks : row) tasks = turned(tasks, n);
  }
  std::stable_sort(back.by_tail.begin(), back.by_tail.end(),
                   [&](std::uint8_t a, std::uint8_t b) { return back.tasks[a].tail > back.tasks[b].tail; });
  return back;
}

// The schedule of the step run backwards as one of the step itself, everything as early as it can be.
std::vector<StepStart> forwards(const StepModel& model, std::vector<StepStart> starts, std::int32_t end) {
  for (StepStart& start : starts) {
    start.task = model.tasks.size() - 1 - start.task;
    start.start = end - start.start - start.way.duration;
  }
  std::sort(starts.begin(), starts.end(), [](const StepStart& a, const StepStart& b) {
    if (a.start != b.start) return a.start < b.start;
    if (a.way.duration != b.way.duration) return a.way.duration < b.way.duration;
    return a.task < b.task;
  });
  StepState state;
  for (StepStart& start : starts) {
    start.start = earliest(model, state, start.task, start.way.people);
    state = started(model, state, start.task, start.way);
  }
  return starts;
}

// One way to crew the step, searched from both ends.
struct Crew {
  const StepModel* model;
  std::int32_t bound;
  std::optional<StepModel> back;
  std::vector<BestFirst> search;  // of the step; of the step run backwards

  explicit Crew(const StepModel* of) : model(of), bound(of->bound) {}

  // Which of the two to go on with: the one that knows more, else the one with less to do; but the other one now and
  // then.
  bool is_back_next() const {
    const BestFirst &one = search[0], &other = search[1];
    const auto effort = [](const BestFirst& s) { return s.nodes() + 20 * s.open(); };
    const bool is_back = one.bound() != other.bound() ? other.bound() > one.bound() : effort(other) < effort(one);
    const BestFirst& chosen = is_back ? other : one;
    const BestFirst& left = is_back ? one : other;
    return chosen.nodes() > 20 * left.nodes() + 200 ? !is_back : is_back;
  }
};

std::int32_t least_bound(const std::vector<Crew>& crews, std::int32_t end) {
  for (const Crew& crew : crews) end = std::min(end, crew.bound);
  return end;
}

// A narrow pass for each crew: some schedule, not far from the shortest.
void first_look(std::vector<Crew>& crews, std::uint64_t limit, StepAnswer& answer) {
  for (std::size_t m = 0; m < crews.size(); ++m) {
    Crew& crew = crews[m];
    if (crew.bound >= answer.end) continue;
    const std::uint64_t left = limit > answer.nodes ? limit - answer.nodes : 0;
    PassAnswer pass = step_pass(*crew.model, {answer.end, 2, answer.model ? left : UINT64_MAX});
    answer.nodes += pass.nodes;
    if (pass.is_complete)
      crew.bound = std::max(crew.bound, std::min(pass.is_found ? pass.end : pass.bound, answer.end));
    if (!pass.is_found) continue;
    answer.model = m;
    answer.end = pass.end;
    answer.starts = std::move(pass.starts);
  }
}

void go_on(Crew& crew, std::size_t m, StepAnswer& answer) {
  constexpr std::uint64_t nodes = 100;
  if (crew.search.empty()) {
    crew.back = backwards(*crew.model);
    crew.search.emplace_back(*crew.model);
    crew.search.emplace_back(*crew.back);
  }
  const bool is_back = crew.is_back_next();
  BestFirst& search = crew.search[is_back ? 1 : 0];
  const std::uint64_t before = search.nodes();
  std::vector<StepStart> starts;
  if (search.run(nodes, answer.end, starts)) {
    answer.model = m;
    answer.starts = is_back ? forwards(*crew.model, std::move(starts), answer.end) : std::move(starts);
  }
  crew.bound = std::max(crew.bound, search.bound());
  answer.nodes += search.nodes() - before;
}

}  // namespace

StepAnswer shortest_step(const std::vector<const StepModel*>& models, std::uint64_t limit) {
  StepAnswer answer;
  std::vector<Crew> crews;
  crews.reserve(models.size());  // searches point into their crew
  for (const StepModel* model : models) crews.emplace_back(model);
  first_look(crews, limit, answer);
  while (answer.nodes < limit && least_bound(crews, answer.end) < answer.end) {
    const std::int32_t least = least_bound(crews, answer.end);
    for (std::size_t m = 0; m < crews.size(); ++m) {
      if (crews[m].bound <= least && crews[m].bound < answer.end) go_on(crews[m], m, answer);
    }
  }
  answer.bound = least_bound(crews, answer.end);
  return answer;
}

}  // namespace outbye
