// Which things of the catalogue come along, how many, and why; and why the others stay at home.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/kit/kit_amounts.h"
#include "core/kit/kit_facts.h"
#include "core/kit/kit_item.h"

namespace outbye {

struct KitEntry {
  KitItem item;
  std::size_t count{};      // 0: stays at home
  std::string why_so_many;  // "1 a horse: 2 horses"
  std::string reason;       // why it is in or out: "in: the ride is 80 km, from 50 km"
  bool is_packed{};
  bool is_own{};                          // the user's container or own item
  std::optional<std::size_t> first_stop;  // row of KitFacts::stops that needs it first; nothing: not on the road
  std::size_t times_needed{};
  Kilograms mass{};               // of all of them, as carried; of a crate without what is in it
  std::vector<std::size_t> cars;  // row of KitFacts::cars, one a piece, of containers; empty: by the rates of `count`
};

// A crate, box or bag with what is in it, or a place in the car with what lies there.
struct KitCrate {
  struct Part {
    std::string item;  // id
    std::size_t count{};
  };
  KitItem item;           // the crate or place itself
  std::size_t number{1};  // among crates of that id
  std::size_t car{};      // row of KitFacts::cars
  std::vector<Part> contents;
  Kilograms mass{};  // with its contents
};

struct KitList {
  std::vector<KitEntry> taken;  // by group, then in the order of the catalogue
  std::vector<KitEntry> at_home;
  std::vector<KitCrate> crates;    // the taken things that travel together
  Kilograms mass{};                // of what is taken
  std::vector<std::string> notes;  // in sentences
};

// The user's containers stand in for the catalogue's of the same kind.
KitList choose_kit(const KitCatalogue& catalogue, const KitFacts& facts, const RideKit& choices,
                   const std::vector<Amount>& amounts);

// By id or name; null when it is neither taken nor at home.
const KitEntry* find_entry(const KitList& list, std::string_view name);

// Names in `left_out`, `taken_anyway` and `packed` that no catalogue item, own item or container has: bad_input with
// the nearest name, one each, at "kit.packed[2]".
std::vector<Problem> unknown_kit_names(const KitCatalogue& catalogue, const RideKit& choices);

// Ids in `goes_into` of the items that nothing among `all` has, or that is no crate there: bad_input with the nearest
// crate, one each, at "kit.own_items[1].goes_into[0]" for `path` "kit.own_items".
std::vector<Problem> unknown_crates(const std::vector<KitItem>& items, const std::vector<KitItem>& all,
                                    const std::string& path);

}  // namespace outbye
