#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "core/base/text.h"
#include "formats/json_text/json_fields.h"
#include "formats/ride_file/boot_fields.h"
#include "formats/ride_file/check_ride.h"
#include "formats/ride_file/emergency_fields.h"
#include "formats/ride_file/kit_fields.h"
#include "formats/ride_file/place_fields.h"
#include "formats/ride_file/ride_file.h"
#include "formats/ride_file/ride_helpers.h"
#include "formats/rule_book/rule_book_file.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

constexpr Range share{0.0, 1.0};
constexpr Range log_sd{0.0, 2.0};
constexpr Range minutes_of_a_day{0.0, 1440.0};
constexpr Range speed{0.0, 60.0, true};
constexpr Range worth{0.0, 1000.0};

// To the microsecond and micrometre: what is written as minutes or kilometres comes back as the same seconds and
// metres.
double on_grid(double value) { return std::round(value * 1e6) / 1e6; }
Seconds seconds_of(double min) { return Seconds{on_grid(60.0 * min)}; }
Metres metres_of(double km) { return {on_grid(1000.0 * km)}; }

// Everything that fields of different objects share.
struct Reader {
  std::string file;
  Problems problems;
  Clock clock;

  JsonFields fields(const Json& value, const std::string& path) { return {value, file, path, problems}; }

  std::optional<Instant> time(JsonFields& in, std::string_view name) {
    std::string text;
    in.text(name, text);
    if (text.empty()) return std::nullopt;
    const auto written = parse_written_time(text);
    if (!written) {
      in.report(name, written.error().where + " " + written.error().what);
      return std::nullopt;
    }
    const auto instant = to_instant(*written, clock);
    if (!instant) {
      in.report(name, instant.error().where + " " + instant.error().what);
      return std::nullopt;
    }
    return Instant{Seconds{std::floor(instant->time_since_epoch().count() + 0.5)}};  // whole seconds are stored
  }

  void duration(JsonFields& in, std::string_view name, Seconds& into, Range range = minutes_of_a_day) {
    in.number(name, range, [&](double min) { into = seconds_of(min); });
  }
  void duration(JsonFields& in, std::string_view name, std::optional<Seconds>& into) {
    in.number(name, minutes_of_a_day, [&](double min) { into = seconds_of(min); });
  }
  void length_m(JsonFields& in, std::string_view name, Metres& into, Range range) {
    in.number(name, range, [&](double m) { into = {on_grid(m)}; });
  }
  void length_km(JsonFields& in, std::string_view name, Metres& into, Range range) {
    in.number(name, range, [&](double km) { into = metres_of(km); });
  }
  void plain(JsonFields& in, std::string_view name, double& into, Range range) {
    in.number(name, range, [&](double value) { into = value; });
  }

  std::vector<Interval<Instant>> open_hours(JsonFields& in) {
    std::vector<Interval<Instant>> open;
    in.items("open", [&](const Json& item, const std::string& path) {
      JsonFields hours = fields(item, path);
      hours.require("from", "write when it opens");
      hours.require("to", "write when it closes");
      const auto from = time(hours, "from");
      const auto to = time(hours, "to");
      hours.finish();
      if (!from || !to) return;
      if (*to <= *from) {
        return hours.report("to", "closes at " + iso8601(*to, clock) + ", not after it opens at " +
                                      iso8601(*from, clock) + "; put the later time here");
      }
      open.push_back({*from, *to});
    });
    return open;
  }
};

void read_pace(Reader& reader, JsonFields& in, LoopPace& pace) {
  reader.plain(in, "speed_kmh", pace.speed.value, speed);
  std::string meaning;
  in.text("speed_is", meaning);
  if (meaning == "average") {
    pace.is_average = true;
  } else if (meaning == "flat") {
    pace.is_average = false;
  } else if (!meaning.empty()) {
    in.report("speed_is",
              "is '" + meaning + "', but must be \"average\" (over the loop) or \"flat\" (on level, hard going)");
  }
  reader.plain(in, "heat_factor", pace.heat_factor, {0.0, 1.2, true});
  if (in.find("going") != nullptr) pace.going.clear();
  in.items("going", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    GoingSection section;
    at.require("from_km", "where the section begins, km from the start of the loop");
    at.require("to_km", "where the section ends, km from the start of the loop");
    at.require("factor", "of speed: 0.8 is a fifth slower");
    reader.length_km(at, "from_km", section.from, {0.0, 500.0});
    reader.length_km(at, "to_km", section.to, {0.0, 500.0});
    reader.plain(at, "factor", section.factor, {0.0, 1.5, true});
    at.text("what", section.what, true);
    at.finish();
    if (section.to <= section.from) at.report("to_km", "is not beyond from_km; put the greater distance here");
    pace.going.push_back(section);
  });
  reader.duration(in, "recovery_min", pace.recovery.median, {0.0, 120.0});
  reader.plain(in, "recovery_log_sd", pace.recovery.log_sd, log_sd);
  reader.duration(in, "hold_min", pace.hold);
}

