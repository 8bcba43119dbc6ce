// Small things grouped: what travels in which crate, box or bag, and what has its place in the car itself.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/kit/choose_kit.h"

namespace outbye {

// The row of KitFacts::cars that the n-th piece (from 0) of an entry rides in: its own; in turn what each car has one
// of, and cans; else the first.
std::size_t car_of_piece(const KitEntry& entry, std::size_t n, std::size_t cars);

// Fills crates with the pieces of `taken` that name one, the largest pieces first, each into the first of its crates
// that has room by volume and mass and is large enough for it (soft things fold); a new crate is opened when none has.
// What no crate takes travels by itself. Pieces of different cars never share a crate.
std::vector<KitCrate> fill_crates(const std::vector<KitEntry>& taken, const std::vector<KitItem>& crates,
                                  std::size_t cars);

// "9 x Crew's meals; Flask"
std::string crate_words(const KitCrate& crate, const KitList& list);

}  // namespace outbye
