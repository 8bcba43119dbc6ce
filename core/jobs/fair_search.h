// Among the schedules whose steps take exactly the shortest times: the fairest. First the most worked helper as little
// as possible, then the least worked one as much as possible; work of the day so far counts, each over the wanted
// share. The same search in layers as for the shortest, with the work of each helper in the state; a state beats
// another one only when nobody has worked more in it (for the second goal: when all have worked the same).
#pragma once

#include <vector>

#include "core/jobs/step_search.h"

namespace outbye {

// One way to crew a step: outside "serve" there is only one.
struct StepChoice {
  ServeCrew crew;
  StepModel model;
};

struct FairStep {
  std::vector<StepChoice> choices;
  std::int32_t length{};
};

struct StepRun {
  std::size_t choice{};
  std::vector<StepStart> starts;  // after the beginning of the step
};

struct FairAnswer {
  std::vector<StepRun> runs;  // one a step
  bool is_proven{};
  std::uint64_t nodes{};
};

// `known`: any schedule of these lengths, to improve on.
FairAnswer fairest_runs(const std::vector<FairStep>& steps, const std::vector<Helper>& helpers,
                        const std::vector<StepRun>& known, std::uint64_t limit);

}  // namespace outbye
