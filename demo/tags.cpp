#include "demo/drawing.h"

namespace outbye::demo {
namespace {

std::string highway(RoadClass road) {
  switch (road) {
    case RoadClass::primary:
      return "primary";
    case RoadClass::secondary:
      return "secondary";
    case RoadClass::tertiary:
      return "tertiary";
    case RoadClass::unclassified:
      return "unclassified";
    case RoadClass::residential:
      return "residential";
    case RoadClass::service:
      return "service";
    case RoadClass::track:
      return "track";
    case RoadClass::bridleway:
      return "bridleway";
    case RoadClass::footpath:
      break;
  }
  return "footway";
}

std::string track_surface(std::uint8_t grade) {
  const char* const surfaces[] = {"asphalt", "gravel", "compacted", "ground", "grass"};
  return surfaces[(grade - 1) % 5];
}

}  // namespace

std::vector<Tag> tags_of(const Net& net, std::uint32_t i, bool bridge, const std::vector<std::string>& street_names,
                         Seed seed) {
  const Link& link = net.links[i];
  const std::uint32_t place = net.sites[link.from].place;
  const bool is_built_up =
      place != nowhere && place == net.sites[link.to].place && net.places[place].kind != PlaceKind::hamlet;
  const double draw = chance(seed, link.street, is_built_up ? place : nowhere, 40);
  std::vector<Tag> tags{{"highway", highway(link.road)}};
  const auto add = [&](const char* key, std::string value) { tags.emplace_back(key, std::move(value)); };

  if (const std::string& name = street_names[link.street]; is_for_cars(link.road) && !name.empty()) add("name", name);
  if (link.road == RoadClass::primary) add("ref", "P" + std::to_string(1 + link.street % 97));
  if (link.road == RoadClass::secondary) add("ref", "S" + std::to_string(100 + link.street % 883));

  switch (link.road) {
    case RoadClass::primary:
    case RoadClass::secondary:
      add("maxspeed", is_built_up ? "30 mph" : draw < 0.3 ? "50 mph" : "60 mph");
      break;
    case RoadClass::tertiary:
      if (is_built_up)
        add("maxspeed", "30 mph");
      else if (draw < 0.5)
        add("maxspeed", draw < 0.2 ? "40 mph" : "60 mph");
      break;
    case RoadClass::unclassified:
      if (draw < 0.2) add("maxspeed", "60 mph");
      break;
    case RoadClass::residential:
      add("maxspeed", draw < 0.4 ? "20 mph" : "30 mph");
      break;
    default:
      break;
  }
  if (link.road <= RoadClass::residential) add("surface", "asphalt");
  if (link.road == RoadClass::service && chance(seed, i, 0, 41) < 0.5) add("service", "driveway");
  if (link.road == RoadClass::track) {
    add("tracktype", "grade" + std::to_string(static_cast<int>(link.grade)));
    add("surface", track_surface(link.grade));
    add("horse", "yes");
  }
  if (link.road == RoadClass::bridleway) add("horse", "designated");
  if (link.is_one_way) add("oneway", "yes");
  if (link.is_private) add("access", "private");
  if (bridge) {
    add("bridge", "yes");
    add("layer", "1");
  }
  return tags;
}

}  // namespace outbye::demo
