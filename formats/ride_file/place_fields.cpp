#include "formats/ride_file/place_fields.h"

#include <algorithm>
#include <cmath>

namespace outbye {
namespace {

void read_photo(JsonFields& at, RideCrewPoint& into) {
  RidePhoto photo;
  at.require("file", "the name of a picture among the files of the ride");
  at.text("file", photo.file);
  at.text("alt", photo.alt, true);
  at.finish();
  into.photos.push_back(std::move(photo));
}

void read_correction(JsonFields& at, RideCrewPoint& into) {
  PassCorrection correction;
  std::uint32_t loop = 1;
  at.require("loop", "1 is the first");
  at.require("km", "from the start of the loop");
  at.whole("loop", 1, 100, [&](std::uint64_t n) { loop = static_cast<std::uint32_t>(n); });
  at.whole("nth", 1, 100, [&](std::uint64_t n) { correction.nth_in_loop = static_cast<std::uint32_t>(n); });
  // To the micrometre, so that what is written comes back as the same metres.
  at.number("km", {0.0, 500.0}, [&](double km) { correction.along = {std::round(km * 1e9) / 1e6}; });
  at.finish();
  correction.loop = LoopId{loop - 1};
  const bool is_twice = std::any_of(into.corrections.begin(), into.corrections.end(), [&](const PassCorrection& other) {
    return other.loop == correction.loop && other.nth_in_loop == correction.nth_in_loop;
  });
  if (is_twice) at.report("nth", "this pass is corrected before already; keep one of the two");
  into.corrections.push_back(correction);
}

}  // namespace

std::optional<Position> read_position(JsonFields& in, std::string_view name) {
  const Json* field = in.find(name);
  if (field == nullptr) return std::nullopt;
  JsonFields at(*field, in.file(), in.path_of(name), in.problems());
  Position p;
  const std::size_t before = in.problems().size();
  at.require("lat", "degrees north, -90 to 90");
  at.require("lon", "degrees east, -180 to 180");
  at.number("lat", {-90.0, 90.0}, [&](double value) { p.latitude = value; });
  at.number("lon", {-180.0, 180.0}, [&](double value) { p.longitude = value; });
  at.finish();
  if (in.problems().size() != before) return std::nullopt;
  return p;
}

Json write_position(const Position& p) {
  return Json{{"lat", plain_number(p.latitude)}, {"lon", plain_number(p.longitude)}};
}

void read_place(JsonFields& point, RideCrewPoint& into) {
  const auto each = [&](std::string_view list, const auto& read) {
    point.items(list, [&](const Json& item, const std::string& path) {
      JsonFields at(item, point.file(), path, point.problems());
      read(at, into);
    });
  };
  point.text("approach", into.approach, true);
  each("hazards", [](JsonFields& at, RideCrewPoint& to) {
    RideHazard hazard;
    at.require("what", "say what to beware of");
    at.text("what", hazard.what);
    hazard.position = read_position(at, "position");
    at.finish();
    to.hazards.push_back(std::move(hazard));
  });
  point.texts("allowed", into.allowed);
  point.text("recce", into.recce, true);
  each("photos", read_photo);
  each("passes", read_correction);
}

void write_place(Json& item, const RideCrewPoint& point) {
  if (!point.approach.empty()) item["approach"] = point.approach;
  for (const RideHazard& hazard : point.hazards) {
    Json one{{"what", hazard.what}};
    if (hazard.position) one["position"] = write_position(*hazard.position);
    item["hazards"].push_back(std::move(one));
  }
  if (!point.allowed.empty()) item["allowed"] = point.allowed;
  if (!point.recce.empty()) item["recce"] = point.recce;
  for (const RidePhoto& photo : point.photos) {
    Json one{{"file", photo.file}};
    if (!photo.alt.empty()) one["alt"] = photo.alt;
    item["photos"].push_back(std::move(one));
  }
  for (const PassCorrection& correction : point.corrections) {
    Json one{{"loop", correction.loop.value + 1}};
    if (correction.nth_in_loop != 1) one["nth"] = correction.nth_in_loop;
    // Ten decimals come back to the same micrometre.
    one["km"] = plain_number(std::round(in_kilometres(correction.along) * 1e10) / 1e10);
    item["passes"].push_back(std::move(one));
  }
}

}  // namespace outbye
