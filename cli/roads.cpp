// outbye roads: import a road map once, and drive between two places.
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "cli/plan_table.h"
#include "cli/text_layout.h"
#include "core/base/text.h"
#include "core/roads/route.h"
#include "formats/file_io/file_io.h"
#include "formats/osm/load_roads.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

struct RoadsOptions {
  std::vector<std::string> files;
  std::string from;
  std::string to;
  std::string country{"GB"};
  bool ferries{};
  bool no_cache{};
  bool json{};
};

struct NamedPlace {
  std::string name;
  Position position;
};

// What the roads come from: maps, or a ride that names maps and places.
struct Source {
  std::vector<std::filesystem::path> maps;
  RoadOptions options;
  std::vector<NamedPlace> places;
  Metres snap_limit{250.0};
};

Outcome<Source> source_of(const RoadsOptions& options, Console& console) {
  Source source;
  source.options.country = options.country;
  source.options.ferries = options.ferries;
  if (options.files.size() == 1) {
    const auto bytes = read_whole_file(options.files[0]);
    if (!bytes) return tl::make_unexpected(std::vector<Problem>{bytes.error()});
    if (is_json(*bytes)) {
      const auto loaded = load_ride(options.files[0], WithRoads::no, console);
      if (!loaded) return tl::make_unexpected(loaded.error());
      const Ride& ride = loaded->inputs.ride;
      if (ride.road_files.empty()) {
        return tl::make_unexpected(
            std::vector<Problem>{{Problem::Kind::bad_input, options.files[0] + ": files.roads",
                                  "is missing; name a road map there (.osm.pbf), or give the map itself"}});
      }
      const auto folder = std::filesystem::path(options.files[0]).parent_path();
      for (const auto& file : ride.road_files) source.maps.push_back(folder / file);
      source.options.country = ride.country;
      source.options.ferries = ride.ferries;
      source.snap_limit = ride.snap_limit;
      const auto survey = survey_course(loaded->inputs);
      if (!survey) return tl::make_unexpected(std::vector<Problem>{survey.error()});
      source.places.push_back({ride.venue, survey->venue});
      for (std::size_t i = 0; i < survey->course.crew_points.size(); ++i) {
        const auto& point = survey->course.crew_points[i];
        const bool has_parking = i < ride.crew_points.size() && ride.crew_points[i].parking.has_value();
        source.places.push_back({point.name, has_parking ? *ride.crew_points[i].parking : point.position});
      }
      return source;
    }
  }
  source.maps.assign(options.files.begin(), options.files.end());
  return source;
}

// "54.5,-2.5" or the name of a place of the ride.
Result<NamedPlace> place_from(const std::string& text, const std::string& option, const Source& source) {
  if (const auto position = position_from(text)) {
    if (!is_on_earth(*position)) {
      return bad_input(option, "'" + text + "' is not on Earth; give latitude,longitude in degrees like 54.52,-2.31");
    }
    return NamedPlace{text, *position};
  }
  std::vector<std::string_view> names;
  for (const auto& place : source.places) {
    if (same_name(place.name, text)) return place;
    names.push_back(place.name);
  }
  const auto nearest = nearest_name(text, names);
  if (nearest)
    return bad_input(option, "'" + text + "' is no place of the ride; did you mean '" + std::string(*nearest) + "'?");
  return bad_input(option, "'" + text + "' is neither latitude,longitude like 54.52,-2.31 nor a place of the ride" +
                               (names.empty() ? " (a map alone has no places)" : ""));
}

struct DriveAnswer {
  NamedPlace from, to;
  Snap start, end;
  Route route;
};

Result<DriveAnswer> drive(const RoadsOptions& options, const Source& source, const RoadGraph& roads) {
  const auto from = place_from(options.from, "--from", source);
  if (!from) return tl::make_unexpected(from.error());
  const auto to = place_from(options.to, "--to", source);
  if (!to) return tl::make_unexpected(to.error());
  const auto start = snap(roads, from->position, source.snap_limit);
  if (!start) return bad_input("--from " + options.from, start.error().what);
  const auto end = snap(roads, to->position, source.snap_limit);
  if (!end) return bad_input("--to " + options.to, end.error().what);
  auto route = fastest_route(roads, *start, *end);
  if (!route) {
    return impossible(options.from + " to " + options.to,
                      "there is no way by car on this map; is the map large enough, or is a ferry needed (--ferries)?");
  }
  return DriveAnswer{*from, *to, *start, *end, std::move(*route)};
}

Json drive_json(const DriveAnswer& answer) {
  Json turns = Json::array();
  for (const auto& turn : answer.route.turns) {
    turns.push_back(Json{{"text", describe(turn)},
                         {"road", turn.road},
                         {"length_km", rounded(in_kilometres(turn.length), 3)},
                         {"time_min", rounded(in_minutes(turn.time), 2)},
                         {"position", json_of(turn.position)}});
  }
  const auto end_of = [](const NamedPlace& place, const Snap& snap) {
    return Json{{"name", place.name},
                {"position", json_of(place.position)},
                {"to_road_m", rounded(snap.distance.value, 1)},
                {"road", snap.road}};
  };
  return Json{{"from", end_of(answer.from, answer.start)},
              {"to", end_of(answer.to, answer.end)},
              {"length_km", rounded(in_kilometres(answer.route.drive.length), 3)},
              {"at_limits_min", rounded(in_minutes(answer.route.drive.time), 2)},
              {"turns", std::move(turns)}};
}