void read_loops(Reader& reader, JsonFields& in, Ride& ride) {
  in.items("loops", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    RideLoop loop;
    loop.pace = ride.default_pace;
    at.text("name", loop.name);
    at.texts("tracks", loop.tracks);
    at.flag("reversed", loop.reversed);
    read_pace(reader, at, loop.pace);
    at.finish();
    ride.loops.push_back(std::move(loop));
  });
}

void read_crew_points(Reader& reader, JsonFields& in, Ride& ride) {
  in.items("crew_points", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    RideCrewPoint point;
    at.require("name", "every crew point has a name");
    at.text("name", point.name);
    point.position = read_position(at, "position");
    point.parking = read_position(at, "parking");
    at.text("note", point.note, true);
    at.flag("closed", point.is_closed);
    point.open = reader.open_hours(at);
    reader.duration(at, "setup_min", point.setup);
    reader.duration(at, "pack_min", point.pack);
    at.flag("has_water", point.has_water);
    read_place(at, point);
    at.finish();
    ride.crew_points.push_back(std::move(point));
  });
}

void read_wishes(Reader& reader, JsonFields& in, Ride& ride) {
  in.items("wishes", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    PassWish wish;
    at.require("crew_point", "the name of a crew point, or of the venue for gates and finish");
    at.text("crew_point", wish.crew_point);
    at.whole("loop", 1, 100, [&](std::uint64_t n) { wish.loop = static_cast<std::uint32_t>(n); });
    at.whole("nth", 1, 100, [&](std::uint64_t n) { wish.nth = static_cast<std::uint32_t>(n); });
    at.text("horse", wish.horse);
    std::string demand;
    at.text("demand", demand);
    if (demand == "must") {
      wish.demand = MeetOption::Demand::must;
    } else if (demand == "never") {
      wish.demand = MeetOption::Demand::never;
    } else if (demand == "free") {
      wish.demand = MeetOption::Demand::free;
    } else if (!demand.empty()) {
      at.report("demand", "is '" + demand + "', but must be \"must\", \"never\" or \"free\"");
    }
    at.number("worth", worth, [&](double value) { wish.worth = value; });
    reader.duration(at, "stop_min", wish.stop);
    at.number("water_litres", {0.0, 1000.0}, [&](double value) { wish.water = Litres{value}; });
    at.text("car", wish.car);
    at.finish();
    ride.wishes.push_back(std::move(wish));
  });
}

void read_intakes(Reader& reader, JsonFields& in, RideHorse& horse) {
  in.items("intakes", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    RideIntake intake;
    at.require("place", "the name of a crew point, or of the venue for gates and finish");
    at.text("place", intake.place);
    at.whole("loop", 1, 100, [&](std::uint64_t n) { intake.loop = static_cast<std::uint32_t>(n); });
    at.whole("nth", 1, 100, [&](std::uint64_t n) { intake.nth = static_cast<std::uint32_t>(n); });
    at.number("drank_litres", {0.0, 60.0}, [&](double value) { intake.drank = Litres{value}; });
    at.number("salt_g", {0.0, 500.0}, [&](double value) { intake.salt = {value}; });
    at.number("potassium_chloride_g", {0.0, 500.0}, [&](double value) { intake.potassium_chloride = {value}; });
    at.finish();
    horse.intakes.push_back(std::move(intake));
  });
}

