#include "engine/day_names.h"

#include <cmath>

#include "core/base/text.h"
#include "engine/places.h"
#include "engine/tasks.h"

namespace outbye {
namespace {

std::string did_you_mean(const std::string& name, const std::vector<std::string_view>& known) {
  const auto nearest = nearest_name(name, known);
  return nearest ? "; did you mean '" + std::string(*nearest) + "'?" : "; correct the name";
}

}  // namespace

Result<HorseId> DayNames::horse(const std::string& name) const {
  if (name.empty()) return HorseId{0};
  std::vector<std::string_view> known;
  for (std::uint32_t h = 0; h < plan_.ride.horses.size(); ++h) {
    const RideHorse& horse = plan_.ride.horses[h];
    if (same_name(horse.name, name) || (!horse.number.empty() && same_name(horse.number, name))) return HorseId{h};
    known.push_back(horse.name);
  }
  return not_found("horse", "'" + name + "' is not a horse of this ride" + did_you_mean(name, known));
}

std::optional<HorseId> DayNames::horse_with_number(const std::string& number) const {
  for (std::uint32_t h = 0; h < plan_.ride.horses.size(); ++h) {
    const std::string& ours = plan_.ride.horses[h].number;
    if (!ours.empty() && same_name(ours, trimmed(number))) return HorseId{h};
  }
  return std::nullopt;
}

Result<CarId> DayNames::car(const std::string& name) const {
  if (name.empty()) return CarId{0};
  std::vector<std::string_view> known;
  for (std::uint32_t c = 0; c < plan_.task.cars.size(); ++c) {
    if (same_name(plan_.task.cars[c].name, name)) return CarId{c};
    known.push_back(plan_.task.cars[c].name);
  }
  return not_found("car", "'" + name + "' is not a car of this ride" + did_you_mean(name, known));
}

Result<PlaceId> DayNames::place(const std::string& name) const {
  std::vector<std::string_view> known;
  for (std::uint32_t p = 0; p < plan_.places.size(); ++p) {
    if (same_name(plan_.places[p].name, name)) return PlaceId{p};
    known.push_back(plan_.places[p].name);
  }
  return not_found("place", "'" + name + "' is not a place of this ride" + did_you_mean(name, known));
}

bool DayNames::is_at(const RideEvent& event, PlaceId place) const {
  if (!event.pass) return place == venue_place();
  return crew_point_place(at(plan_.survey.course.passes, *event.pass).crew_point) == place;
}

std::vector<std::size_t> DayNames::events_at(PlaceId place) const {
  std::vector<std::size_t> found;
  for (std::size_t e = 0; e < events().size(); ++e) {
    if (is_at(events()[e], place)) found.push_back(e);
  }
  return found;
}

Result<std::size_t> DayNames::event_at(HorseId horse, const DayEntry& entry, PlaceId place, Instant when,
                                       Seconds shift) const {
  std::optional<std::size_t> best;
  double nearest = 0;
  for (const std::size_t e : events_at(place)) {
    const RideEvent& event = events()[e];
    if (entry.loop && *entry.loop != event.loop.value + 1) continue;
    if (entry.nth && event.pass && *entry.nth != at(plan_.survey.course.passes, *event.pass).nth_in_loop) continue;
    const double off = std::fabs((when - (due(horse, e) + shift)).count());
    if (best && off >= nearest) continue;
    best = e;
    nearest = off;
  }
  if (best) return *best;
  std::string what = "no horse passes " + place_name(place);
  if (entry.loop) what += " on loop " + std::to_string(*entry.loop);
  if (entry.nth) what += " a " + std::to_string(*entry.nth) + ". time";
  return not_found("place", what + "; correct place, loop or pass");
}

Instant DayNames::due(HorseId horse, std::size_t event) const {
  return plan_.passes[horse.value * events().size() + event].due.p50;
}

MeetOptionId DayNames::option(HorseId horse, std::size_t event) const {
  return {static_cast<std::uint32_t>(horse.value * events().size() + event)};
}

std::string DayNames::label(HorseId horse, std::size_t event) const {
  return at(plan_.task.options, option(horse, event)).label;
}

std::string DayNames::place_name(PlaceId place) const { return at(plan_.places, place).name; }

}  // namespace outbye
