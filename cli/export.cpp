// outbye export: the planned meets on a GPS device.
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "core/base/text.h"
#include "formats/file_io/file_io.h"
#include "formats/plan_gpx/plan_gpx.h"

namespace outbye {
namespace {

struct ExportOptions {
  std::string file;
  std::string out;
  std::string car;
  bool drive_tracks{};
  bool no_routes{};
  bool course{};
  bool all_points{};
  bool force{};
};

Result<std::optional<CarId>> car_named(const RidePlan& plan, const std::string& name) {
  if (name.empty()) return std::optional<CarId>{};
  std::vector<std::string_view> names;
  for (std::uint32_t i = 0; i < plan.task.cars.size(); ++i) {
    if (same_name(plan.task.cars[i].name, name)) return std::optional<CarId>{CarId{i}};
    names.push_back(plan.task.cars[i].name);
  }
  const auto nearest = nearest_name(name, names);
  std::string known;
  for (const auto car : names) known += (known.empty() ? "" : ", ") + std::string(car);
  return bad_input("--car", "'" + name + "' is no car of this ride; " +
                                (nearest ? "did you mean '" + std::string(*nearest) + "'?" : "known: " + known));
}

ExitCode export_plan(const ExportOptions& options, Console& console) {
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  if (auto ok = check_writable(options.out, existing); !ok) return console.report(ok.error());
  const auto planned = load_and_plan(options.file, console);
  if (!planned) return console.report(planned.error());
  PlanGpxOptions wanted;
  wanted.drives_as_routes = !options.no_routes;
  wanted.drives_as_tracks = options.drive_tracks;
  wanted.course = options.course;
  wanted.points_not_met = options.all_points;
  const auto car = car_named(planned->plan, options.car);
  if (!car) return console.report(car.error());
  wanted.only_car = *car;
  const GpxOutput gpx = plan_gpx(planned->plan, wanted);
  if (auto ok = write_whole_file(options.out, write_gpx(gpx), existing); !ok) return console.report(ok.error());
  console.print("Wrote " + options.out + ": " + std::to_string(gpx.waypoints.size()) + " waypoints, " +
                std::to_string(gpx.routes.size()) + " routes, " + std::to_string(gpx.tracks.size()) + " tracks\n");
  return ExitCode::good;
}

}  // namespace

Command add_export(CLI::App& all) {
  auto options = std::make_shared<ExportOptions>();
  CLI::App* app = all.add_subcommand(
      "export",
      "Write the planned meets as GPX 1.1 for GPS devices. A waypoint a meet with its due window, leave-by and "
      "note; a route a drive.");
  app->add_option("RIDE", options->file, "The ride file")->required()->type_name("FILE");
  app->add_option("--out", options->out, "The GPX file to write")->required()->type_name("FILE");
  app->add_option("--car", options->car, "Only this car's day")->type_name("NAME");
  app->add_flag("--no-routes", options->no_routes, "Leave the drives out");
  app->add_flag("--drive-tracks", options->drive_tracks, "The drives as tracks too, point by point");
  app->add_flag("--course", options->course, "The loops of the course as tracks");
  app->add_flag("--all-points", options->all_points, "Crew points that no car meets as well");
  app->add_flag("--force", options->force, "Replace a file that is already there");
  app->footer("Example: outbye export ride.json --out meets.gpx --car Van");
  return {app, [options](Console& console) { return export_plan(*options, console); }};
}

}  // namespace outbye
