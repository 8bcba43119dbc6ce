#include <cmath>
#include <cstddef>
#include <pugixml.hpp>
#include <utility>

#include "core/base/clock.h"
#include "core/base/text.h"
#include "formats/gpx/gpx.h"
#include "formats/gpx/utf8.h"
#include "formats/gpx/xml_file.h"

namespace outbye {
namespace {

// Many points with the same fault make one warning: the first by its number, the rest by their count.
struct Fault {
  std::string where;
  std::string what;
  std::size_t count{};

  // `place` and `text` are called for the first only: finding a line number scans the file.
  template <class Place, class Text>
  void note(const Place& place, const Text& text) {
    if (count++ > 0) return;
    where = place();
    what = text();
  }
  void tell(Warnings& warnings) const {
    if (count == 0) return;
    std::string text = what;
    if (count > 1) text += " (and " + std::to_string(count - 1) + " more like it)";
    warnings.push_back({where, std::move(text)});
  }
};

struct Faults {
  Fault range, height, time, zone, text, empty;
};

std::string quoted(std::string_view text) { return "'" + xml_text(text.substr(0, 40)) + "'"; }

// One coordinate: a number, whatever its range. Errors: `what` only, the caller knows where.
tl::expected<double, std::string> read_coordinate(pugi::xml_node point, const char* attribute, std::string_view name) {
  const pugi::xml_attribute written = point.attribute(attribute);
  if (!written) return tl::make_unexpected("has no " + std::string(name) + " (attribute " + attribute + ")");
  const std::string_view text = trimmed(written.value());
  if (const std::optional<double> value = parse_decimal(text); value && std::isfinite(*value)) return *value;
  std::string dotted{text};
  const std::size_t comma = dotted.find(',');
  if (comma != std::string::npos) {
    dotted[comma] = '.';
    if (parse_decimal(dotted)) {
      return tl::make_unexpected(std::string(name) + " " + quoted(text) +
                                 " has a decimal comma; GPX wants a point: export the file again with English numbers");
    }
  }
  return tl::make_unexpected(std::string(name) + " " + quoted(text) + " is not a number in degrees, such as 51.5074");
}

bool is_on_earth(Position p) { return std::abs(p.latitude) <= 90 && std::abs(p.longitude) <= 180; }

template <class Place>
std::optional<Metres> read_height(const XmlFile& file, pugi::xml_node point, const Place& where, Fault& fault) {
  const std::string written = file.text_of(point, "ele");
  const std::string_view text = trimmed(written);
  if (text.empty()) return std::nullopt;
  const std::optional<double> value = parse_decimal(text);
  if (value && std::isfinite(*value)) return Metres{*value};
  fault.note(where, [&] { return "height " + quoted(text) + " is not a number in metres; taken as unknown"; });
  return std::nullopt;
}

template <class Place>
std::optional<Instant> read_time(const XmlFile& file, pugi::xml_node point, const Place& where, Faults& faults) {
  const std::string written = file.text_of(point, "time");
  const std::string_view text = trimmed(written);
  if (text.empty()) return std::nullopt;
  const Result<WrittenTime> time = parse_written_time(text);
  if (!time) {
    faults.time.note(where, [&] { return "time " + quoted(text) + " is unreadable and ignored"; });
    return std::nullopt;
  }
  if (!time->offset) {
    faults.zone.note(where, [&] { return "time " + quoted(text) + " names no zone; taken as UTC"; });
  }
  return Instant{time->local.time_since_epoch() - Seconds{time->offset.value_or(std::chrono::minutes{0})}};
}

class Reader {
 public:
  Reader(const XmlFile& xml, GpxDocument& document) : xml_(xml), document_(document) {}

  std::optional<Problem> read(pugi::xml_node root) {
    document_.name = text(xml_.child(root, "metadata"), "name");
    if (document_.name.empty()) document_.name = text(root, "name");  // GPX 1.0
    for (const pugi::xml_node node : root.children()) {
      const std::string_view kind = xml_.gpx_name(node);
      std::optional<Problem> trouble;
      if (kind == "wpt") trouble = read_waypoint(node);
      if (kind == "trk") trouble = read_track(node);
      if (kind == "rte") trouble = read_route(node);
      if (trouble) return trouble;
    }
    for (const Fault* fault :
         {&faults_.range, &faults_.height, &faults_.time, &faults_.zone, &faults_.text, &faults_.empty}) {
      fault->tell(document_.warnings);
    }
    if (document_.tracks.empty() && document_.waypoints.empty()) {
      document_.warnings.push_back({document_.file, "holds no track, route or waypoint"});
    }
    return std::nullopt;
  }

 private:
  std::string text(pugi::xml_node parent, const char* name) {
    const std::string raw = xml_.text_of(parent, name);
    const std::string_view clean = trimmed(raw);
    if (!is_utf8(clean)) {
      faults_.text.note([&] { return document_.file; },
                        [] { return std::string("text that is not UTF-8 shows as replacement characters"); });
    }
    return xml_text(clean);
  }

