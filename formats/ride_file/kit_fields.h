// Kit in the ride file: "kit", and what a horse likes to drink and goes on: horses[].likes, horses[].feet.
#pragma once

#include "engine/ride.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

// Reads the field "kit". Names in it are checked here unless the ride has catalogues of its own in files.kit (to be
// read before), which only the reader of files knows.
void read_kit(JsonFields& in, Ride& ride);
std::optional<Json> write_kit(const RideKit& kit);  // nothing: all at its default

void read_likes(JsonFields& horse, RideHorse& into);
void write_likes(Json& horse, const RideHorse& from);

// Calls visit(name, number, range) with each figure of the settings that is a plain number.
template <class Settings, class Visit>
void each_kit_setting(Settings& settings, Visit visit) {
  visit("wash_at_gate_litres", settings.wash_at_gate.value, Range{0.0, 200.0});
  visit("wash_at_pass_litres", settings.wash_at_pass.value, Range{0.0, 200.0});
  visit("others_least_litres", settings.others_least.value, Range{0.0, 200.0});
  visit("others_share", settings.others_share, Range{0.0, 2.0});
  visit("other_drink_litres", settings.other_drink.value, Range{0.0, 30.0});
  visit("box_leak_w_per_k", settings.box_leak_w_per_k, Range{0.0, 10.0});
  visit("ice_per_box_kg", settings.ice_per_box.value, Range{0.5, 100.0});
  visit("temperature_if_unknown_c", settings.weather_unknown.value, Range{-40.0, 50.0});
  visit("ice_spare", settings.ice_spare, Range{0.0, 2.0});
  visit("feed_dry_kg", settings.feed_dry_at_gate.value, Range{0.0, 5.0});
  visit("feed_water_litres_per_kg", settings.feed_water_l_per_kg, Range{0.0, 10.0});
  visit("crew_fluid_litres_per_h", settings.crew_fluid_l_per_h, Range{0.0, 2.0});
  visit("crew_fluid_hot_litres_per_h", settings.crew_fluid_hot_l_per_h, Range{0.0, 2.0});
  visit("meals_per_loop", settings.meals_per_loop, Range{0.0, 5.0});
  visit("fuel_litres_per_100km", settings.fuel_l_per_100km, Range{0.0, 40.0});
  visit("idling_litres_per_h", settings.idling_l_per_h, Range{0.0, 5.0});
  visit("way_there_and_back_km", settings.drive_back_km, Range{0.0, 5000.0});
  visit("not_dry", settings.not_dry, Range{0.5, 0.999});
}

}  // namespace outbye
