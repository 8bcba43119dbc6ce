// What both kinds of map are drawn with. Internal to formats/pack.
#pragma once

#include <string>
#include <vector>

#include "formats/pack/place_map.h"
#include "formats/picture/labels.h"
#include "formats/picture/map_frame.h"
#include "formats/picture/svg.h"

namespace outbye {

inline constexpr const char* map_style =
    "text{fill:#1f2428}.halo{paint-order:stroke;stroke:#fff;stroke-width:4px;stroke-linejoin:round}"
    ".frame{fill:none;stroke:#8a8f94;stroke-width:1}.course{fill:none;stroke-linejoin:round}"
    ".casing{fill:none;stroke:#fff;stroke-linejoin:round}.car{fill:none;stroke:#454a50;stroke-width:1.6;"
    "stroke-linejoin:round}.mark{fill:#fff;stroke:#1f2428;stroke-width:2}.full{fill:#1f2428}"
    ".leader{stroke:#5a6068;stroke-width:1}.road{fill:none;stroke-linejoin:round;stroke-linecap:round}";

// The pieces of a line on the map, a little beyond its edge included.
std::vector<std::vector<Spot>> pieces_on(const std::vector<Spot>& line, const Box& map);

// The loops, each with its dashes and ink, and arrows the way it is ridden.
void draw_loops(Svg& svg, const RidePlan& plan, const MapFrame& frame, const Box& map, double thickness,
                double arrows_apart, Labels& labels);

// A scale and which way north is, at the lower left.
void draw_scale(Svg& svg, const MapFrame& frame, const Box& map, double size, Labels& labels);

// The words next to a mark, with a line to it when they are far from it. False: there is no room.
bool draw_label(Svg& svg, Labels& labels, Spot mark, const std::string& words, double size, double gap, double reach,
                bool is_bold);

void fill_projection(PlaceMap& map, const MapFrame& frame, Position somewhere);

}  // namespace outbye
