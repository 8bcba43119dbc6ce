// Bettering a load of one space: some neighbouring things are taken out and put back otherwise, with what was left out.
#pragma once

#include <vector>

#include "core/base/random.h"
#include "core/load/load_search.h"

namespace outbye {

// Changes `stowage` only for the better: less cost left out, then less `quality`. Ends after `rounds`, after
// `rounds_when_all_in` since the last betterment with nothing out, or with the work.
void improve_stowage(Stowage& stowage, const std::vector<double>& cost, int rounds, int rounds_when_all_in, Rng& rng,
                     LoadWork& work);

}  // namespace outbye
