// The demo's ride: people, horse, car and wishes, all invented, on the country's course. A planning problem of
// substance: one car, river detours, a point with opening hours and a closed one.
#pragma once

#include <string>
#include <vector>

#include "demo/country.h"
#include "engine/ride.h"

namespace outbye::demo {

// File names as write_country() gives them, relative to the ride file.
struct CountryFiles {
  std::string roads{"roads.osm.pbf"};
  std::string course{"course.gpx"};
  std::string weather{"weather.csv"};
  std::vector<std::string> heights;
};

// The text of the weather file.
std::string demo_weather();

// The text of a gate log: the morning of the demo's horse, until it is at the second gate.
std::string demo_gate_log(const Ride& ride, const Country& country);

Ride demo_ride(const Country& country, const CountryFiles& files);

}  // namespace outbye::demo
