#include <cmath>

#include "formats/json_text/json_text.h"
#include "formats/ride_file/boot_fields.h"
#include "formats/ride_file/emergency_fields.h"
#include "formats/ride_file/kit_fields.h"
#include "formats/ride_file/place_fields.h"
#include "formats/ride_file/ride_file.h"
#include "formats/ride_file/ride_helpers.h"
#include "formats/rule_book/rule_book_file.h"

namespace outbye {
namespace {

// Ten decimals are enough to come back to the same microsecond or micrometre, and read better than all seventeen
// digits.
double short_enough(double value) { return std::fabs(value) < 1e5 ? std::round(value * 1e10) / 1e10 : value; }
Json in_min(Seconds duration) { return plain_number(short_enough(in_minutes(duration))); }
Json in_km(Metres length) { return plain_number(short_enough(in_kilometres(length))); }

Json hours(const std::vector<Interval<Instant>>& open, const Clock& clock) {
  Json list = Json::array();
  for (const auto& interval : open) {
    list.push_back(Json{{"from", iso8601(interval.from, clock)}, {"to", iso8601(interval.to, clock)}});
  }
  return list;
}

Json going(const std::vector<GoingSection>& sections) {
  Json list = Json::array();
  for (const auto& section : sections) {
    Json item{{"from_km", in_km(section.from)}, {"to_km", in_km(section.to)}, {"factor", plain_number(section.factor)}};
    if (!section.what.empty()) item["what"] = section.what;
    list.push_back(std::move(item));
  }
  return list;
}

bool same(const std::vector<GoingSection>& a, const std::vector<GoingSection>& b) { return going(a) == going(b); }

// Speed and hold always; the rest where it differs from `usual`.
void add_pace(Json& json, const LoopPace& pace, const LoopPace* usual) {
  json["speed_kmh"] = plain_number(pace.speed.value);
  if (usual == nullptr || pace.is_average != usual->is_average) json["speed_is"] = pace.is_average ? "average" : "flat";
  if (usual == nullptr || pace.heat_factor != usual->heat_factor) json["heat_factor"] = plain_number(pace.heat_factor);
  if (usual == nullptr ? !pace.going.empty() : !same(pace.going, usual->going)) json["going"] = going(pace.going);
  if (usual == nullptr || pace.recovery.median != usual->recovery.median) {
    json["recovery_min"] = in_min(pace.recovery.median);
  }
  if (usual == nullptr || pace.recovery.log_sd != usual->recovery.log_sd) {
    json["recovery_log_sd"] = plain_number(pace.recovery.log_sd);
  }
  json["hold_min"] = in_min(pace.hold);
}

Json loops(const Ride& ride) {
  Json list = Json::array();
  for (const auto& loop : ride.loops) {
    Json item = Json::object();
    if (!loop.name.empty()) item["name"] = loop.name;
    if (!loop.tracks.empty()) item["tracks"] = loop.tracks;
    if (loop.reversed) item["reversed"] = true;
    add_pace(item, loop.pace, &ride.default_pace);
    list.push_back(std::move(item));
  }
  return list;
}

Json crew_points(const Ride& ride) {
  Json list = Json::array();
  for (const auto& point : ride.crew_points) {
    Json item{{"name", point.name}};
    if (point.position) item["position"] = write_position(*point.position);
    if (point.parking) item["parking"] = write_position(*point.parking);
    if (!point.note.empty()) item["note"] = point.note;
    if (point.is_closed) item["closed"] = true;
    if (!point.open.empty()) item["open"] = hours(point.open, ride.clock);
    if (point.setup) item["setup_min"] = in_min(*point.setup);
    if (point.pack) item["pack_min"] = in_min(*point.pack);
    if (point.has_water) item["has_water"] = true;
    write_place(item, point);
    list.push_back(std::move(item));
  }
  return list;
}

const char* word(MeetOption::Demand demand) {
  switch (demand) {
    case MeetOption::Demand::must:
      return "must";
    case MeetOption::Demand::never:
      return "never";
    case MeetOption::Demand::free:
      break;
  }
  return "free";
}

Json wishes(const Ride& ride) {
  Json list = Json::array();
  for (const auto& wish : ride.wishes) {
    Json item{{"crew_point", wish.crew_point}};
    if (wish.loop) item["loop"] = *wish.loop;
    if (wish.nth) item["nth"] = *wish.nth;
    if (wish.horse) item["horse"] = *wish.horse;
    if (wish.demand) item["demand"] = word(*wish.demand);
    if (wish.worth) item["worth"] = plain_number(*wish.worth);
    if (wish.stop) item["stop_min"] = in_min(*wish.stop);
    if (wish.water) item["water_litres"] = plain_number(wish.water->value);
    if (wish.car) item["car"] = *wish.car;
    list.push_back(std::move(item));
  }
  return list;
}

Json intakes(const RideHorse& horse) {
  Json list = Json::array();
  for (const auto& intake : horse.intakes) {
    Json item{{"place", intake.place}, {"loop", intake.loop}};
    if (intake.nth != 1) item["nth"] = intake.nth;
    if (intake.drank) item["drank_litres"] = plain_number(intake.drank->value);
    if (intake.salt != Grams{}) item["salt_g"] = plain_number(intake.salt.value);
    if (intake.potassium_chloride != Grams{})
      item["potassium_chloride_g"] = plain_number(intake.potassium_chloride.value);
    list.push_back(std::move(item));
  }
  return list;
}

Json horses(const Ride& ride) {
  Json list = Json::array();
  for (const auto& horse : ride.horses) {
    Json item{{"name", horse.name}};
    if (!horse.rider.empty()) item["rider"] = horse.rider;
    if (!horse.rider_phone.empty()) item["rider_phone"] = horse.rider_phone;
    if (!horse.number.empty()) item["number"] = horse.number;
    if (horse.start_after != Seconds{0}) item["start_after_min"] = in_min(horse.start_after);
    if (horse.speeds) {
      Json speeds = Json::array();
      for (const auto speed : *horse.speeds) speeds.push_back(plain_number(speed.value));
      item["speeds_kmh"] = std::move(speeds);
    }
    if (horse.mass) item["mass_kg"] = plain_number(horse.mass->value);
    if (horse.rider_weight) item["rider_weight_kg"] = plain_number(horse.rider_weight->value);
    if (horse.is_acclimatised) item["acclimatised"] = true;
    if (horse.is_novice) item["novice"] = true;
    if (horse.sweat_factor != 1.0) item["sweat_factor"] = plain_number(horse.sweat_factor);
    if (!horse.intakes.empty()) item["intakes"] = intakes(horse);
    write_likes(item, horse);
    list.push_back(std::move(item));
  }
  return list;
}

Json cars(const Ride& ride) {
  Json list = Json::array();
  for (const auto& car : ride.cars) {
    Json item{{"name", car.name}};
    if (car.start) item["start"] = *car.start;
    if (car.ready_from) item["ready_from"] = iso8601(*car.ready_from, ride.clock);
    if (car.end) item["end"] = *car.end;
    if (car.back_by) item["back_by"] = iso8601(*car.back_by, ride.clock);
    item["water_litres"] = plain_number(car.water_capacity.value);
    item["fuel_range_km"] = in_km(car.fuel_range);
    item["fuel_reserve"] = plain_number(car.fuel_reserve);
    item["longest_driving_min"] = in_min(car.longest_driving);
    item["break_min"] = in_min(car.break_length);
    if (car.boot) item["boot"] = write_boot(*car.boot);
    list.push_back(std::move(item));
  }
  return list;
}

Json refills(const Ride& ride) {
  Json list = Json::array();
  for (const auto& refill : ride.refills) {
    Json item{{"name", refill.name}, {"position", write_position(refill.position)}};
    if (refill.water) item["water"] = true;
    if (refill.fuel) item["fuel"] = true;
    item["duration_min"] = in_min(refill.duration);
    if (!refill.open.empty()) item["open"] = hours(refill.open, ride.clock);
    list.push_back(std::move(item));
  }
  return list;
}

Json errands(const Ride& ride) {
  Json list = Json::array();
  for (const auto& errand : ride.errands) {
    Json item{{"name", errand.name}, {"position", write_position(errand.position)}};
    item["duration_min"] = in_min(errand.duration);
    item["worth"] = plain_number(errand.worth);
    if (!errand.open.empty()) item["open"] = hours(errand.open, ride.clock);
    if (errand.has_ice) item["ice"] = true;
    list.push_back(std::move(item));
  }
  return list;
}

Json weather(const Ride& ride) {
  Json list = Json::array();
  for (const auto& hour : ride.weather) {
    Json item{{"time", iso8601(hour.at, ride.clock)},
              {"temperature_c", plain_number(hour.temperature.value)},
              {"humidity_pct", plain_number(hour.humidity.value)}};
    if (hour.wind) item["wind_ms"] = plain_number(hour.wind->value);
    if (hour.radiation) item["radiation_wm2"] = plain_number(hour.radiation->value);
    if (hour.cloud) item["cloud_pct"] = plain_number(short_enough(100.0 * *hour.cloud));
    if (hour.pressure) item["pressure_hpa"] = plain_number(hour.pressure->value);
    if (hour.rain_mm) item["rain_mm"] = plain_number(*hour.rain_mm);
    list.push_back(std::move(item));
  }
  return list;
}

Json heat(const Ride& ride) {
  Json speeds = Json::array();
  for (const double factor : ride.heat.speed_factor) speeds.push_back(plain_number(factor));
  Json worths = Json::array();
  for (const double factor : ride.heat.weight_factor) worths.push_back(plain_number(factor));
  return Json{{"slows", ride.heat_slows},
              {"speed_factors", std::move(speeds)},
              {"worth_factors", std::move(worths)},
              {"sum_counts_from_c", plain_number(ride.heat.sum_counts_from.value)},
              {"urban", ride.heat.urban}};
}

template <std::size_t n, class Unit>
Json steps(const std::array<Quantity<Unit>, n>& values) {
  Json list = Json::array();
  for (const auto value : values) list.push_back(plain_number(value.value));
  return list;
}

Json care(const Ride& ride) {
  return Json{{"sweat_litres_per_hour", steps(ride.sweat.rate)},
              {"sweat_range", plain_number(ride.sweat.range)},
              {"sweat_standing", plain_number(ride.sweat.standing)},
              {"wbgt_if_unknown_c", plain_number(ride.sweat.weather_unknown.value)},
              {"offer_at_pass_litres", plain_number(ride.drinks.field_offer.value)},
              {"offer_at_gate_litres", plain_number(ride.drinks.gate_offer.value)},
              {"pour_at_pass_litres", steps(ride.cooling.at_pass)},
              {"pour_at_gate_litres", steps(ride.cooling.at_gate)},
              {"cold_water_c", plain_number(ride.cooling.cold_water.value)},
              {"carried_water_c", plain_number(ride.carried_water.value)}};
}

Json waters(const Ride& ride) {
  Json list = Json::array();
  for (const auto& water : ride.waters) {
    Json item{{"loop", water.loop}, {"km", in_km(water.along)}};
    if (!water.name.empty()) item["name"] = water.name;
    list.push_back(std::move(item));
  }
  return list;
}

Json crewing(const CrewingSettings& from) {
  return Json{{"part_worth", plain_number(from.part_worth)},
              {"confidence", plain_number(from.confidence)},
              {"give_up", plain_number(from.give_up)},
              {"longest_wait_min", in_min(from.longest_wait)},
              {"water_interval_km", in_km(from.water_interval)},
              {"gap_penalty_per_km", plain_number(from.gap_penalty)},
              {"drive_allowance", plain_number(from.drive_allowance)},
              {"drive_log_sd", plain_number(from.drive_log_sd)}};
}

Json course(const CourseSettings& from) {
  return Json{{"pass_distance_m", plain_number(from.pass_distance.value)},
              {"pass_separation_m", plain_number(from.pass_separation.value)},
              {"refuse_gap_m", plain_number(from.refuse_gap.value)},
              {"warn_gap_m", plain_number(from.warn_gap.value)},
              {"far_crew_point_m", plain_number(from.far_crew_point.value)},
              {"climb_threshold_m", plain_number(from.climb_threshold.value)},
              {"profile_step_m", plain_number(from.profile_step.value)},
              {"smoothing_m", plain_number(from.smoothing.value)}};
}

}  // namespace

std::string write_ride_file(const Ride& ride) {
  Json json{{"version", ride_file_version}};
  if (!ride.name.empty()) json["name"] = ride.name;
  json["start"] = iso8601(ride.start, ride.clock);
  json["time_zone"] = ride.clock.zone;
  json["country"] = ride.country;
  json["venue"] = Json{{"name", ride.venue}};
  if (ride.venue_position) json["venue"]["position"] = write_position(*ride.venue_position);
  Json files{{"course", ride.course_files}};
  if (!ride.road_files.empty()) files["roads"] = ride.road_files;
  if (!ride.elevation_files.empty()) files["elevation"] = ride.elevation_files;
  if (ride.drive_times_file) files["drive_times"] = *ride.drive_times_file;
  if (ride.weather_file) files["weather"] = *ride.weather_file;
  if (!ride.rule_files.empty()) files["rules"] = ride.rule_files;
  if (!ride.kit_files.empty()) files["kit"] = ride.kit_files;
  json["files"] = std::move(files);
  Json pace = Json::object();
  add_pace(pace, ride.default_pace, nullptr);
  json["default_pace"] = std::move(pace);
  if (!ride.loops.empty()) json["loops"] = loops(ride);
  if (!ride.crew_points.empty()) json["crew_points"] = crew_points(ride);
  if (!ride.wishes.empty()) json["wishes"] = wishes(ride);
  if (!ride.horses.empty()) json["horses"] = horses(ride);
  if (!ride.cars.empty()) json["cars"] = cars(ride);
  if (!ride.refills.empty()) json["refills"] = refills(ride);
  if (!ride.errands.empty()) json["errands"] = errands(ride);
  // Hours from a file stay there.
  if (!ride.weather.empty() && !ride.weather_file) json["weather"] = weather(ride);
  json["heat"] = heat(ride);
  json["care"] = care(ride);
  json["worth_of_water"] = plain_number(ride.worth_of_water);
  if (!ride.waters.empty()) json["waters"] = waters(ride);
  if (ride.rules) json["rules"] = write_rule_choice(*ride.rules);
  if (ride.crew) json["crew"] = *ride.crew;
  if (!ride.helpers.empty()) json["helpers"] = write_helpers(ride.helpers);
  if (Json emergency = write_emergency(ride.emergency); !emergency.empty()) json["emergency"] = std::move(emergency);
  json["stop_min"] = in_min(ride.stop.median);
  json["stop_log_sd"] = plain_number(ride.stop.log_sd);
  json["start_delay_min"] = in_min(ride.start_delay.median);
  json["start_delay_log_sd"] = plain_number(ride.start_delay.log_sd);
  json["setup_min"] = in_min(ride.setup);
  json["pack_min"] = in_min(ride.pack);
  json["water_per_meet_litres"] = plain_number(ride.water_per_meet.value);
  json["gate_worth"] = plain_number(ride.gate_worth);
  json["finish_worth"] = plain_number(ride.finish_worth);
  json["spread"] = Json{{"ride", plain_number(ride.spread.ride)},
                        {"loop", plain_number(ride.spread.loop)},
                        {"within", plain_number(ride.spread.within)},
                        {"within_length_km", in_km(ride.spread.within_length)}};
  json["crewing"] = crewing(ride.crewing);
  json["course"] = course(ride.course);
  json["snap_limit_m"] = plain_number(ride.snap_limit.value);
  json["ferries"] = ride.ferries;
  json["simulated_days"] = ride.days;
  json["seed"] = ride.seed.value;
  if (const auto kit = write_kit(ride.kit)) json["kit"] = *kit;
  if (!ride.assumptions.empty()) json["assumptions"] = ride.assumptions;
  return pretty_json(json);
}

}  // namespace outbye
