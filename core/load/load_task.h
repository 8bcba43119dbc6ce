// What goes into a car, and into what: boots as they are measured, things with what they bear and who may lift them.
// Lengths are whole millimetres, so that "touches" and "overlaps" are exact. In a boot x runs from the seat-back (0) to
// the tailgate, y from the left (0) to the right as seen when facing forwards, z up from the floor.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/index.h"
#include "core/base/units.h"

namespace outbye {

using Millimetres = std::int32_t;
using LoadItemId = Index<struct LoadItemTag>;    // a row of LoadTask::items
using LoadSpaceId = Index<struct LoadSpaceTag>;  // a row of LoadTask::spaces

struct LoadPoint {
  Millimetres x{};
  Millimetres y{};
  Millimetres z{};
  friend bool operator==(const LoadPoint&, const LoadPoint&) = default;
};

struct LoadSize {
  Millimetres length{};  // along x
  Millimetres width{};   // along y
  Millimetres height{};  // along z
  friend bool operator==(const LoadSize&, const LoadSize&) = default;
};

struct LoadBox {
  LoadPoint at;  // the corner nearest the seat-back, left, lowest
  LoadSize size;
  friend bool operator==(const LoadBox&, const LoadBox&) = default;
};

// The weights a person may lift before a closer look is due, by the height of the hands.
// Source: Health and Safety Executive, manual handling guideline filter: men 10, 20, 25, 20, 10 kg and women 7, 13, 16,
// 13, 7 kg at low leg, knuckle, elbow, shoulder and overhead. A filter, not a legal limit and not a promise.
enum class LiftFilter { men, women };

struct LoadHelper {
  std::string name;
  LiftFilter filter{LiftFilter::women};
};

// Two people together lift two thirds of the sum of what each may (from memory).
enum class LiftedBy { anyone, men, two_people };

struct LoadItem {
  std::string name;                                  // "jerrycan 2"
  LoadSize size;                                     // as it stands upright; each 1..10,000 mm
  Kilograms mass{};                                  // as loaded, 0..500
  std::array<bool, 3> vertical{false, false, true};  // which of length, width, height may point up
  bool is_liquid{false};                             // upright only: `vertical` must be height alone
  Kilograms bears{0.0};                              // what may stand on it in all, passed on from above; 0: nothing
  bool is_fragile{false};                            // nothing on top, whatever `bears` says
  bool is_soft{false};                               // a rug or a coat: does no harm if it flies forward
  LiftedBy lifted_by{LiftedBy::anyone};              // what its handles and shape ask for, apart from the filter
  std::optional<int> first_needed;                   // the stop that needs it first, 0-based; nothing: not on the road
  int times_needed{1};                               // at how many stops it comes out; breaks ties in the order
  std::optional<int> max_moves;                      // reached after moving at most so many; else the task's, if needed
  bool is_emergency{false};                          // reached in no moves, always in the boot
  std::optional<double> pain_if_left;                // 0..1000; nothing: it must come along
};

// Where a boot lies on the car and what its axles may still take. Optional: nobody knows it by heart.
struct LoadAxles {
  Millimetres wheelbase{2700};               // 1000..6000
  Millimetres seat_back{1900};               // the boot's x = 0, behind the front axle
  std::optional<Kilograms> front_left_over;  // what the axle may take on top of car and people
  std::optional<Kilograms> rear_left_over;
};

struct LoadSpace {
  enum class Kind { boot, roof_box, second_car } kind{Kind::boot};
  std::string name;                         // "boot"
  LoadSize size;                            // floor length x width; height to the roof (or as far as may be loaded)
  std::optional<Millimetres> cover_height;  // to the cover or the top of the seat-back: the limit without a guard
  bool has_guard{false};                    // a net or grille behind the people: loaded up to the roof
  bool seats_folded{false};                 // for the words only; the length is as measured
  std::vector<LoadBox> blocked;         // wheel arches, lip, sloping tailgate, spare wheel; things may stand on them
  Millimetres lip_above_ground{700};    // what a thing is lifted over, 0..3000
  Millimetres floor_above_ground{650};  // 0..3000
  Kilograms payload{};                  // what is left for the load after people and fuel; of a roof box: its limit
  std::optional<LoadAxles> axles;
  // What it costs to put a thing here instead of the boot, as a share of the pain of leaving it, 0..1.
  double inconvenience{0.0};
};

struct LoadTask {
  std::vector<LoadSpace> spaces;  // the boot first, then where the rest may go, in the order to be tried
  std::vector<LoadItem> items;    // 0..200
  std::vector<LoadHelper> helpers;
  int max_moves{2};  // to reach a thing that a stop needs; 0..100
};

// Generic starting shapes, seats up unless said: from memory and common practice, no source. Measure the car.
struct GenericBoot {
  std::string name;  // "estate"
  LoadSpace space;
};
std::vector<GenericBoot> generic_boots();

}  // namespace outbye
