// Heights along a loop made believable: false ones taken out, missing ones looked up.
#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/course/course.h"
#include "core/course/line_repair.h"

namespace outbye {

// Takes out heights that no ground has (below -450 m or above 9 000 m: the shore of the Dead Sea lies at -430 m,
// Everest at 8 849 m) and short runs cut off from the rest by jumps steeper than any course, such as a 0 written for
// "unknown". Then asks `elevation` wherever none is left. `along` of each point from the start. Warnings give the
// point's number.
void repair_heights(std::vector<LinePoint>& line, const std::vector<Metres>& along, const LoopSource& loop,
                    const ElevationSource& elevation, Warnings& warnings);

}  // namespace outbye
