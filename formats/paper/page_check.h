// Looks over laid-out pages as a strict reader would: nothing off the paper, nothing over other text, nothing too
// small, no letter without a glyph. For tests.
#pragma once

#include <string>
#include <vector>

#include "formats/paper/page.h"

namespace outbye {

// In sentences; empty when all is well.
std::vector<std::string> page_faults(const Paper& paper);

}  // namespace outbye