  std::string place(pugi::xml_node node, const std::string& what) const {
    return document_.file + " line " + std::to_string(xml_.line_of(node)) + ", " + what;
  }

  // Nothing: the point is not on Earth and is left out, with a warning.
  Result<std::optional<Position>> read_position(pugi::xml_node node, const std::string& what) {
    const auto latitude = read_coordinate(node, "lat", "latitude");
    if (!latitude) return bad_input(place(node, what), latitude.error());
    const auto longitude = read_coordinate(node, "lon", "longitude");
    if (!longitude) return bad_input(place(node, what), longitude.error());
    const Position position{*latitude, *longitude};
    if (is_on_earth(position)) return position;
    const bool north_south = std::abs(position.latitude) > 90;
    faults_.range.note([&] { return place(node, what); },
                       [&] {
                         return std::string(north_south ? "latitude " : "longitude ") +
                                quoted(node.attribute(north_south ? "lat" : "lon").value()) + " is out of range (" +
                                (north_south ? "-90 to 90" : "-180 to 180") + "); the point is left out";
                       });
    return std::nullopt;
  }

  std::optional<Problem> read_waypoint(pugi::xml_node node) {
    Waypoint waypoint;
    waypoint.name = text(node, "name");
    std::string what = "waypoint " + std::to_string(++waypoints_);
    if (!waypoint.name.empty()) what += " " + quoted(waypoint.name);
    const auto position = read_position(node, what);
    if (!position) return position.error();
    if (!*position) return std::nullopt;
    waypoint.position = **position;
    waypoint.elevation = read_height(
        xml_, node, [&] { return place(node, what); }, faults_.height);
    waypoint.description = text(node, "desc");
    if (waypoint.description.empty()) waypoint.description = text(node, "cmt");
    waypoint.symbol = text(node, "sym");
    document_.waypoints.push_back(std::move(waypoint));
    return std::nullopt;
  }

  // Reads the points `kind` below `parent` into a new segment of `track`, and counts on.
  std::optional<Problem> read_points(pugi::xml_node parent, std::string_view kind, const std::string& name,
                                     Track& track, std::uint32_t& count) {
    TrackSegment segment;
    for (const pugi::xml_node node : parent.children()) {
      if (xml_.gpx_name(node) != kind) continue;
      TrackPoint point;
      point.number = ++count;
      const std::string what = name + ", point " + std::to_string(count);
      const auto position = read_position(node, what);
      if (!position) return position.error();
      if (!*position) continue;
      point.position = **position;
      const auto where = [&] { return place(node, what); };
      point.elevation = read_height(xml_, node, where, faults_.height);
      point.time = read_time(xml_, node, where, faults_);
      segment.points.push_back(point);
    }
    if (!segment.points.empty()) track.segments.push_back(std::move(segment));
    return std::nullopt;
  }

  std::optional<Problem> finish(pugi::xml_node node, const std::string& name, Track track, std::uint32_t count) {
    if (!track.segments.empty()) {
      document_.tracks.push_back(std::move(track));
      return std::nullopt;
    }
    if (count > 0) {
      return Problem{Problem::Kind::bad_input, place(node, name),
                     "none of its " + std::to_string(count) + " points is on Earth; see latitude and longitude"};
    }
    faults_.empty.note([&] { return place(node, name); }, [] { return std::string("has no points and is left out"); });
    return std::nullopt;
  }

  std::string title(std::string_view kind, std::uint32_t number, const Track& track) const {
    std::string name = std::string(kind) + " " + std::to_string(number);
    if (!track.name.empty()) name += " " + quoted(track.name);
    return name;
  }

  std::optional<Problem> read_track(pugi::xml_node node) {
    Track track{text(node, "name"), document_.file, false, {}};
    const std::string name = title("track", ++tracks_, track);
    std::uint32_t count = 0;
    for (const pugi::xml_node segment : node.children()) {
      if (xml_.gpx_name(segment) != "trkseg") continue;
      if (auto trouble = read_points(segment, "trkpt", name, track, count)) return trouble;
    }
    return finish(node, name, std::move(track), count);
  }

  std::optional<Problem> read_route(pugi::xml_node node) {
    Track track{text(node, "name"), document_.file, true, {}};
    const std::string name = title("route", ++routes_, track);
    std::uint32_t count = 0;
    if (auto trouble = read_points(node, "rtept", name, track, count)) return trouble;
    return finish(node, name, std::move(track), count);
  }

  const XmlFile& xml_;
  GpxDocument& document_;
  Faults faults_;
  std::uint32_t tracks_{}, routes_{}, waypoints_{};
};

}  // namespace

Result<GpxDocument> read_gpx(std::string_view bytes, std::string file) {
  XmlFile xml;
  if (auto trouble = xml.parse(bytes, file)) return tl::make_unexpected(std::move(*trouble));
  GpxDocument document;
  document.file = std::move(file);
  Reader reader(xml, document);
  if (auto trouble = reader.read(xml.root())) return tl::make_unexpected(std::move(*trouble));
  return document;
}

}  // namespace outbye
