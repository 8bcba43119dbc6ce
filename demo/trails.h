// The endurance course: three loops from the venue over bridleways, tracks and lanes, and the crew points on it.
#pragma once

#include <optional>
#include <vector>

#include "demo/drawing.h"
#include "demo/net.h"

namespace outbye::demo {

// One loop as sites passed in order, the venue first and last.
struct SiteLoop {
  std::vector<std::uint32_t> sites;
  std::vector<std::uint32_t> links;  // links[k] leads from sites[k] to sites[k + 1]
  std::vector<double> along;         // metres from the venue, by sites
};

struct LaidCourse {
  std::uint32_t venue{};  // site
  std::vector<SiteLoop> loops;
  std::optional<std::uint32_t> twice;   // site passed twice in the second loop
  std::optional<std::uint32_t> tip;     // turning point of the out-and-back in the third loop
  std::optional<std::uint32_t> shared;  // site on the way home of the first loop and out of the third
};

// `loop_length`: metres; `heading`: radians from east to north, to the middle of the first loop. Nothing when no venue
// has trails and roads enough, or a loop finds no way.
std::optional<LaidCourse> lay_course(const Net& net, const std::vector<bool>& is_roundabout, double loop_length,
                                     double heading);

// Crew points where the course meets a road: 10 to 12 on a full course, fewer on a short one.
std::vector<CountryCrewPoint> place_crew_points(const Net& net, const Drawing& drawing, const LaidCourse& course,
                                                const std::vector<CountryLoop>& loops, const Terrain& terrain);

}  // namespace outbye::demo