void read_horses_and_cars(Reader& reader, JsonFields& in, Ride& ride) {
  in.items("horses", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    RideHorse horse;
    at.require("name", "every horse has a name");
    at.text("name", horse.name);
    at.text("rider", horse.rider, true);
    at.text("number", horse.number, true);
    read_phone(at, "rider_phone", horse.rider_phone);
    reader.duration(at, "start_after_min", horse.start_after);
    if (at.find("speeds_kmh") != nullptr) horse.speeds.emplace();
    at.items("speeds_kmh", [&](const Json& value, const std::string& where) {
      if (const auto read = at.number_of(value, where, speed)) horse.speeds->push_back({*read});
    });
    at.number("mass_kg", {100.0, 1000.0}, [&](double value) { horse.mass = Kilograms{value}; });
    at.number("rider_weight_kg", {20.0, 200.0}, [&](double value) { horse.rider_weight = Kilograms{value}; });
    at.flag("acclimatised", horse.is_acclimatised);
    at.flag("novice", horse.is_novice);
    reader.plain(at, "sweat_factor", horse.sweat_factor, {0.3, 3.0});
    read_intakes(reader, at, horse);
    read_likes(at, horse);
    at.finish();
    ride.horses.push_back(std::move(horse));
  });
  in.items("cars", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    RideCar car;
    at.require("name", "every car has a name");
    at.text("name", car.name);
    at.text("start", car.start);
    car.ready_from = reader.time(at, "ready_from");
    at.text("end", car.end);
    car.back_by = reader.time(at, "back_by");
    at.number("water_litres", {0.0, 10000.0}, [&](double value) { car.water_capacity = {value}; });
    reader.length_km(at, "fuel_range_km", car.fuel_range, {0.0, 5000.0});
    reader.plain(at, "fuel_reserve", car.fuel_reserve, {0.0, 0.9});
    reader.duration(at, "longest_driving_min", car.longest_driving, {1.0, 1440.0});
    reader.duration(at, "break_min", car.break_length);
    read_boot(at, car.boot);
    at.finish();
    ride.cars.push_back(std::move(car));
  });
}

void read_stops_apart(Reader& reader, JsonFields& in, Ride& ride) {
  const auto place = [&](JsonFields& at, std::string& name, Position& position) {
    at.require("name", "give it one");
    at.require("position", "{\"lat\": 54.5, \"lon\": -2.5}");
    at.text("name", name);
    if (const auto p = read_position(at, "position")) position = *p;
  };
  in.items("refills", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    RideRefill refill;
    place(at, refill.name, refill.position);
    at.flag("water", refill.water);
    at.flag("fuel", refill.fuel);
    reader.duration(at, "duration_min", refill.duration);
    refill.open = reader.open_hours(at);
    at.finish();
    if (!refill.water && !refill.fuel) at.report("water", "neither water nor fuel is true: nothing to fill up here");
    ride.refills.push_back(std::move(refill));
  });
  in.items("errands", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    RideErrand errand;
    place(at, errand.name, errand.position);
    reader.duration(at, "duration_min", errand.duration);
    reader.plain(at, "worth", errand.worth, worth);
    errand.open = reader.open_hours(at);
    at.flag("ice", errand.has_ice);
    at.finish();
    ride.errands.push_back(std::move(errand));
  });
}

void read_factors(Reader& reader, JsonFields& in, std::string_view name, Range range,
                  std::array<double, heat_band_count>& into, bool rises) {
  if (in.find(name) == nullptr) return;
  const std::size_t before = reader.problems.size();
  std::vector<double> factors;
  in.items(name, [&](const Json& value, const std::string& where) {
    if (const auto read = in.number_of(value, where, range)) factors.push_back(*read);
  });
  if (reader.problems.size() != before) return;
  if (factors.size() != into.size()) {
    in.report(name, "has " + std::to_string(factors.size()) + " factors, but there are six bands of heat");
    return;
  }
  if (rises ? !std::is_sorted(factors.begin(), factors.end()) : !std::is_sorted(factors.rbegin(), factors.rend())) {
    in.report(name, rises ? "must not fall from band to band" : "must not rise from band to band");
    return;
  }
  std::copy(factors.begin(), factors.end(), into.begin());
}

