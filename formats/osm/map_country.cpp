#include "formats/osm/map_country.h"

#include <algorithm>
#include <exception>
#include <map>
#include <osmium/io/any_input.hpp>
#include <osmium/osm.hpp>
#include <string_view>

#include "formats/osm/osm_raw.h"

namespace outbye {
namespace {

bool is_code(std::string_view text) {
  return text.size() == 2 && text[0] >= 'A' && text[0] <= 'Z' && text[1] >= 'A' && text[1] <= 'Z';
}

// The country a tag names, or nothing: addr:country=DE, source:maxspeed=DE:rural.
std::string_view country_of(std::string_view key, std::string_view value) {
  const bool is_plain = key == "addr:country" || key == "is_in:country_code";
  const bool is_zone = key == "maxspeed" || key == "source:maxspeed" || key == "maxspeed:type" ||
                       key == "zone:maxspeed" || key == "zone:traffic";
  if (is_plain && is_code(value)) return value;
  if (is_zone && value.size() > 3 && value[2] == ':' && is_code(value.substr(0, 2))) return value.substr(0, 2);
  return {};
}

}  // namespace

std::optional<std::string> map_country(const std::vector<std::filesystem::path>& extracts) {
  std::map<std::string, std::size_t> counts;
  for (const auto& file : extracts) {
    const auto format = extract_format(file);
    if (!format) return std::nullopt;
    try {
      osmium::io::Reader reader(osmium::io::File(file.string(), *format), osmium::osm_entity_bits::nwr,
                                osmium::io::read_meta::no);
      while (const osmium::memory::Buffer buffer = reader.read()) {
        for (const auto& object : buffer.select<osmium::OSMObject>()) {
          for (const osmium::Tag& tag : object.tags()) {
            const auto country = country_of(tag.key(), tag.value());
            if (!country.empty()) ++counts[country == "UK" ? "GB" : std::string(country)];
          }
        }
      }
      reader.close();
    } catch (const std::exception&) {
      return std::nullopt;  // the import says what is wrong with the file
    }
  }
  const auto most =
      std::max_element(counts.begin(), counts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  if (most == counts.end()) return std::nullopt;
  return most->first;
}

}  // namespace outbye
