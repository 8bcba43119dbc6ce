// What the crew planner is asked: which passes and gates may be met, by which cars, over which drives, on which days.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/index.h"
#include "core/base/interval.h"
#include "core/base/random.h"
#include "core/base/units.h"
#include "core/pace/pace.h"
#include "core/roads/drive_table.h"

namespace outbye {

using MeetOptionId = Index<struct MeetOptionTag>;  // an entry of CrewingTask::options

// A pass, gate or finish of one horse that a car may serve.
struct MeetOption {
  std::string label;  // "CP3 loop 2": for messages
  HorseId horse;
  std::size_t event{};  // column in the horse's HorseDays
  RideEvent::Kind kind{RideEvent::Kind::pass};
  PlaceId place;              // where the car stands
  Metres ride_along{};        // of the horse, from its start
  Seconds setup{minutes(4)};  // parked to ready
  Seconds pack{minutes(3)};   // horse gone to wheels turning
  double worth{1.0};          // when met with everything set up
  Litres water{};             // taken from the car's stock
  std::vector<Interval<Instant>>
      open;  // when the place may be used; empty: always. The car must be inside the whole time
  enum class Demand { free, must, never } demand{Demand::free};
  std::optional<CarId> only_car;  // a wish of the user: only this car may meet it
  bool has_water{};               // a tap: a meet here takes nothing from the stock and the car leaves full
};

// Somewhere a car can fill up, at any time it has to spare.
struct RefillPlace {
  std::string label;
  PlaceId place;
  bool water{};
  bool fuel{};
  Seconds duration{minutes(10)};
  std::vector<Interval<Instant>> open;  // empty: always
};

struct CrewCar {
  std::string name;
  PlaceId start;
  Instant ready_from;          // may leave `start` from then on
  std::optional<PlaceId> end;  // must be there at `back_by`, if given
  std::optional<Instant> back_by;
  Litres water_capacity{};                // 0: not limited
  Metres fuel_range{};                    // usable after the reserve; 0: not limited
  Seconds longest_driving{minutes(120)};  // driving time without a break of `break_length` (Highway Code rule 91)
  Seconds break_length{minutes(15)};
};

struct CrewingSettings {
  double part_worth{0.4};             // readiness when the car is there but not set up
  double confidence{0.8};             // leave-by: this chance of being ready at the next meet
  double give_up{0.3};                // below this chance of being ready the car drives to the fallback instead
  Seconds longest_wait{minutes(40)};  // between ready and the horse's expected arrival; earlier the car waits elsewhere
  Metres water_interval{10000.0};     // a horse may go this far without help before the penalty starts
  double gap_penalty{0.05};           // worth lost per km beyond it
  double drive_allowance{1.10};       // median drive time over the time at the limits (gates, junctions, mud)
  double drive_log_sd{0.10};          // spread of a drive around its median; never below the time at the limits
};

struct CrewingTask {
  std::vector<HorseDays> horses;
  std::vector<MeetOption> options;
  std::vector<CrewCar> cars;
  std::vector<RefillPlace> refills;
  DriveTable drives;
  CrewingSettings settings;
  Seed seed{1};  // of the drive times; the days carry their own draws
};

}  // namespace outbye
