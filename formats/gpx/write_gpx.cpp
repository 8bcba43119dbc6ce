#include <cassert>
#include <cmath>

#include "core/base/clock.h"
#include "core/base/text.h"
#include "formats/gpx/gpx.h"
#include "formats/gpx/utf8.h"

namespace outbye {
namespace {

std::string escaped(std::string_view raw) {
  std::string text;
  for (const char c : xml_text(raw)) {
    switch (c) {
      case '&':
        text += "&amp;";
        break;
      case '<':
        text += "&lt;";
        break;
      case '>':
        text += "&gt;";
        break;
      case '"':
        text += "&quot;";
        break;
      case '\r':
        text += "&#13;";  // a bare carriage return would come back as a line feed
        break;
      default:
        text += c;
    }
  }
  return text;
}

void element(std::string& out, std::string_view indent, std::string_view name, std::string_view text) {
  if (text.empty()) return;
  out.append(indent).append("<").append(name).append(">");
  out.append(escaped(text)).append("</").append(name).append(">\n");
}

// UTC is written with a Z, as the GPX 1.1 documentation asks.
std::string written(Instant time) {
  std::string text = iso8601(time, Clock{});
  const std::size_t offset = text.rfind("+00:00");
  if (offset != std::string::npos) text.replace(offset, std::string::npos, "Z");
  return text;
}

// The schema's longitudes go from -180 up to but without 180.
std::string written_longitude(double degrees) {
  const std::string text = fixed(degrees, 7);
  return text == "180.0000000" ? "-180.0000000" : text;
}

void open_point(std::string& out, std::string_view indent, std::string_view name, Position p) {
  assert(std::abs(p.latitude) <= 90 && std::abs(p.longitude) <= 180);
  out.append(indent).append("<").append(name);
  out.append(" lat=\"").append(fixed(p.latitude, 7)).append("\"");
  out.append(" lon=\"").append(written_longitude(p.longitude)).append("\">");
}

void height_and_time(std::string& out, std::optional<Metres> elevation, std::optional<Instant> time) {
  if (elevation) out.append("<ele>").append(fixed(elevation->value, 1)).append("</ele>");
  if (time) out.append("<time>").append(written(*time)).append("</time>");
}

void waypoint(std::string& out, std::string_view indent, std::string_view name, const OutWaypoint& point) {
  const std::string inner = std::string(indent) + "  ";
  open_point(out, indent, name, point.position);
  height_and_time(out, point.elevation, point.time);
  out += "\n";
  // The schema fixes the order.
  element(out, inner, "name", point.name);
  element(out, inner, "cmt", point.comment);
  element(out, inner, "desc", point.description);
  element(out, inner, "sym", point.symbol);
  element(out, inner, "type", point.type);
  out.append(indent).append("</").append(name).append(">\n");
}

void route(std::string& out, const OutRoute& written_route) {
  out += "  <rte>\n";
  element(out, "    ", "name", written_route.name);
  element(out, "    ", "desc", written_route.description);
  for (const OutWaypoint& point : written_route.points) waypoint(out, "    ", "rtept", point);
  out += "  </rte>\n";
}

void track(std::string& out, const OutTrack& written_track) {
  out += "  <trk>\n";
  element(out, "    ", "name", written_track.name);
  element(out, "    ", "desc", written_track.description);
  for (const auto& segment : written_track.segments) {
    out += "    <trkseg>\n";
    for (const OutTrackPoint& point : segment) {
      open_point(out, "      ", "trkpt", point.position);
      height_and_time(out, point.elevation, point.time);
      out += "</trkpt>\n";
    }
    out += "    </trkseg>\n";
  }
  out += "  </trk>\n";
}

}  // namespace

std::string write_gpx(const GpxOutput& output) {
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  out += "<gpx version=\"1.1\" creator=\"outbye " OUTBYE_VERSION
         "\" xmlns=\"http://www.topografix.com/GPX/1/1\" xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" "
         "xsi:schemaLocation=\"http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd\">\n";
  out += "  <metadata>\n";
  element(out, "    ", "name", output.name);
  element(out, "    ", "desc", output.description);
  if (output.time) element(out, "    ", "time", written(*output.time));
  out += "  </metadata>\n";
  for (const OutWaypoint& point : output.waypoints) waypoint(out, "  ", "wpt", point);
  for (const OutRoute& written_route : output.routes) route(out, written_route);
  for (const OutTrack& written_track : output.tracks) track(out, written_track);
  out += "</gpx>\n";
  return out;
}

}  // namespace outbye
