#include "server/storage/file_kind.h"

#include "core/base/text.h"
#include "formats/json_text/json_text.h"

namespace outbye {
namespace {

bool begins(std::string_view bytes, std::string_view mark) { return bytes.substr(0, mark.size()) == mark; }

bool is_webp(std::string_view start) { return begins(start, "RIFF") && start.substr(8, 4) == "WEBP"; }

// No control characters but those of text.
bool is_text(std::string_view start) {
  for (const char c : start) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 && c != '\n' && c != '\r' && c != '\t') return false;
  }
  return !start.empty();
}

// The first row of a table that is neither blank nor a comment.
std::string_view first_row(std::string_view text) {
  while (!text.empty()) {
    const auto end = text.find('\n');
    const auto row = trimmed(text.substr(0, end));
    if (!row.empty() && row.front() != '#') return row;
    if (end == std::string_view::npos) break;
    text = text.substr(end + 1);
  }
  return {};
}

std::string kind_of_xml(std::string_view start) {
  if (start.find("<gpx") != std::string_view::npos || start.find(":gpx") != std::string_view::npos) return "course";
  if (start.find("<osm") != std::string_view::npos) return "map";
  return "";
}

// By the names that only one of them has; both are checked whole when they are used.
std::string kind_of_json(std::string_view start) {
  if (start.find("\"items\"") != std::string_view::npos) return "kit";
  if (start.find("\"levels\"") != std::string_view::npos || start.find("\"body\"") != std::string_view::npos)
    return "rules";
  return "";
}

std::string kind_of(std::string_view start, std::uint64_t size) {
  if (media_type(start) != "application/octet-stream") return "photo";
  const bool is_packed = begins(start, "\x1f\x8b") || begins(start, "BZh");
  if (is_packed || start.substr(0, 64).find("OSMHeader") != std::string_view::npos) return "map";
  constexpr std::uint64_t tile_sides[] = {1201, 3601};
  for (const std::uint64_t side : tile_sides) {
    if (size == side * side * 2 && !is_text(start)) return "elevation";
  }
  if (begins(start, "\xef\xbb\xbf")) start.remove_prefix(3);
  if (!is_text(start)) return "";
  const auto text = trimmed(start);
  if (begins(text, "<")) return kind_of_xml(text);
  if (begins(text, "{")) return kind_of_json(text);
  const std::string row = in_lower_case(first_row(text));
  if (row.find("temperature") != std::string::npos) return "weather";
  return row.find_first_of(",;\t") == std::string::npos ? "" : "drive_times";
}

std::string looks(std::string_view start) {
  if (begins(start, "PK\x03\x04"))
    return "a ZIP archive; if it is a ride with its files, import it in the list of rides";
  if (begins(start, "%PDF")) return "a PDF document";
  if (start.size() >= 12 && start.substr(8, 4) == ".FIT") return "a FIT recording; save it as GPX first";
  if (begins(trimmed(start), "<")) return "XML, but no GPX";
  if (begins(trimmed(start), "{")) return "JSON, but no kit catalogue or rule book";
  return start.empty() ? "empty" : "nothing that is known here";
}

}  // namespace

std::string media_type(std::string_view start) {
  if (begins(start, "\x89PNG\r\n\x1a\n")) return "image/png";
  if (begins(start, "\xff\xd8\xff")) return "image/jpeg";
  return is_webp(start) ? "image/webp" : "application/octet-stream";
}

Answer<std::string> file_kind(std::string_view start, std::uint64_t size, const std::string& name) {
  auto kind = kind_of(start, size);
  if (!kind.empty()) return kind;
  return trouble(Trouble::Kind::bad_input, name,
                 "is " + looks(start) +
                     "; files of a ride are a course (GPX), a map (.osm.pbf), heights (.hgt), weather or drive times "
                     "(CSV), rules or kit (JSON), and photos (JPEG, PNG, WebP)");
}

Answer<void> check_file_name(const std::string& name) {
  const auto refused = [&](const char* why) { return trouble(Trouble::Kind::bad_input, "name", why); };
  if (name.empty() || name.size() > 120) return refused("of a file must have 1 to 120 letters; rename the file");
  if (name.front() == '.') return refused("of a file must not begin with a dot; rename the file");
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7F || c == '/' || c == '\\' || c == ':') {
      return refused("of a file must not hold slashes, colons or control characters; rename the file");
    }
  }
  return {};
}

}  // namespace outbye
