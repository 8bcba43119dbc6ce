#include "formats/packed_ride/packed_ride.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "core/course/profile.h"
#include "formats/packed_ride/pack_fields.h"
#include "formats/ride_file/ride_file.h"
#include "formats/rule_book/rule_book_file.h"

namespace outbye {
namespace {

constexpr std::string_view format_name = "outbye packed ride";

// Another document inside this one, without the layout that it has as a file.
Json inner(const std::string& text) { return parse_json(text, "packed ride").value_or(Json()); }

Json ride_document(Ride ride) {
  // Every time is written with its offset, so that reading needs no database of time zones; the clock is a field apart.
  ride.clock = Clock{"UTC", {}};
  ride.weather_file.reset();  // its hours are in the ride
  return inner(write_ride_file(ride));
}

PackedCourse packed(const CourseReport& survey) {
  PackedCourse course{{},           survey.course.crew_points, survey.course.passes, survey.course.warnings,
                      survey.venue, survey.assumptions};
  for (const Loop& loop : survey.course.loops) {
    PackedLoop to{loop.name, {}, {}, {}};
    for (const CoursePoint& point : loop.points) {
      to.line.lat.push_back(point.position.latitude);
      to.line.lon.push_back(point.position.longitude);
      to.along.push_back(point.along);
      to.elevation.push_back(point.elevation);
    }
    course.loops.push_back(std::move(to));
  }
  return course;
}

Result<Loop> unpacked(PackedLoop from, const CourseSettings& settings) {
  const std::size_t n = from.along.size();
  const std::string where = "packed ride: loop '" + from.name + "'";
  if (n < 2 || from.line.lat.size() != n || from.line.lon.size() != n || from.elevation.size() != n) {
    return bad_input(where, "has columns of different lengths, or fewer than two points");
  }
  Loop loop;
  loop.name = std::move(from.name);
  for (std::size_t i = 0; i < n; ++i) {
    if (i == 0 ? from.along[i] != Metres{0} : from.along[i] <= from.along[i - 1]) {
      return bad_input(where, "does not go on at point " + std::to_string(i + 1));
    }
    loop.points.push_back({{from.line.lat[i], from.line.lon[i]}, from.along[i], from.elevation[i]});
  }
  loop.length = from.along.back();
  if (loop.length > kilometres(1000)) return bad_input(where, "is longer than 1000 km");
  loop.profile = make_profile(loop.points, settings.profile_step, settings.smoothing);
  const Climb climb = climb_of(loop.profile.elevation, settings.climb_threshold);
  loop.climb = climb.up;
  loop.descent = climb.down;
  return loop;
}

Result<CourseReport> unpacked(PackedCourse from, const CourseSettings& settings) {
  CourseReport report;
  report.venue = from.venue;
  report.assumptions = std::move(from.assumptions);
  Course& course = report.course;
  for (PackedLoop& packed_loop : from.loops) {
    auto loop = unpacked(std::move(packed_loop), settings);
    if (!loop) return tl::unexpected(loop.error());
    course.length += loop->length;
    course.loops.push_back(std::move(*loop));
  }
  if (course.loops.empty()) return bad_input("packed ride: course", "has no loop");
  for (const Pass& pass : from.passes) {
    const bool is_there = pass.loop.value < course.loops.size() && pass.crew_point.value < from.crew_points.size() &&
                          pass.along >= Metres{0} && pass.along <= at(course.loops, pass.loop).length;
    if (!is_there) return bad_input("packed ride: passes", "are of a loop or crew point that is not there");
  }
  course.crew_points = std::move(from.crew_points);
  course.passes = std::move(from.passes);
  course.warnings = std::move(from.warnings);
  return report;
}

using DriveRows = std::vector<std::vector<std::optional<Drive>>>;

DriveRows rows_of(const DriveTable& table) {
  DriveRows rows(table.size());
  for (std::uint32_t i = 0; i < table.size(); ++i) {
    for (std::uint32_t j = 0; j < table.size(); ++j) rows[i].push_back(table.drive(PlaceId{i}, PlaceId{j}));
  }
  return rows;
}

Result<DriveTable> table_of(const DriveRows& rows, const std::vector<PlaceReport>& places) {
  std::vector<std::string> names;
  for (const PlaceReport& place : places) names.push_back(place.name);
  DriveTable table(names);
  bool is_square = rows.size() == table.size();
  for (std::uint32_t i = 0; is_square && i < rows.size(); ++i) {
    is_square = rows[i].size() == table.size();
    for (std::uint32_t j = 0; is_square && j < rows.size(); ++j) {
      const auto& drive = rows[i][j];
      if (drive && (drive->time < Seconds{0} || drive->length < Metres{0})) {
        return bad_input("packed ride: drives", "has one of less than no time");
      }
      table.set(PlaceId{i}, PlaceId{j}, drive);
    }
  }
  if (!is_square) return bad_input("packed ride: drives", "has not a row and a column for each place");
  return table;
}

// What is beside the ride file and the rule books.
struct Parts {
  std::string packed_by{OUTBYE_VERSION};
  Clock clock;
  PackedCourse course;
  std::vector<PlaceReport> places;
  DriveRows drives;
  CrewPlan plan;
  ErrandPlan errands;
  std::vector<std::vector<std::optional<Route>>> routes;
  std::vector<KitEntry> kit;
  Warnings warnings;
  std::vector<std::string> assumptions;
};
template <class A>
void fields(A& a, Parts& p) {
  a("packed_by", p.packed_by);
  a("clock", p.clock);
  a("course", p.course);
  a("places", p.places);
  a("drives", p.drives);
  a("plan", p.plan);
  a("errands", p.errands);
  a("routes", p.routes);
  a("kit", p.kit);
  a("warnings", p.warnings);
  a("assumptions", p.assumptions);
}

// Such a number would be written as null, and be lost where null may stand.
bool has_number_without_end(const Json& json) {
  if (json.is_number_float()) return !std::isfinite(json.get<double>());
  if (!json.is_structured()) return false;
  return std::any_of(json.begin(), json.end(), has_number_without_end);
}

Result<std::vector<RuleBook>> read_books(const Json& document) {
  std::vector<RuleBook> books;
  const auto found = document.find("rule_books");
  if (found == document.end()) return books;
  for (const Json& item : *found) {
    auto book = read_rule_book(item.dump(), "packed ride: rule book");
    if (!book) return tl::unexpected(book.error());
    books.push_back(std::move(*book));
  }
  return books;
}

Result<void> check_version(const Json& document) {
  const auto format = document.find("format");
  if (format == document.end() || *format != format_name) {
    return bad_input("packed ride", "is some other file; `outbye pack` makes one");
  }
  const auto version = document.find("version");
  if (version == document.end() || *version != packed_ride_version) {
    return bad_input("packed ride", "is of another version of outbye; pack the ride again");
  }
  return {};
}

}  // namespace

Result<std::string> packed_ride(const RideInputs& inputs, const RidePlan& plan, const std::vector<KitEntry>& kit) {
  DecidedPlan decided = decided_plan(inputs, plan);
  Json document{{"format", format_name}, {"version", packed_ride_version}};
  Json books = Json::array();
  for (const RuleBook& book : decided.rule_books) books.push_back(inner(write_rule_book(book)));
  Parts parts;
  parts.clock = decided.ride.clock;
  parts.course = packed(decided.survey);
  parts.places = std::move(decided.places);
  parts.drives = rows_of(decided.drives);
  parts.plan = std::move(decided.plan);
  parts.errands = std::move(decided.errands);
  parts.routes = std::move(decided.routes);
  parts.kit = kit;
  parts.warnings = std::move(decided.warnings);
  parts.assumptions = std::move(decided.assumptions);
  document["ride"] = ride_document(std::move(decided.ride));
  document["rule_books"] = std::move(books);
  document.update(Packer::packed(parts));
  if (has_number_without_end(document))
    return impossible("plan", "holds a number without end; this is our own mistake");
  return document.dump() + "\n";
}

Result<RidePlan> open_packed_ride(std::string_view text) {
  const auto document = parse_json(text, "packed ride");
  if (!document) return tl::unexpected(document.error());
  auto day = open_packed_day(*document);
  if (!day) return tl::unexpected(day.error());
  return std::move(day->plan);
}

Result<PackedDay> open_packed_day(const Json& document) {
  if (!document.is_object()) return bad_input("packed ride", "is some other file; `outbye pack` makes one");
  if (auto ok = check_version(document); !ok) return tl::unexpected(ok.error());
  Parts parts;
  std::optional<Problem> problem;
  const PackPath top;
  Unpacker(document, top, problem).read(document, top, parts);
  if (problem) return tl::unexpected(*problem);
  const auto ride_json = document.find("ride");
  if (ride_json == document.end()) return bad_input("packed ride: ride", "is missing");
  DecidedPlan decided;
  auto ride = read_ride_file(ride_json->dump(), "packed ride: ride");
  if (!ride) return tl::unexpected(ride.error());
  decided.ride = std::move(*ride);
  decided.ride.clock = std::move(parts.clock);
  auto books = read_books(document);
  if (!books) return tl::unexpected(books.error());
  decided.rule_books = std::move(*books);
  auto survey = unpacked(std::move(parts.course), decided.ride.course);
  if (!survey) return tl::unexpected(survey.error());
  decided.survey = std::move(*survey);
  auto drives = table_of(parts.drives, parts.places);
  if (!drives) return tl::unexpected(drives.error());
  decided.drives = std::move(*drives);
  decided.places = std::move(parts.places);
  decided.plan = std::move(parts.plan);
  decided.errands = std::move(parts.errands);
  decided.routes = std::move(parts.routes);
  decided.warnings = std::move(parts.warnings);
  decided.assumptions = std::move(parts.assumptions);
  auto plan = dressed_plan(std::move(decided));
  if (!plan) return tl::unexpected(plan.error());
  return PackedDay{std::move(*plan), std::move(parts.kit), std::move(parts.packed_by)};
}

}  // namespace outbye
