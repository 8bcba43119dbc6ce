// What goes into which car and where, for a planned day: each car's own things in its boot and roof box, and what does
// not fit there put elsewhere in order of pain. Values in, values out.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/kit/choose_kit.h"
#include "core/load/load_plan.h"
#include "engine/use_cases.h"

namespace outbye {

// A thing to load. `item.first_needed` and `item.times_needed` are found from the plan by what is said here.
struct BootItem {
  LoadItem item;
  bool at_passes{};  // needed at every pass that its car meets
  bool at_gates{};
  bool at_finish{};
  std::vector<std::string> needed_at;  // crew points or the venue
  std::optional<std::string> car;      // nothing: the ride's first
  Litres water{};                      // of its mass, and used on the way
  std::vector<std::string> contents;   // of a crate: "9 x Crew's meals"
  bool is_place{};                     // has its place in the car and is not loaded; its mass counts
};

// The things of a kit list: crates with what is in them, nests of buckets, the rest piece by piece. What each car has
// for itself is shared out, the rest is the first car's.
std::vector<BootItem> boot_items(const KitList& list, const std::vector<RideCar>& cars);

struct BootLoadSettings {
  int max_moves{2};                    // to reach what a stop needs
  std::optional<std::string> car;      // only this one; nothing: all
  std::function<LoadSearch()> search;  // asked anew for each load planned; empty: by count alone
};

// A thing that is not in the boot of its own car.
struct LoadedElsewhere {
  enum class Where { roof_box, other_car, home } where{Where::home};
  std::string item;
  std::string from;  // its car
  std::string to;    // the other car
  double pain{};
  std::string why;
};

// What rides in the car but not in its boot: "Front of the car", the printed plan.
struct CarPlace {
  std::string name;
  std::vector<std::string> contents;
  Kilograms mass{};
};

struct CarLoad {
  CarId car;
  std::string name;
  Kilograms payload{};  // of the car, beyond the driver
  std::uint32_t people{1};
  std::vector<std::string> stops;  // where it meets a horse, in order: LoadItem::first_needed counts these
  LoadTask task;
  std::vector<Litres> water;                       // one an item of `task`
  std::vector<bool> is_essential;                  // one an item: must come along
  std::vector<std::vector<std::string>> contents;  // one an item: of a crate, what is in it
  std::vector<CarPlace> places;                    // their mass is off the payload of the boot
  Load load;                                       // checked: no rule is broken
  std::vector<LoadStep> steps;                     // one a placement
  std::vector<std::string> assumptions;
  Warnings warnings;
};

struct RideLoad {
  std::vector<CarLoad> cars;
  std::vector<LoadedElsewhere> elsewhere;  // least painful first
  Warnings warnings;
};

// The spaces of a car: its boot, then its roof box. Without a measured boot an estate is assumed, and said.
// Errors: not_found for an unknown shape; bad_input for payload that people have used up.
Result<std::vector<LoadSpace>> boot_spaces(const RideCar& car, std::vector<std::string>& assumptions);

// Errors: not_found for a car or place that the ride does not have; as plan_load.
Result<RideLoad> boot_load(const RidePlan& plan, const std::vector<BootItem>& items, const BootLoadSettings& settings);

// A car's load after one of its stops, with the water used by then gone from its cans.
struct LoadAfterStop {
  std::string stop;
  Litres used{};  // out of the cans since they were last filled
  std::vector<MassChange> changes;
  Repack repack;
  std::vector<LoadStep> steps;  // of the load afterwards
};

// `stop`: a place where the car meets a horse (its last meet there), or the number of the stop, 1 the first.
// Errors: not_found with the stops there are; as repack().
Result<LoadAfterStop> load_after(const RidePlan& plan, const CarLoad& load, const std::string& stop,
                                 const LoadSearch& search);

}  // namespace outbye
