// Snapping to the road network, fastest drives, drive tables, and a driver's list of turns.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/index.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/geo/position.h"
#include "core/roads/drive_table.h"
#include "core/roads/road_graph.h"

namespace outbye {

// A place joined to the nearest drivable road (a point on an edge, not a node).
struct Snap {
  Position position;     // on the road
  Metres distance{};     // from the place asked about
  std::string road;      // name, reference or class: "Mill Lane", "B640", "unnamed track"
  std::uint32_t edge{};  // of the graph
  double share{};        // along the edge, 0..1
  std::string note;      // empty, or what is odd: "a nearer road (unnamed track, 12 m) does not join the others"
};

struct Turn {
  enum class Kind {
    start,
    ahead,
    left,
    right,
    sharp_left,
    sharp_right,
    slight_left,
    slight_right,
    back,
    roundabout,
    arrive
  } kind{};
  std::string road;  // the road taken from here; empty on arrival
  Metres length{};   // to the next turn
  Seconds time{};    // likewise
  Position position;
  std::uint32_t exit{};  // roundabouts: which exit, 1-based
};

struct Route {
  Drive drive;
  std::vector<Position> geometry;  // at least two points
  std::vector<Turn> turns;         // start, ..., arrive
  std::vector<std::string> notes;  // fords, gates, access for residents only, on the way
};

// Roads that join the bulk of the network are preferred to nearer ones that do not, with a note.
// Errors: not_found with the distance to the nearest drivable road when it is beyond `limit`.
Result<Snap> snap(const RoadGraph& roads, Position place, Metres limit);

// Fastest drive, exactly; nothing when there is no way. Turning back on the road happens only at a dead end or where
// there is no other way at all.
std::optional<Route> fastest_route(const RoadGraph& roads, const Snap& from, const Snap& to);

// All pairs; PlaceId i is places[i]. `names` and `places` of one length.
DriveTable drive_table(const RoadGraph& roads, const std::vector<std::string>& names, const std::vector<Snap>& places);

// One line of a driver's list: "Left into Mill Lane, 1.2 km".
std::string describe(const Turn& turn);

}  // namespace outbye
