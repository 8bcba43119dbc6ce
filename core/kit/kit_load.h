// The list as things for a boot: what travels by itself piece by piece ("Jerrycan 10 L 2"), nests of buckets, and
// crates with what is in them.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/base/physical_units.h"
#include "core/kit/choose_kit.h"
#include "core/load/load_task.h"

namespace outbye {

// A thing to load. `item.first_needed` counts the stops of KitFacts::stops; what holds a thing for emergencies is
// reached in no moves.
struct KitPiece {
  LoadItem item;
  std::vector<std::size_t> entries;   // rows of KitList::taken that it is made of, the outermost first
  std::size_t car{};                  // row of KitFacts::cars
  std::vector<std::string> contents;  // of a crate or place: "9 x Crew's meals"
  Litres water{};                     // for the horses, of its mass
  bool is_place{};                    // nothing to load: it has its place in the car
};

// `tallest` by row of KitFacts::cars: no nest of buckets is higher; empty, or a row that is not there: no limit.
std::vector<KitPiece> load_pieces(const KitList& list, std::size_t cars = 1,
                                  const std::vector<Millimetres>& tallest = {});

}  // namespace outbye
