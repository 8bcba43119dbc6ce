// The parts of page.json. Internal to formats/pack.
#pragma once

#include "core/kit/kit_load.h"
#include "formats/pack/page_json.h"

namespace outbye {

Json maps_json(const RidePlan& plan, const RoadGraph* roads);
Json places_json(const PageSources& from);
Json stops_json(const PageSources& from);
Json page_kit_json(const PageSources& from);

// The kit as it is loaded: crates, nests, single things. Empty without a kit.
std::vector<KitPiece> pieces_of(const PageSources& from);

Json lat_lon(Position position);

// Where each thing of a car is, as a person looks for it: "boot, step 4: left, against the seat-back, on the floor".
std::string whereabouts(const CarLoad& car, std::size_t placement);

}  // namespace outbye