ExitCode roads(const RoadsOptions& options, Console& console) {
  if (options.from.empty() != options.to.empty()) {
    return console.report(Problem{Problem::Kind::bad_input, "command line", "--from and --to go together; give both"});
  }
  auto source = source_of(options, console);
  if (!source) return console.report(source.error());
  const auto loaded =
      load_roads(source->maps, source->options, options.no_cache ? "" : cache_folder(),
                 {[&console](const std::string& step, double share) { console.progress(step, share); }});
  console.end_progress();
  if (!loaded) return console.report(loaded.error());
  std::optional<DriveAnswer> answer;
  if (!options.from.empty()) {
    auto found = drive(options, *source, loaded->graph);
    if (!found) return console.report(found.error());
    answer = std::move(*found);
  }
  const RoadGraph& graph = loaded->graph;
  const auto box = graph.box();
  if (options.json) {
    Json json{{"format", "outbye roads"},
              {"version", 1},
              {"nodes", graph.node_count()},
              {"edges", graph.edge_count()},
              {"turn_restrictions", graph.restriction_count()},
              {"roads_km", rounded(in_kilometres(graph.total_length()), 1)},
              {"south_west", json_of(box.south_west)},
              {"north_east", json_of(box.north_east)},
              {"country", source->options.country},
              {"from_cache", loaded->from_cache},
              {"cache_file", loaded->cache_file.string()}};
    if (answer) json["drive"] = drive_json(*answer);
    json["warnings"] = json_of(loaded->warnings);
    console.print(pretty_json(json));
    return ExitCode::good;
  }
  const Style style = console.style_of_output();
  std::string text;
  if (answer) {
    text += style.heading(cut_to(answer->from.name, 37) + " to " + cut_to(answer->to.name, 37)) + "\n";
    text += wrapped(fixed(in_kilometres(answer->route.drive.length), 1) + " km, " +
                    fixed(in_minutes(answer->route.drive.time), 1) + " min at the limits; joins the roads " +
                    fixed(answer->start.distance.value, 0) + " m and " + fixed(answer->end.distance.value, 0) +
                    " m from the places");
    for (const auto& turn : answer->route.turns) text += wrapped(describe(turn), "  ");
  } else {
    text += wrapped(std::to_string(graph.edge_count()) + " roads between " + std::to_string(graph.node_count()) +
                    " junctions and ends, " + fixed(in_kilometres(graph.total_length()), 0) + " km, " +
                    std::to_string(graph.restriction_count()) + " turn restrictions");
    text += wrapped("From " + fixed(box.south_west.latitude, 4) + "," + fixed(box.south_west.longitude, 4) + " to " +
                    fixed(box.north_east.latitude, 4) + "," + fixed(box.north_east.longitude, 4) +
                    "; default limits of " + source->options.country);
    if (loaded->from_cache) {
      text += "Taken from the cache.\n";
    } else if (!loaded->cache_file.empty()) {
      text += "Imported; next time it comes from the cache.\n";
    } else {
      text += "Imported, without a cache.\n";
    }
  }
  text += warnings_section(loaded->warnings, style);
  console.print(text);
  return ExitCode::good;
}

}  // namespace

Command add_roads(CLI::App& all) {
  auto options = std::make_shared<RoadsOptions>();
  CLI::App* app = all.add_subcommand(
      "roads",
      "Import a road map once, or drive between two places. The import is kept in a cache keyed by the content "
      "of the maps ($OUTBYE_CACHE, else $XDG_CACHE_HOME/outbye, else ~/.cache/outbye).");
  app->add_option("FILE", options->files, "A ride file, or OpenStreetMap extracts (.osm.pbf, .osm)")
      ->required()
      ->type_name("FILE");
  app->add_option("--from", options->from, "Where a drive starts: latitude,longitude or a place of the ride")
      ->type_name("PLACE");
  app->add_option("--to", options->to, "Where it ends")->type_name("PLACE");
  app->add_option("--country", options->country, "Default limits of this country for maps given alone (GB, DE, ...)")
      ->type_name("CODE");
  app->add_flag("--ferries", options->ferries, "Use car ferries");
  app->add_flag("--no-cache", options->no_cache, "Neither read nor write the cache");
  add_json_flag(*app, options->json);
  app->footer(
      "Example: outbye roads ride.json --from CP1 --to CP2\n"
      "         outbye roads map.osm.pbf --from 54.52,-2.31 --to 54.49,-2.28");
  return {app, [options](Console& console) { return roads(*options, console); }};
}

}  // namespace outbye
