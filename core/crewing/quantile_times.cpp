#include "core/crewing/quantile_times.h"

#include <algorithm>
#include <cmath>

namespace outbye {

FixedTimes quantile_times(const CrewingTask& task, const std::vector<bool>& is_met, double quantile) {
  FixedTimes times;
  if (!task.horses.empty()) times.origin = task.horses.front().origin;
  times.arrival.resize(task.options.size());
  times.departure.resize(task.options.size());
  std::vector<double> column;
  for (std::size_t h = 0; h < task.horses.size(); ++h) {
    const HorseDays& days = task.horses[h];
    std::vector<bool> stands(days.events.size(), false);
    for (std::size_t o = 0; o < task.options.size(); ++o) {
      if (task.options[o].horse.value == h && is_met[o]) stands[task.options[o].event] = true;
    }
    const std::vector<double> arrival = arrivals(days, stands);
    const double shift = (days.origin - times.origin).count();
    const auto rank = static_cast<std::size_t>(std::clamp(std::ceil(quantile * static_cast<double>(days.days)) - 1.0,
                                                          0.0, static_cast<double>(days.days) - 1.0));
    for (std::size_t o = 0; o < task.options.size(); ++o) {
      if (task.options[o].horse.value != h) continue;
      const std::size_t from = task.options[o].event * days.days;
      const auto ranked = [&] {
        const auto nth = column.begin() + static_cast<std::ptrdiff_t>(rank);
        std::nth_element(column.begin(), nth, column.end());
        return *nth + shift;
      };
      column.assign(arrival.begin() + static_cast<std::ptrdiff_t>(from),
                    arrival.begin() + static_cast<std::ptrdiff_t>(from + days.days));
      std::vector<double> gone = column;
      times.arrival[o] = ranked();
      for (std::size_t d = 0; d < days.days; ++d) gone[d] += days.stand[from + d];
      column.swap(gone);
      times.departure[o] = ranked();
    }
  }
  return times;
}

FixedTimes medians(const CrewingTask& task, const std::vector<bool>& is_met) {
  return quantile_times(task, is_met, 0.5);
}

}  // namespace outbye
