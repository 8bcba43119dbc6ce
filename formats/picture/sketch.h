// Plans drawn by hand for the tests of the pictures: petal-shaped loops round a venue, a simple car day that visits
// every n-th pass, simulated horses. No planner is needed. For tests only.
#pragma once

#include "engine/use_cases.h"

namespace outbye {

struct PlanSketch {
  std::size_t loops{3};
  std::size_t passes_per_loop{4};
  std::size_t cars{1};
  std::size_t horses{1};
  Metres loop_length{30'000};
  Position venue{51.2, -1.4};
  std::string point_name{"Mill Ford"};
};

RidePlan sketch_plan(const PlanSketch& sketch);

}  // namespace outbye