// As many numbers as the list has by default, none less than the one before it.
template <std::size_t n, class Unit>
void read_steps(Reader& reader, JsonFields& in, std::string_view name, Range range,
                std::array<Quantity<Unit>, n>& into) {
  if (in.find(name) == nullptr) return;
  const std::size_t before = reader.problems.size();
  std::vector<double> steps;
  in.items(name, [&](const Json& value, const std::string& where) {
    if (const auto read = in.number_of(value, where, range)) steps.push_back(*read);
  });
  if (reader.problems.size() != before) return;
  if (steps.size() != n) {
    in.report(name, "has " + std::to_string(steps.size()) + " numbers, but must have " + std::to_string(n));
  } else if (!std::is_sorted(steps.begin(), steps.end())) {
    in.report(name, "must not fall: hotter never asks for less");
  } else {
    for (std::size_t i = 0; i < n; ++i) into[i] = {steps[i]};
  }
}

void read_care(Reader& reader, JsonFields& in, Ride& ride) {
  const Json* field = in.find("care");
  if (field == nullptr) return;
  JsonFields at = reader.fields(*field, "care");
  const Range litres{0.0, 1000.0};
  read_steps(reader, at, "sweat_litres_per_hour", {0.0, 30.0}, ride.sweat.rate);
  reader.plain(at, "sweat_range", ride.sweat.range, share);
  reader.plain(at, "sweat_standing", ride.sweat.standing, share);
  reader.plain(at, "wbgt_if_unknown_c", ride.sweat.weather_unknown.value, {-60.0, 60.0});
  reader.plain(at, "offer_at_pass_litres", ride.drinks.field_offer.value, litres);
  reader.plain(at, "offer_at_gate_litres", ride.drinks.gate_offer.value, litres);
  read_steps(reader, at, "pour_at_pass_litres", litres, ride.cooling.at_pass);
  read_steps(reader, at, "pour_at_gate_litres", litres, ride.cooling.at_gate);
  reader.plain(at, "cold_water_c", ride.cooling.cold_water.value, {0.0, 40.0});
  reader.plain(at, "carried_water_c", ride.carried_water.value, {0.0, 50.0});
  at.finish();
}

void read_heat(Reader& reader, JsonFields& in, Ride& ride) {
  reader.plain(in, "worth_of_water", ride.worth_of_water, {0.0, 10.0});
  const Json* field = in.find("heat");
  if (field == nullptr) return;
  JsonFields at = reader.fields(*field, "heat");
  at.flag("slows", ride.heat_slows);
  read_factors(reader, at, "speed_factors", {0.0, 1.0, true}, ride.heat.speed_factor, false);
  read_factors(reader, at, "worth_factors", {1.0, 10.0}, ride.heat.weight_factor, true);
  reader.plain(at, "sum_counts_from_c", ride.heat.sum_counts_from.value, {-60.0, 60.0});
  at.flag("urban", ride.heat.urban);
  at.finish();
}

void read_weather(Reader& reader, JsonFields& in, Ride& ride) {
  in.items("weather", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    WeatherHour hour;
    at.require("time", "write when this weather is expected");
    at.require("temperature_c", "in the shade");
    at.require("humidity_pct", "relative, 0 to 100");
    if (const auto time = reader.time(at, "time")) hour.at = *time;
    reader.plain(at, "temperature_c", hour.temperature.value, {-60.0, 60.0});
    reader.plain(at, "humidity_pct", hour.humidity.value, {0.0, 100.0});
    at.number("wind_ms", {0.0, 60.0}, [&](double value) { hour.wind = MetresPerSecond{value}; });
    at.number("radiation_wm2", {0.0, 1500.0}, [&](double value) { hour.radiation = WattsPerSquareMetre{value}; });
    at.number("cloud_pct", {0.0, 100.0}, [&](double value) { hour.cloud = value / 100.0; });
    at.number("pressure_hpa", {500.0, 1100.0}, [&](double value) { hour.pressure = Hectopascals{value}; });
    at.number("rain_mm", {0.0, 300.0}, [&](double value) { hour.rain_mm = value; });
    at.finish();
    ride.weather.push_back(hour);
  });
  in.items("waters", [&](const Json& item, const std::string& path) {
    JsonFields at = reader.fields(item, path);
    RideWater water;
    at.require("loop", "1 is the first");
    at.require("km", "from the start of the loop");
    at.text("name", water.name, true);
    at.whole("loop", 1, 100, [&](std::uint64_t n) { water.loop = static_cast<std::uint32_t>(n); });
    reader.length_km(at, "km", water.along, {0.0, 500.0});
    at.finish();
    ride.waters.push_back(std::move(water));
  });
  if (const Json* field = in.find("rules")) {
    JsonFields at = reader.fields(*field, "rules");
    read_rule_choice(at, ride.rules.emplace());
  }
  in.whole("crew", 0, 50, [&](std::uint64_t n) { ride.crew = static_cast<std::uint32_t>(n); });
}

