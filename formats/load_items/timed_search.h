// A search for a load that ends by the clock, which the core does not have.
#pragma once

#include <chrono>
#include <functional>

#include "core/load/load_plan.h"

namespace outbye {

// Each search made goes on for that long from when it is made.
inline std::function<LoadSearch()> searches_of(std::chrono::duration<double> time) {
  return [time] {
    using clock = std::chrono::steady_clock;
    const auto until = clock::now() + std::chrono::duration_cast<clock::duration>(time);
    LoadSearch search;
    search.keep_going = [until] { return clock::now() < until; };
    return search;
  };
}

}  // namespace outbye
