// Kit and amounts of a planned day. Values in, values out.
#pragma once

#include <vector>

#include "core/kit/choose_kit.h"
#include "core/kit/kit_amounts.h"
#include "core/kit/kit_facts.h"
#include "engine/use_cases.h"

namespace outbye {

struct KitPlan {
  KitFacts facts;
  std::vector<Amount> amounts;
  KitList list;
  std::vector<std::string> assumptions;  // in sentences
};

// What kit needs to know of a plan: its served passes, gates and finishes, in order of time. `roads`: the map that it
// was planned on, for the pumps on the way; may be null.
KitFacts kit_facts(const RidePlan& plan, const RoadGraph* roads = nullptr);

// By the ride's own kit settings. `catalogue`: the bundled one with the user's own files in it; the ride's own items
// are added here. Errors: bad_input for figures out of range; names that nothing in the catalogue has.
Result<KitPlan> plan_kit(const RidePlan& plan, const KitCatalogue& catalogue, const RoadGraph* roads = nullptr);

}  // namespace outbye
