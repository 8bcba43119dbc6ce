// Heights from SRTM tiles (.hgt): one file a square degree, big-endian int16 metres above EGM96, rows from north to
// south. NASA SRTM documentation, SRTM_Topo.txt: 1201 x 1201 samples (3 arc seconds) or 3601 x 3601 (1 arc second), the
// outer ones on the edges of the square and so shared by neighbours; -32768 where nothing was measured.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/course/course.h"
#include "core/geo/position.h"

namespace outbye {

struct ElevationTile {
  int south{};                        // degrees, -90..89: the south-west corner
  int west{};                         // degrees, -180..179
  std::size_t samples{};              // a side: 1201 or 3601
  std::vector<std::int16_t> heights;  // samples x samples, row by row from the north-west corner
};
using ElevationTiles = std::vector<ElevationTile>;

// The corner comes from the file's name: N49E011.hgt, in any case, with or without folders before and words after.
// Errors: bad_input for another name, or a size that is none of the two.
Result<ElevationTile> read_hgt(std::string_view bytes, std::string file);

// Bilinear between the four samples around. Nothing outside the tiles and next to a void (a sample that weighs nothing
// does not count). Where two tiles meet, either answers for the edge. Of two tiles of one square the later wins.
ElevationSource elevation_source(ElevationTiles tiles);

}  // namespace outbye
