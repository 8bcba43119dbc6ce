// Heavy things forward: after a load is found, what is heavy is moved against the seat-back as far as the rules allow.
#pragma once

#include "core/load/load_search.h"

namespace outbye {

// From here on a thing belongs low and against the seat-back. Common practice, no source.
constexpr Kilograms heavy_thing{10.0};

// Its middle is in the last third before the tailgate.
bool is_by_the_tailgate(const LoadSpace& space, const LoadBox& box);

// The things of a room put in again, in their order, as if by hand: false when one breaks a rule. Of `things` only item
// and box are looked at.
bool stow_again(LoadRoom& room, const std::vector<Stowed>& things, LoadWork& work);

// Where the floor would hold a thing at least `least` farther forward than it stands, were the light things there not:
// the corners of what is around it, the farthest forward first.
std::vector<LoadBox> places_forward(const LoadRoom& room, std::size_t i, Millimetres least);

// Moves heavy things forward one at a time, each onto free floor or in the place of up to three lighter ones, which
// find another; nothing is lost and `quality` falls with each step. What is left after it cannot be moved forward so by
// 100 mm or more (unless the work ran out).
void move_heavy_forward(LoadRoom& room, LoadWork& work);

}  // namespace outbye
