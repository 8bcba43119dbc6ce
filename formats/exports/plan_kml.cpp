#include "core/base/text.h"
#include "formats/exports/exports.h"
#include "formats/exports/plan_words.h"
#include "formats/exports/stop_lines.h"
#include "formats/gpx/utf8.h"

namespace outbye {
namespace {

std::string xml(std::string_view text) {
  std::string out;
  for (const char c : xml_text(text)) {
    out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  }
  return out;
}

// Longitude before latitude, as KML has it.
std::string pair_of(Position at) { return fixed(at.longitude, 7) + "," + fixed(at.latitude, 7); }

std::string point(const std::string& name, const std::string& words, const char* style, Position at) {
  return "<Placemark><name>" + xml(name) + "</name><description>" + xml(words) + "</description><styleUrl>#" + style +
         "</styleUrl><Point><coordinates>" + pair_of(at) + "</coordinates></Point></Placemark>\n";
}

template <class Points, class ToPosition>
std::string line(const std::string& name, const std::string& words, const char* style, const Points& points,
                 ToPosition position) {
  std::string out = "<Placemark><name>" + xml(name) + "</name><description>" + xml(words) +
                    "</description><styleUrl>#" + style +
                    "</styleUrl><LineString><tessellate>1</tessellate><coordinates>";
  bool is_first = true;
  for (const auto& at : points) {
    out += (is_first ? "" : " ") + pair_of(position(at));
    is_first = false;
  }
  return out + "</coordinates></LineString></Placemark>\n";
}

std::string folder(const std::string& name, const std::string& inside) {
  return inside.empty() ? "" : "<Folder><name>" + xml(name) + "</name>\n" + inside + "</Folder>\n";
}

constexpr const char* head =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document>\n";
// Colours are aabbggrr; names and folders say the same without them.
constexpr const char* styles =
    "<Style id=\"meet\"><LabelStyle><scale>1</scale></LabelStyle></Style>\n"
    "<Style id=\"other\"><LabelStyle><scale>0.8</scale></LabelStyle></Style>\n"
    "<Style id=\"drive\"><LineStyle><color>ff404040</color><width>4</width></LineStyle></Style>\n"
    "<Style id=\"course\"><LineStyle><color>ffb05000</color><width>3</width></LineStyle></Style>\n";

}  // namespace

std::string plan_kml(const RidePlan& plan, const ExportChoice& choice) {
  std::string out = std::string(head) + "<name>" + xml(plan.ride.name.empty() ? "Crew plan" : plan.ride.name) +
                    "</name>\n<description>" + xml(export_words(plan)) + "</description>\n" + styles;
  for (std::size_t d = 0; d < plan.plan.days.size(); ++d) {
    const CarDay& day = plan.plan.days[d];
    if (choice.only_car && day.car != *choice.only_car) continue;
    std::string stops, drives;
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const TimedStop& stop = day.stops[s];
      const std::string name = numbered(s + 1, stop_words(plan, stop));
      stops += point(name, stop_line(plan, day, s), stop.stop.option ? "meet" : "other",
                     at(plan.places, stop.place).position);
      if (const Route* route = drive_into(plan, d, s)) {
        drives += line("Drive to " + name, drive_line(stop), "drive", route->geometry, [](Position at) { return at; });
      }
    }
    out += folder(car_words(plan, day.car), stops + folder("Drives", drives));
  }
  std::string not_met;
  for (const CrewPoint* other : points_without_stop(plan, choice)) {
    not_met += point(other->name, other->note, "other", other->position);
  }
  out += folder("Crew points without a stop", not_met);
  if (choice.with_course) {
    std::string loops;
    for (std::uint32_t l = 0; l < plan.survey.course.loops.size(); ++l) {
      const Loop& loop = plan.survey.course.loops[l];
      loops += line(loop_words(plan, LoopId{l}), fixed(in_kilometres(loop.length), 1) + " km", "course", loop.points,
                    [](const CoursePoint& at) { return at.position; });
    }
    out += folder("Course", loops);
  }
  return out + "</Document>\n</kml>\n";
}

}  // namespace outbye
