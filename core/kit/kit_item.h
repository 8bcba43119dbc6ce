// A thing of the catalogue: what it is for, how big and heavy, who may lift it, when it is needed, and when it comes
// along at all. The catalogue itself is data (data/kit), read by formats/kit_catalogue.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/units.h"
#include "core/load/load_task.h"

namespace outbye {

// In the order of the list. The words are kit_group_word().
enum class KitGroup {
  breakdown,
  water_containers,
  buckets,
  slosh_bottles,
  ice,
  horse,
  spare_tack,
  horse_first_aid,
  human_first_aid,
  rider_food,
  crew_food,
  papers,
  lights,
  hi_vis,
  comfort,
};
inline constexpr std::size_t kit_group_count = 15;
std::string_view kit_group_id(KitGroup group);    // "horse-first-aid", as in files
std::string_view kit_group_name(KitGroup group);  // "Horse first aid"

enum class KitNeed { pass, gate, finish, emergency, not_on_the_road };
std::string_view kit_need_word(KitNeed need);  // "pass", "not on the road"

// Where a size or mass comes from.
enum class KitMark { published, from_memory, common_practice, own };
std::string_view kit_mark_word(KitMark mark);  // "from memory"

enum class Feet { shod, booted, barefoot };
std::string_view feet_word(Feet feet);

// All that is set must hold.
struct KitCondition {
  std::optional<double> distance_km_from;  // of the ride
  std::optional<std::uint32_t> loops_from;
  std::optional<double> hours_from;  // from the first stop to the last
  std::optional<std::uint32_t> crew_from;
  std::optional<std::uint32_t> horses_from;
  bool dark{};               // some stop is not in daylight
  bool cold{};               // some stop is cold to the horse, or the weather is not known
  bool hot{};                // some stop from "precautions" up
  bool novice{};             // some horse is
  bool night_camp{};         // the crew sleeps at the venue
  bool electrolyte{};        // some horse's likes name it
  bool soaked_feed{};        // some soaked feed is planned
  bool ice{};                // some stop wants ice
  std::optional<Feet> feet;  // some horse is, or it was not said
  friend bool operator==(const KitCondition&, const KitCondition&) = default;
};

// How many: `fixed` + each rate x its number, rounded up; or as many as hold an amount of kit_amounts().
struct KitCount {
  double fixed{1.0};
  double per_horse{0.0};
  double per_rider{0.0};
  double per_crew{0.0};    // persons of the crew
  double per_person{0.0};  // riders and crew
  double per_car{0.0};
  double per_loop{0.0};
  std::string amount;           // id of an amount, "carried-water"; empty: by the rates alone
  double amount_per_item{0.0};  // in that amount's unit
  friend bool operator==(const KitCount&, const KitCount&) = default;
};

// A crate, box or bag that small things travel in; or a place in the car itself that is not the boot.
struct KitHold {
  Litres room{40.0};        // for the boxes of what goes in; what is lost between them is taken off already
  Kilograms most{15.0};     // of what goes in
  std::size_t at_most{20};  // so many of them
  bool is_place{};          // nothing to load: a door pocket, the well under the floor
  friend bool operator==(const KitHold&, const KitHold&) = default;
};

struct KitItem {
  std::string id;    // "can-10"
  std::string name;  // "Jerrycan 10 L"
  KitGroup group{KitGroup::breakdown};
  std::string why;  // a sentence
  LoadSize size{200, 200, 200};
  Kilograms empty{};
  Kilograms full{};                    // as carried
  std::optional<Litres> holds;         // of a container
  std::optional<Millimetres> nests;    // how much higher a stack gets by one more
  std::optional<KitHold> hold;         // it is a crate: as many come along as are filled
  std::vector<std::string> goes_into;  // ids of crates, the first with room is taken; empty: by itself
  bool is_liquid{};
  std::array<bool, 3> vertical{true, true, true};  // which of length, width, height may point up
  Kilograms bears{0.0};
  bool is_fragile{};
  bool is_soft{};
  LiftedBy lifted_by{LiftedBy::anyone};
  std::vector<KitNeed> needed;  // at least one
  double pain{10.0};            // of leaving it at home, 0..1000
  bool must_come{};             // whatever the pain
  KitMark mark{KitMark::from_memory};
  std::string source;  // of size and mass
  KitCount count;
  std::vector<KitCondition> when;     // any of them; empty: always
  std::vector<std::string> contents;  // a checklist, "to agree with your vet"
  std::string contents_note;
  friend bool operator==(const KitItem&, const KitItem&) = default;
};

struct KitCatalogue {
  std::string source;  // of the catalogue as a whole
  std::vector<KitItem> items;
};

// The item of that id or name (upper and lower case alike); null when there is none.
const KitItem* find_kit_item(const KitCatalogue& catalogue, std::string_view name);

// Own entries replace those of the same id and come last otherwise.
KitCatalogue with_own_items(KitCatalogue catalogue, const std::vector<KitItem>& own);

}  // namespace outbye
