// Proofs that a space cannot hold everything: by mass, by volume, by bounds on weighted volumes, and for few things by
// an exact search for any arrangement at all.
#pragma once

#include <string>

#include "core/load/load_search.h"

namespace outbye {

struct CannotFit {
  bool is_proven{false};
  std::string words;  // "the masses add up to ...", or why it stays open
};

// Looks at payload, size, turning, height limits, blocked boxes and at what bears nothing; not at support, shares of
// load, axles, loading or reach: those can only make it harder, so a proof stands, and a failure to prove says little.
// The exact search runs for at most 12 things and 1.6 million nodes.
CannotFit prove_cannot_fit(const LoadTask& task, LoadSpaceId space, const std::vector<LoadItemId>& items,
                           LoadWork& work);

}  // namespace outbye
