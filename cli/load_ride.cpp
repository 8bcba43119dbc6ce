#include "cli/load_ride.h"

#include <cstdlib>

namespace outbye {
Reading reading_with(Console& console) {
  return {cache_folder(), {[&console](const std::string& step, double share) { console.progress(step, share); }}};
}

std::string cache_folder() {
  const auto value = [](const char* name) {
    return std::string(std::getenv(name) == nullptr ? "" : std::getenv(name));
  };
  if (const auto folder = value("OUTBYE_CACHE"); !folder.empty()) return folder;
  if (const auto folder = value("XDG_CACHE_HOME"); !folder.empty()) return folder + "/outbye";
  if (const auto folder = value("HOME"); !folder.empty()) return folder + "/.cache/outbye";
  return "";
}

Outcome<LoadedRide> load_ride(const std::string& path, WithRoads with_roads, Console& console) {
  auto loaded = load_ride(path, with_roads, reading_with(console));
  console.end_progress();
  return loaded;
}

Outcome<LoadedRide> load_files_of(Ride ride, const std::string& folder, WithRoads with_roads, Console& console) {
  auto loaded = load_files_of(std::move(ride), files_in(folder), with_roads, reading_with(console));
  console.end_progress();
  return loaded;
}

Outcome<PlannedRide> load_and_plan(const std::string& path, Console& console,
                                   const std::function<void(Ride&)>& change) {
  auto loaded = load_ride(path, WithRoads::yes, console);
  if (!loaded) return tl::make_unexpected(loaded.error());
  if (change) change(loaded->inputs.ride);
  const Progress progress{[&console](const std::string& step, double share) { console.progress(step, share); }};
  auto plan = plan_ride(loaded->inputs, progress);
  console.end_progress();
  if (!plan) return tl::make_unexpected(std::vector<Problem>{plan.error()});
  return PlannedRide{std::move(*loaded), std::move(*plan)};
}

}  // namespace outbye
