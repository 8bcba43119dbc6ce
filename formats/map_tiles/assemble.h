// Areas of several rings (multipolygons) from the ways they are made of.
#pragma once

#include <cstdint>
#include <vector>

#include "formats/map_tiles/world.h"

namespace outbye {

struct AreaWay {
  std::int64_t id{};
  std::vector<std::int64_t> refs;
  std::vector<WorldPoint> points;  // as many as refs
  bool is_inner{};                 // by the role it is said to have
};

struct AreaRing {
  std::vector<WorldPoint> points;
  bool is_hole{};
};

// Outer rings, each followed by its holes, told apart by what lies in what; the roles are not trusted. Empty when the
// ways do not close, cross one another, or make no area. With `is_incomplete` some ways are missing: what still closes
// is used, but for holes whose outer ring is gone.
std::vector<AreaRing> assembled(std::int64_t relation, std::vector<AreaWay> ways, bool is_incomplete);

}  // namespace outbye
