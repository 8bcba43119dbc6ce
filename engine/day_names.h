// What the names in a day log mean on this ride: horses, cars, places, and which passing of a place. Internal to
// engine.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/live/day_event.h"
#include "engine/use_cases.h"

namespace outbye {

class DayNames {
 public:
  explicit DayNames(const RidePlan& plan) : plan_(plan) {}

  // Errors: not_found with the nearest name. Empty names: the first.
  Result<HorseId> horse(const std::string& name_or_number) const;
  Result<CarId> car(const std::string& name) const;
  Result<PlaceId> place(const std::string& name) const;
  std::optional<HorseId> horse_with_number(const std::string& number) const;

  bool is_at(const RideEvent& event, PlaceId place) const;  // a gate or the finish is at the venue
  // Events of a horse at a place.
  std::vector<std::size_t> events_at(PlaceId place) const;
  // The event at a place that fits a time best, by the plan's times moved by `shift`; loop and pass as noted.
  // Errors: not_found when the horse never passes there (on that loop).
  Result<std::size_t> event_at(HorseId horse, const DayEntry& entry, PlaceId place, Instant when, Seconds shift) const;

  Instant due(HorseId horse, std::size_t event) const;  // by the plan, median
  const std::vector<RideEvent>& events() const { return plan_.task.horses.front().events; }
  MeetOptionId option(HorseId horse, std::size_t event) const;
  std::string label(HorseId horse, std::size_t event) const;
  std::string place_name(PlaceId place) const;

 private:
  const RidePlan& plan_;
};

}  // namespace outbye
