// outbye heat: what the weather does to horse and people, hour by hour, at one place.
#include <chrono>
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "cli/plan_table.h"
#include "cli/text_layout.h"
#include "cli/welfare_table.h"
#include "core/base/text.h"
#include "core/welfare/crew_heat.h"
#include "core/welfare/heat_load.h"
#include "core/welfare/sun.h"
#include "formats/answer_json/answer_json.h"
#include "formats/file_io/file_io.h"
#include "formats/new_ride/guess_zone.h"
#include "formats/plan_json/welfare_json.h"
#include "formats/time_zone/time_zone.h"
#include "formats/weather/weather_csv.h"

namespace outbye {
namespace {

struct HeatOptions {
  std::string file;
  std::string place;
  std::string zone;
  std::string time;
  std::string temperature;
  std::string humidity;
  std::string wind;
  std::string cloud;
  std::string radiation;
  bool acclimatised{};
  bool json{};
};

// What the answer is worked out from, however it was given.
struct HeatQuestion {
  Weather weather;
  Position place;
  Clock clock;
  HeatSettings settings;
  std::string about;  // the ride's name, the file, or nothing
};

Result<Position> place_from(const std::string& text) {
  const auto position = position_from(text);
  if (position && is_on_earth(*position)) return *position;
  return bad_input("--place", "'" + text + "' is not a place; write degrees north and east, like 54.10,-2.30");
}

Result<Instant> time_from(const std::string& text, const std::string& zone) {
  const std::string whole = text.size() == 10 ? text + "T12:00" : text;  // a day alone: its noon
  const auto written = parse_written_time(whole);
  if (!written) return bad_input("--time", written.error().where + " " + written.error().what);
  const auto at = to_instant(*written, zone);
  if (!at) return bad_input("--time", at.error().where + " " + at.error().what);
  return *at;
}

// Errors: a number out of range; nothing when the option was not given.
Result<std::optional<double>> measure(const std::string& text, const std::string& option, double from, double to) {
  if (text.empty()) return std::optional<double>{};
  const auto value = parse_decimal(text);
  if (value && *value >= from && *value <= to) return std::optional<double>{*value};
  return bad_input(option, "is '" + text + "', but must be a number from " + fixed(from, 0) + " to " + fixed(to, 0));
}

Result<WeatherHour> typed_hour(const HeatOptions& options, Instant at) {
  WeatherHour hour;
  hour.at = at;
  const auto temperature = measure(options.temperature, "--temperature", -60, 60);
  if (!temperature) return tl::make_unexpected(temperature.error());
  const auto humidity = measure(options.humidity, "--humidity", 0, 100);
  if (!humidity) return tl::make_unexpected(humidity.error());
  const auto wind = measure(options.wind, "--wind", 0, 216);
  if (!wind) return tl::make_unexpected(wind.error());
  const auto cloud = measure(options.cloud, "--cloud", 0, 100);
  if (!cloud) return tl::make_unexpected(cloud.error());
  const auto radiation = measure(options.radiation, "--radiation", 0, 1500);
  if (!radiation) return tl::make_unexpected(radiation.error());
  if (!*temperature || !*humidity) {
    return bad_input("heat", "needs a file of the weather, or --temperature and --humidity; see outbye heat --help");
  }
  hour.temperature = {**temperature};
  hour.humidity = {**humidity};
  if (*wind) hour.wind = MetresPerSecond{**wind / 3.6};
  if (*cloud) hour.cloud = **cloud / 100.0;
  if (*radiation) hour.radiation = WattsPerSquareMetre{**radiation};
  return hour;
}

// A ride file brings its own place, zone and day.
Outcome<HeatQuestion> of_ride(const HeatOptions& options, Console& console) {
  auto loaded = load_ride(options.file, WithRoads::no, console);
  if (!loaded) return tl::make_unexpected(loaded.error());
  const auto survey = survey_course(loaded->inputs);
  if (!survey) return tl::make_unexpected(std::vector<Problem>{survey.error()});
  const Ride& ride = loaded->inputs.ride;
  if (ride.weather.empty()) {
    return tl::make_unexpected(std::vector<Problem>{
        {Problem::Kind::bad_input, options.file,
         "says nothing of the weather; give it a \"weather\" list or \"files\": {\"weather\": \"weather.csv\"}"}});
  }
  return HeatQuestion{ride.weather, survey->venue, ride.clock, ride.heat, ride.name};
}

Outcome<HeatQuestion> asked(const HeatOptions& options, Console& console) {
  const auto refused = [](const Problem& problem) { return tl::make_unexpected(std::vector<Problem>{problem}); };
  std::string text;
  if (!options.file.empty()) {
    auto bytes = read_whole_file(options.file, 10'000'000);
    if (!bytes) return refused(bytes.error());
    if (is_json(*bytes)) return of_ride(options, console);
    if (const auto other = looks_like(*bytes); !other.empty()) {
      return refused({Problem::Kind::bad_input, options.file,
                      "is " + other + ", but the weather is a table in CSV or a ride file"});
    }
    text = std::move(*bytes);
  }
  if (options.place.empty()) {
    return refused({Problem::Kind::bad_input, "heat",
                    "needs --place, degrees north and east like 54.10,-2.30: the sun's height depends on it"});
  }
  const auto place = place_from(options.place);
  if (!place) return refused(place.error());
  std::string zone = options.zone;
  if (zone.empty()) {
    const auto guess = nearest_zone_here(*place);
    zone = guess ? guess->zone : "UTC";
  }
  Instant at = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  if (!options.time.empty()) {
    const auto typed = time_from(options.time, zone);
    if (!typed) return refused(typed.error());
    at = *typed;
  }
  auto clock = clock_for_zone(zone, at);
  if (!clock) return refused({clock.error().kind, "--zone", clock.error().where + " " + clock.error().what});
  HeatQuestion question{{}, *place, *clock, {}, options.file};
  if (options.file.empty()) {
    const auto hour = typed_hour(options, at);
    if (!hour) return refused(hour.error());
    question.weather = {*hour};
  } else {
    auto weather = read_weather_csv(text, options.file, *clock, at);
    if (!weather) return refused(weather.error());
    question.weather = std::move(*weather);
  }
  return question;
}

std::string work_over_limit(Celsius wbgt, bool acclimatised) {
  const auto heat = crew_heat(wbgt, acclimatised);
  return heat.above_limit.empty() ? "none" : std::string(work_rate_name(heat.above_limit.front())) + " and up";
}

std::string hour_row(const WeatherHour& hour, const HeatLoad& load, const Clock& clock, bool acclimatised) {
  return hours_minutes(hour.at, clock) + right(fixed(hour.temperature.value, 1), 6) +
         right(fixed(hour.humidity.value, 0), 5) + right(hour.wind ? fixed(3.6 * hour.wind->value, 0) : "-", 5) +
         right(fixed(load.wbgt.value, 1), 6) + (load.full ? " " : "*") + right(fixed(load.bom_wbgt.value, 1), 5) +
         right(fixed(load.sum, 0), 6) + "  " + left(word(load.band), 16) + "  " +
         cut_to(work_over_limit(load.wbgt, acclimatised), 20) + "\n";
}

std::string answer_text(const HeatQuestion& question, const std::vector<HeatLoad>& loads, bool acclimatised,
                        const Style& style) {
  const Weather& weather = question.weather;
  std::string text;
  if (!question.about.empty()) text += style.heading(cut_to(question.about, line_width)) + "\n";
  text += long_date(weather.front().at, question.clock) + ", times in " + question.clock.zone + "\n";
  text += style.quiet("time      C   %RH km/h  WBGT short F+%RH  heat for a horse  over people's limit") + "\n";
  std::size_t worst = 0;
  bool has_short = false;
  for (std::size_t i = 0; i < weather.size(); ++i) {
    if (i > 0 && local_date(weather[i].at, question.clock) != local_date(weather[i - 1].at, question.clock)) {
      text += long_date(weather[i].at, question.clock) + "\n";
    }
    text += hour_row(weather[i], loads[i], question.clock, acclimatised);
    has_short = has_short || !loads[i].full;
    if (is_worse(loads[i], loads[worst])) worst = i;
  }
  if (has_short) {
    text += wrapped("short form: the full model needs wind, and radiation or cloud.", "* ");
  }
  const HeatLoad& load = loads[worst];
  const HeatAdvice words = advice(load.band);
  text +=
      "\n" + style.heading("Worst at " + hours_minutes(weather[worst].at, question.clock) + ": " + words.name) + "\n";
  text += wrapped(std::string("Set by ") +
                      (load.set_by == HeatLoad::Index::wbgt ? "WBGT " + fixed(load.wbgt.value, 1)
                                                            : "degrees F + %RH " + fixed(load.sum, 0)) +
                      "; the worse of the two counts.",
                  "  ");
  for (const auto& sentence : words.do_now) text += wrapped(sentence, "  - ");
  text += wrapped("Source: " + words.source, "  ");
  for (const auto& note : load.notes) text += wrapped(note, "  ! ");
  const auto people = crew_heat(load.wbgt, acclimatised);
  if (!people.sentences.empty()) {
    text += "\n" + style.heading("For the people") + "\n";
    for (const auto& sentence : people.sentences) text += wrapped(sentence, "  - ");
    text += wrapped("Source: " + people.source, "  ");
  }
  text += "\n" + wrapped(sun_sentence(sun_times(question.place, local_midnight(weather.front().at, question.clock)),
                                      question.clock));
  text += wrapped("An estimate: measure on the day, at the place. The officials and the vets decide.");
  return text;
}

ExitCode heat(const HeatOptions& options, Console& console) {
  const auto question = asked(options, console);
  if (!question) return console.report(question.error());
  std::vector<HeatLoad> loads;
  for (const auto& hour : question->weather) {
    loads.push_back(heat_load(hour, question->place, hour.at, question->settings));
  }
  if (!options.json) {
    console.print(answer_text(*question, loads, options.acclimatised, console.style_of_output()));
    return ExitCode::good;
  }
  const HeatHours hours{question->weather, question->place, question->clock, loads};
  console.print(pretty_json(heat_json(hours, options.acclimatised)));
  return ExitCode::good;
}

}  // namespace

Command add_heat(CLI::App& all) {
  auto options = std::make_shared<HeatOptions>();
  CLI::App* app = all.add_subcommand(
      "heat",
      "What the weather does to horse and people. Hour by hour: WBGT and the sum of degrees F and humidity side by "
      "side, the band of the worse one with its advice, the limits for people at work, and the light.");
  app->add_option("FILE", options->file, "The weather as a table (CSV), or a ride file that has it")->type_name("FILE");
  app->add_option("--place", options->place, "Degrees north and east, like 54.10,-2.30")->type_name("LAT,LON");
  app->add_option("--time", options->time, "Of the weather typed in, or the day of the table [now]")->type_name("TIME");
  app->add_option("--zone", options->zone, "Time zone, like Europe/London [of the place]")->type_name("ZONE");
  app->add_option("--temperature", options->temperature, "In the shade, degrees C, without a file")->type_name("C");
  app->add_option("--humidity", options->humidity, "Relative, 0 to 100")->type_name("PERCENT");
  app->add_option("--wind", options->wind, "At 10 m, km/h")->type_name("KMH");
  app->add_option("--cloud", options->cloud, "Share of the sky, 0 to 100")->type_name("PERCENT");
  app->add_option("--radiation", options->radiation, "Global, on level ground, W/m2")->type_name("W");
  app->add_flag("--acclimatised", options->acclimatised, "The people are used to the heat");
  add_json_flag(*app, options->json);
  app->footer(
      "Example: outbye heat --temperature 30 --humidity 50 --wind 7 --cloud 20 \\\n"
      "           --place 54.10,-2.30");
  return {app, [options](Console& console) { return heat(*options, console); }};
}

}  // namespace outbye