void read_settings(Reader& reader, JsonFields& in, Ride& ride) {
  reader.duration(in, "stop_min", ride.stop.median);
  reader.plain(in, "stop_log_sd", ride.stop.log_sd, log_sd);
  reader.duration(in, "start_delay_min", ride.start_delay.median);
  reader.plain(in, "start_delay_log_sd", ride.start_delay.log_sd, log_sd);
  reader.duration(in, "setup_min", ride.setup);
  reader.duration(in, "pack_min", ride.pack);
  reader.plain(in, "water_per_meet_litres", ride.water_per_meet.value, {0.0, 1000.0});
  reader.plain(in, "gate_worth", ride.gate_worth, worth);
  reader.plain(in, "finish_worth", ride.finish_worth, worth);
  reader.length_m(in, "snap_limit_m", ride.snap_limit, {1.0, 10000.0});
  in.flag("ferries", ride.ferries);
  in.whole("simulated_days", 64, 1000000, [&](std::uint64_t n) { ride.days = static_cast<std::size_t>(n); });
  in.whole("seed", 0, std::numeric_limits<std::uint64_t>::max(), [&](std::uint64_t n) { ride.seed = {n}; });
  if (const Json* field = in.find("spread")) {
    JsonFields at = reader.fields(*field, "spread");
    reader.plain(at, "ride", ride.spread.ride, share);
    reader.plain(at, "loop", ride.spread.loop, share);
    reader.plain(at, "within", ride.spread.within, share);
    reader.length_km(at, "within_length_km", ride.spread.within_length, {0.0, 500.0, true});
    at.finish();
  }
  if (const Json* field = in.find("crewing")) {
    JsonFields at = reader.fields(*field, "crewing");
    CrewingSettings& to = ride.crewing;
    reader.plain(at, "part_worth", to.part_worth, share);
    reader.plain(at, "confidence", to.confidence, {0.0, 1.0, true});
    reader.plain(at, "give_up", to.give_up, share);
    reader.duration(at, "longest_wait_min", to.longest_wait);
    reader.length_km(at, "water_interval_km", to.water_interval, {0.0, 500.0, true});
    reader.plain(at, "gap_penalty_per_km", to.gap_penalty, {0.0, 100.0});
    reader.plain(at, "drive_allowance", to.drive_allowance, {1.0, 10.0});
    reader.plain(at, "drive_log_sd", to.drive_log_sd, log_sd);
    at.finish();
  }
  if (const Json* field = in.find("course")) {
    JsonFields at = reader.fields(*field, "course");
    CourseSettings& to = ride.course;
    reader.length_m(at, "pass_distance_m", to.pass_distance, {1.0, 2000.0});
    reader.length_m(at, "pass_separation_m", to.pass_separation, {1.0, 50000.0});
    reader.length_m(at, "refuse_gap_m", to.refuse_gap, {1.0, 100000.0});
    reader.length_m(at, "warn_gap_m", to.warn_gap, {1.0, 100000.0});
    reader.length_m(at, "far_crew_point_m", to.far_crew_point, {1.0, 100000.0});
    reader.length_m(at, "climb_threshold_m", to.climb_threshold, {0.0, 100.0});
    reader.length_m(at, "profile_step_m", to.profile_step, {1.0, 1000.0});
    reader.length_m(at, "smoothing_m", to.smoothing, {1.0, 5000.0});
    at.finish();
  }
}

