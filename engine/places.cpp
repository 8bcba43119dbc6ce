#include "engine/places.h"

#include <algorithm>

#include "core/base/text.h"

namespace outbye {
namespace {

std::vector<PlaceReport> named_places(const Ride& ride, const CourseReport& survey) {
  std::vector<PlaceReport> places;
  const auto add = [&places](const std::string& name, Position position) {
    PlaceReport place;
    place.name = name;
    place.position = position;
    places.push_back(std::move(place));
  };
  add(ride.venue, survey.venue);
  for (std::size_t i = 0; i < survey.course.crew_points.size(); ++i) {
    const CrewPoint& point = survey.course.crew_points[i];
    const bool has_parking = i < ride.crew_points.size() && ride.crew_points[i].parking.has_value();
    add(point.name, has_parking ? *ride.crew_points[i].parking : point.position);
  }
  for (const auto& refill : ride.refills) add(refill.name, refill.position);
  for (const auto& errand : ride.errands) add(errand.name, errand.position);
  return places;
}

// Joins every place to the roads. Crew points too far from a road stay, without drives, and are named.
Result<void> snap_places(const RideInputs& inputs, Places& places) {
  std::size_t joined = 0;
  for (auto& place : places.reports) {
    auto snapped = snap(*inputs.roads, place.position, inputs.ride.snap_limit);
    if (snapped) {
      place.snap_distance = snapped->distance;
      place.road = snapped->road;
      place.snap = std::move(*snapped);
      ++joined;
    } else {
      place.unreachable = snapped.error().what;
    }
  }
  if (joined == 0) {
    return bad_input("road map", "has no road a car may use within " + fixed(inputs.ride.snap_limit.value, 0) +
                                     " m of the venue or of any crew point; is it an extract of the right area?");
  }
  return {};
}

void take_drives_from_roads(const RideInputs& inputs, Places& places) {
  std::vector<Snap> snaps;
  std::vector<std::string> names;
  std::vector<PlaceId> rows;
  for (std::size_t i = 0; i < places.reports.size(); ++i) {
    if (!places.reports[i].snap) continue;
    snaps.push_back(*places.reports[i].snap);
    names.push_back(places.reports[i].name);
    rows.push_back(PlaceId{static_cast<std::uint32_t>(i)});
  }
  const DriveTable found = drive_table(*inputs.roads, names, snaps);
  for (std::uint32_t i = 0; i < rows.size(); ++i) {
    for (std::uint32_t j = 0; j < rows.size(); ++j) {
      places.drives.set(rows[i], rows[j], found.drive(PlaceId{i}, PlaceId{j}));
    }
  }
}

std::optional<PlaceId> row_named(const std::vector<std::string>& names, std::string_view name) {
  for (std::uint32_t i = 0; i < names.size(); ++i) {
    if (same_name(names[i], name)) return PlaceId{i};
  }
  return std::nullopt;
}

// Typed-in drives win over those of the map.
Result<void> take_typed_drives(const RideInputs& inputs, Places& places) {
  const DriveTable& typed = *inputs.drive_times;
  std::vector<std::string> names;
  for (const auto& place : places.reports) names.push_back(place.name);
  const std::vector<std::string_view> views(names.begin(), names.end());
  for (const auto& name : typed.places()) {
    if (row_named(names, name)) continue;
    const auto nearest = nearest_name(name, views);
    if (nearest && !row_named(typed.places(), *nearest)) {
      return bad_input("drive times", "name the place '" + name + "', which the ride does not have; did you mean '" +
                                          std::string(*nearest) + "'?");
    }
    places.warnings.push_back({"drive times", "the place '" + name + "' is not in this ride and is left out"});
  }
  for (std::uint32_t i = 0; i < names.size(); ++i) {
    const auto from = row_named(typed.places(), names[i]);
    for (std::uint32_t j = 0; from && j < names.size(); ++j) {
      const auto to = row_named(typed.places(), names[j]);
      if (to && typed.drive(*from, *to)) places.drives.set(PlaceId{i}, PlaceId{j}, typed.drive(*from, *to));
    }
  }
  return {};
}

// A place without any drive in or out is named; the venue must have some.
Result<void> name_unreachable(const Ride& ride, Places& places) {
  const auto n = static_cast<std::uint32_t>(places.reports.size());
  for (std::uint32_t i = 0; i < n; ++i) {
    bool reached = false;
    for (std::uint32_t j = 0; j < n; ++j) {
      if (i != j && places.drives.drive(PlaceId{j}, PlaceId{i}) && places.drives.drive(PlaceId{i}, PlaceId{j})) {
        reached = true;
      }
    }
    PlaceReport& place = places.reports[i];
    if (reached || n == 1) {
      if (reached) place.unreachable.clear();
      continue;
    }
    if (place.unreachable.empty()) place.unreachable = "has no way there and back by car from any other place";
    if (i == 0) {
      return impossible("'" + ride.venue + "'", place.unreachable +
                                                    "; move the venue to the car park or raise the "
                                                    "snap limit, or type drive times in");
    }
    places.warnings.push_back({"'" + place.name + "'", place.unreachable + "; no meet is planned there"});
  }
  return {};
}

}  // namespace

PlaceId refill_place(const Course& course, std::size_t refill) {
  return PlaceId{static_cast<std::uint32_t>(1 + course.crew_points.size() + refill)};
}

PlaceId errand_place(const Course& course, const Ride& ride, std::size_t errand) {
  return PlaceId{static_cast<std::uint32_t>(1 + course.crew_points.size() + ride.refills.size() + errand)};
}

Result<PlaceId> place_named(const Ride& ride, const Course& course, std::string_view name, std::string_view asked_by) {
  if (same_name(name, ride.venue)) return venue_place();
  std::vector<std::string_view> known{ride.venue};
  for (std::uint32_t i = 0; i < course.crew_points.size(); ++i) {
    if (same_name(course.crew_points[i].name, name)) return crew_point_place(CrewPointId{i});
    known.push_back(course.crew_points[i].name);
  }
  const auto nearest = nearest_name(name, known);
  return not_found(std::string(asked_by), "names the place '" + std::string(name) +
                                              "', which is neither the venue nor a crew point" +
                                              (nearest ? "; did you mean '" + std::string(*nearest) + "'?" : ""));
}

Result<Places> find_places(const RideInputs& inputs, const CourseReport& survey) {
  if (inputs.roads == nullptr && !inputs.drive_times) {
    return bad_input("drives", "no plan without roads: give a road map (.osm.pbf) or a table of drive times (CSV)");
  }
  Places places;
  places.reports = named_places(inputs.ride, survey);
  std::vector<std::string> names;
  for (const auto& place : places.reports) names.push_back(place.name);
  places.drives = DriveTable(names);
  if (inputs.roads != nullptr) {
    if (auto ok = snap_places(inputs, places); !ok) return tl::unexpected(ok.error());
    take_drives_from_roads(inputs, places);
    places.assumptions.push_back(
        "Drive times come from the road map: the lower of the limit and what class and "
        "surface allow.");
  }
  if (inputs.drive_times) {
    if (auto ok = take_typed_drives(inputs, places); !ok) return tl::unexpected(ok.error());
    places.assumptions.push_back("Drive times typed in are used where given.");
  }
  if (auto ok = name_unreachable(inputs.ride, places); !ok) return tl::unexpected(ok.error());
  return places;
}

}  // namespace outbye
