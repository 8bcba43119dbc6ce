#include "core/course/heights.h"

#include <cmath>
#include <cstddef>
#include <utility>

#include "core/base/text.h"

namespace outbye {
namespace {

struct Dropped {
  std::size_t first{}, count{};
  Metres height{};
};

void say(const Dropped& dropped, const std::vector<LinePoint>& line, const LoopSource& loop, std::string why,
         Warnings& warnings) {
  if (dropped.count == 0) return;
  std::string what =
      "has the height " + fixed(dropped.height.value, 0) + " m, " + std::move(why) + "; taken as unknown";
  if (dropped.count > 1) what += " (with " + std::to_string(dropped.count - 1) + " more like it in this loop)";
  warnings.push_back({point_name(loop, line[dropped.first]), std::move(what)});
}

void drop(LinePoint& point, std::size_t i, Dropped& dropped) {
  if (dropped.count++ == 0) {
    dropped.first = i;
    dropped.height = *point.elevation;
  }
  point.elevation.reset();
}

// Two heights cannot both be true when they differ by more than the way between them (a slope of 45 degrees) and 50 m.
bool is_jump(Metres rise, Metres way) { return std::abs(rise.value) > 50 + way.value; }

}  // namespace

void repair_heights(std::vector<LinePoint>& line, const std::vector<Metres>& along, const LoopSource& loop,
                    const ElevationSource& elevation, Warnings& warnings) {
  Dropped impossible_ones;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto& height = line[i].elevation;
    if (height && (*height < Metres{-450} || *height > Metres{9000})) drop(line[i], i, impossible_ones);
  }
  say(impossible_ones, line, loop, "which no ground has", warnings);

  // Runs of heights between jumps; those with less than a fifth of the heights are the false ones.
  std::vector<std::pair<std::size_t, std::size_t>> runs;  // index of the first point, number of heights
  std::size_t heights = 0, last = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (!line[i].elevation) continue;
    if (heights == 0 || is_jump(*line[i].elevation - *line[last].elevation, along[i] - along[last])) {
      runs.emplace_back(i, 0);
    }
    ++runs.back().second;
    ++heights;
    last = i;
  }
  Dropped cut_off;
  for (std::size_t r = 0; runs.size() > 1 && r < runs.size(); ++r) {
    if (5 * runs[r].second >= heights) continue;
    const std::size_t end = r + 1 < runs.size() ? runs[r + 1].first : line.size();
    for (std::size_t i = runs[r].first; i < end; ++i) {
      if (line[i].elevation) drop(line[i], i, cut_off);
    }
  }
  say(cut_off, line, loop, "a jump from those around it", warnings);

  if (!elevation) return;
  for (LinePoint& point : line) {
    if (!point.elevation) point.elevation = elevation(point.position);
  }
}

}  // namespace outbye
