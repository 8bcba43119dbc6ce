#include "core/roads/road_class.h"

namespace outbye {

std::string_view words_for(RoadClass road_class) {
  constexpr std::array<std::string_view, road_class_count> words{
      "motorway",         "trunk road",    "primary road", "secondary road", "tertiary road", "minor road",
      "residential road", "living street", "service road", "track",          "ferry"};
  return words[static_cast<std::size_t>(road_class)];
}

}  // namespace outbye
