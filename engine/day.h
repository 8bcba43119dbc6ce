// The day of the ride, replayed from its log: where horse and cars are, whether she has gone by, whether to wait or to
// drive on, and the plan for the rest. Values in, values out: the same log and time give the same answer, whatever the
// order in which events arrived. What cannot be used is kept and said, never dropped in silence.
// The screen is for the co-driver: a driver never needs to read it while driving.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/gate/gate_clock.h"
#include "core/live/day_log.h"
#include "core/live/live_days.h"
#include "core/live/wait_or_drive.h"
#include "engine/day_gates.h"
#include "engine/day_next.h"
#include "engine/day_stock.h"
#include "engine/day_water.h"
#include "engine/jobs.h"
#include "engine/kit.h"
#include "engine/use_cases.h"

namespace outbye {

// What a ride brings to the day, worked out once.
struct DayModel {
  std::vector<LivePace> horses;  // by HorseId
  std::vector<LiveDraws> draws;  // likewise
  RideJobs jobs;                 // who does what at the planned stops
  std::vector<CarStock> stock;   // what each car sets out with and its stops take
  std::vector<KitEntry> kit;     // what is taken along; empty: kit was not planned
};
// `catalogue`: of kit; nothing: what to get out is told without it. Errors: as simulate_days, the heat of the day,
// stock_of and plan_kit.
Result<DayModel> day_model(const RidePlan& plan, const LiveSettings& settings = {},
                           const KitCatalogue* catalogue = nullptr);

// An entry that is not used as it stands, or doubted: what to put right. The entry stays in the log.
struct DayTrouble {
  std::string id;    // of the event; empty: of none in particular
  std::string what;  // in a sentence
};

struct NotedIntake {
  std::string id;
  DayKind kind{};  // drink, electrolyte, feed
  Instant at;
  std::string what;
  std::optional<double> amount;
  std::string unit;
};

struct HorseOnDay {
  HorseId horse;
  std::optional<Instant> started;
  std::vector<OwnSighting> seen;              // by event; what contradicts is left out
  std::vector<GateVisit> gates;               // one a loop: for gate_state()
  std::vector<std::optional<bool>> accepted;  // one a loop: what the officials said
  std::vector<NotedIntake> intakes;
  std::vector<Watch> watches;  // of passes of this horse, breaks taken out
  std::vector<Word> words;
};

struct CarOnDay {
  CarId car;
  PlaceId place;                 // where it stands, or which it left
  std::optional<Instant> since;  // parked since, or on the road since; nothing: nothing noted, at its start
  bool is_driving{};
  std::optional<PlaceId> driving_to;  // as planned
};

// A start number that is not ours.
struct RiderSeen {
  std::string id;
  std::string number;
  Instant at;
  std::string place;
  LoopId loop;
  Metres along{};
};

struct StockOnDay {
  std::string what;
  std::string unit;
  double filled{};
  double used{};
};

struct WatchKept {
  std::string place;
  std::string who;
  Instant from;
  Instant to;  // or now
  bool is_going_on{};
  double overlook{};
};

struct DayState {
  Instant now;
  std::vector<HorseOnDay> horses;
  std::vector<CarOnDay> cars;
  std::vector<RiderSeen> riders;        // by time
  std::vector<RiderStretch> stretches;  // of those
  std::vector<WatchKept> watches;
  std::vector<StockOnDay> stock;
  std::vector<StandingEntry> stock_entries;  // by when they happened; of known cars
  std::vector<StandingEntry> notes;
  std::vector<DayTrouble> troubles;
};

// What the log says up to `now`; what happens later is left aside (with a trouble if it was noted before it happened).
DayState day_state(const RidePlan& plan, const DayLog& log, Instant now);
// The log as it was known at a time: events noted by then. For replays.
DayLog known_by(const DayLog& log, Instant time);

struct PassOutlook {
  HorseId horse;
  std::size_t event{};
  std::string label;            // "Ford loop 1"
  std::optional<Instant> seen;  // noted: there is nothing to guess
  PassOdds odds;                // otherwise
};

struct CarAdvice {
  CarId car;
  std::optional<MeetOptionId> here;  // whom the car waits for where it stands
  std::optional<MeetOptionId> next;
  std::optional<MeetOptionId> fallback;
  WaitingAdvice advice;
  std::string headline;                // "Wait here until 11:52."
  std::vector<std::string> sentences;  // odds, each choice, when to ask again
  std::vector<std::string> why;        // what it rests on
};

struct DayAnswer {
  DayState state;
  std::vector<LiveDays> days;       // by horse: for pictures and for plan_rest()
  std::vector<PassOutlook> passes;  // by horse, then in order of the ride
  std::vector<GateNow> gates;       // where a horse stands at a gate
  std::vector<WaterNow> water;      // by horse
  std::vector<CarStockLeft> stock;  // of cars that have a stop
  std::vector<CarAdvice> cars;
  std::vector<NextAction> next;  // one a car
};

DayAnswer day_answer(const RidePlan& plan, const DayModel& model, const DayLog& log, Instant now);

// The rest of the day, planned anew from where horses and cars are: what has gone by is no longer to be met.
struct RestOfDay {
  CrewingTask task;  // options as in the ride's plan, so their ids are the same
  CrewPlan plan;
  std::vector<std::string> changes;  // against the plan before: which meets are new, which are dropped
  std::vector<std::string> notes;    // what was taken for granted
};
// `days`: to be simulated; fewer are faster. Errors: as plan_crew.
Result<RestOfDay> plan_rest(const RidePlan& plan, const DayAnswer& answer, std::size_t days = 1024);

// "7 in 10", "3 in 100", "less than 1 in 100".
std::string odds_words(double chance);

}  // namespace outbye
