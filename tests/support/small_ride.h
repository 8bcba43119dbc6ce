// A small invented ride for tests: two round loops of about 20 km from one venue in open water, four crew points,
// drives typed in. Large enough that a plan is a choice, small enough to follow by hand.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "engine/use_cases.h"

namespace outbye::test {

inline constexpr Position small_venue{54.9, -15.2};

// A position so far north and east of the venue, on a local plane (good to metres within 10 km).
inline Position from_venue(Metres north, Metres east) {
  constexpr double degree = 111'320.0;
  return {small_venue.latitude + north.value / degree,
          small_venue.longitude + east.value / (degree * std::cos(small_venue.latitude * 3.14159265358979 / 180.0))};
}

// A circle through the venue, its centre so far east (negative: west), run clockwise in `points` steps.
inline Track round_loop(const std::string& name, Metres radius, bool is_east, std::size_t points = 200) {
  Track track;
  track.name = name;
  track.file = "small.gpx";
  track.segments.emplace_back();
  for (std::size_t i = 0; i <= points; ++i) {
    const double turn = 2.0 * 3.14159265358979 * static_cast<double>(i) / static_cast<double>(points);
    const double side = is_east ? 1.0 : -1.0;
    const Metres north{radius.value * std::sin(turn)};
    const Metres east{side * radius.value * (1.0 - std::cos(turn))};
    track.segments[0].points.push_back(
        {from_venue(north, east), Metres{100}, std::nullopt, static_cast<std::uint32_t>(i + 1)});
  }
  return track;
}

inline GpxDocument small_course() {
  constexpr Metres radius{3200};
  GpxDocument file;
  file.file = "small.gpx";
  file.tracks = {round_loop("East", radius, true), round_loop("West", radius, false)};
  const auto waypoint = [&file](const std::string& name, Position position) {
    file.waypoints.push_back({name, "", "", position, std::nullopt});
  };
  waypoint("Venue", small_venue);
  waypoint("Ash", from_venue(radius, radius));           // a quarter round the east loop
  waypoint("Birch", from_venue(-1.0 * radius, radius));  // three quarters
  waypoint("Cedar", from_venue(radius, -1.0 * radius));  // a quarter round the west loop
  waypoint("Damson", from_venue(-1.0 * radius, -1.0 * radius));
  return file;
}

// Ten minutes and 6 km between any two places.
inline DriveTable small_drives() {
  DriveTable drives({"Venue", "Ash", "Birch", "Cedar", "Damson"});
  for (std::uint32_t i = 0; i < 5; ++i) {
    for (std::uint32_t j = 0; j < 5; ++j) {
      if (i != j) drives.set(PlaceId{i}, PlaceId{j}, Drive{minutes(10), kilometres(6)});
    }
  }
  return drives;
}

inline RideInputs small_inputs() {
  RideInputs inputs;
  inputs.ride.name = "Small ride";
  inputs.ride.start = Instant{Seconds{1'781'330'400.0}};  // 2026-06-13T06:00:00Z
  inputs.ride.days = 512;
  inputs.course_files = {small_course()};
  inputs.drive_times = small_drives();
  return inputs;
}

// A container of the crew's own, for the kit of a ride.
inline OwnContainer own(OwnContainer::Kind kind, const char* name, double litres, std::uint32_t count,
                        bool is_full = true) {
  OwnContainer container;
  container.kind = kind;
  container.name = name;
  container.holds = {litres};
  container.count = count;
  container.is_full = is_full;
  return container;
}

}  // namespace outbye::test