void read_files(Reader& reader, JsonFields& in, Ride& ride) {
  in.require("files", "it names the course: \"files\": {\"course\": [\"course.gpx\"]}");
  const Json* field = in.find("files");
  if (field == nullptr) return;
  JsonFields at = reader.fields(*field, "files");
  at.require("course", "the GPX files of the course");
  at.texts("course", ride.course_files);
  at.texts("roads", ride.road_files);
  at.texts("elevation", ride.elevation_files);
  at.text("drive_times", ride.drive_times_file);
  at.text("weather", ride.weather_file);
  at.texts("rules", ride.rule_files);
  at.texts("kit", ride.kit_files);
  at.finish();
  if (at.find("course") != nullptr && ride.course_files.empty()) {
    at.report("course", "names no file; give the GPX file of the course");
  }
}

// The year is enough to look a zone's offsets up; a start that cannot be read is reported where it is read in earnest.
Instant about_the_start(JsonFields& in) {
  const Json* start = in.find("start");
  if (start == nullptr || !start->is_string()) return Instant{};
  const auto written = parse_written_time(start->get_ref<const std::string&>());
  return written ? Instant{written->local.time_since_epoch()} : Instant{};
}

// The version decides how everything else is read, so a wrong one is the only problem reported.
bool version_is_ours(JsonFields& in) {
  const Json* version = in.find("version");
  if (version == nullptr) {
    in.report("version", "is missing; a ride file says \"version\": 1 (`outbye new` makes one)");
    return false;
  }
  if (version->is_number_integer() && version->get<std::int64_t>() == ride_file_version) return true;
  if (version->is_number_integer() && version->get<std::int64_t>() > ride_file_version) {
    in.report("version", "is " + version->dump() + ", newer than this outbye knows (1); use the outbye that wrote " +
                             "the file, or a newer one");
  } else {
    in.report("version", "is " + version->dump() + ", but must be 1");
  }
  return false;
}

}  // namespace

RideFileReading check_ride_file(std::string_view text, const std::string& file) {
  const auto json = parse_json(text, file);
  if (!json) return {std::nullopt, {json.error()}};
  Reader reader{file, {}, {}};
  if (!json->is_object()) {
    return {std::nullopt, {{Problem::Kind::bad_input, file, "is not a ride file; `outbye new` makes one"}}};
  }
  JsonFields in = reader.fields(*json, "");
  if (!version_is_ours(in)) return {std::nullopt, reader.problems};
  Ride ride;
  in.find("$schema");
  in.text("name", ride.name, true);
  std::string zone = "UTC";
  in.text("time_zone", zone);
  if (const auto clock = clock_for_zone(zone, about_the_start(in))) {
    reader.clock = *clock;
  } else {
    in.report("time_zone", clock.error().where + " " + clock.error().what);
    reader.clock.zone = zone;
  }
  ride.clock = reader.clock;
  in.require("start", "when the ride starts, such as 2026-06-13T07:00");
  if (const auto start = reader.time(in, "start")) ride.start = *start;
  in.country("country", ride.country);
  if (const Json* field = in.find("venue")) {
    JsonFields at = reader.fields(*field, "venue");
    at.text("name", ride.venue);
    ride.venue_position = read_position(at, "position");
    at.finish();
  }
  read_files(reader, in, ride);
  if (const Json* field = in.find("default_pace")) {
    JsonFields at = reader.fields(*field, "default_pace");
    read_pace(reader, at, ride.default_pace);
    at.finish();
  }
  read_loops(reader, in, ride);
  read_crew_points(reader, in, ride);
  read_wishes(reader, in, ride);
  read_horses_and_cars(reader, in, ride);
  read_helpers(in, ride);
  read_emergency(in, ride);
  read_stops_apart(reader, in, ride);
  read_weather(reader, in, ride);
  read_heat(reader, in, ride);
  read_care(reader, in, ride);
  read_settings(reader, in, ride);
  read_kit(in, ride);
  in.texts("assumptions", ride.assumptions);
  in.finish();
  check_ride(ride, file, reader.problems);
  if (!reader.problems.empty()) return {std::nullopt, reader.problems};
  return {std::move(ride), {}};
}

Result<Ride> read_ride_file(std::string_view text, const std::string& file) {
  auto reading = check_ride_file(text, file);
  if (!reading.ride) return tl::make_unexpected(reading.problems.front());
  return std::move(*reading.ride);
}

}  // namespace outbye
