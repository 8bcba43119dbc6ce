// The next action of a car on the day: in large words with its time, who does what there, what to get out, what to mind
// at the place, and when to be reminded. It speaks of the crew's work and the clock, never of how a horse is.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/crewing/crewing_task.h"
#include "core/pace/pace.h"

namespace outbye {

struct RidePlan;
struct DayModel;
struct DayAnswer;

// A moment to be reminded of.
struct DayAlarm {
  enum class Kind { leave_by, set_up_by, due_from, present_from, present_by, out_time, ask_again, back_by };
  Kind kind{};
  Instant at;
  std::string words;  // "Leave by 11:42 for CP6."
};
const char* day_alarm_name(DayAlarm::Kind kind);  // "leave by"

// What one person does at the stop in question, in order.
struct DayDuty {
  std::string who;  // the helper's name, or "rider"
  std::vector<std::string> tasks;
  std::vector<std::string> cautions;
};

struct NextAction {
  enum class Kind {
    leave,    // stay where it is free to, and set off in time
    drive,    // on the way
    set_up,   // parked, getting ready
    wait,     // set up: she is to come
    serve,    // she is here
    gate,     // she is at the gate: presenting, hold, out-time
    pack,     // she has gone on: clear and load
    go_back,  // nothing left to meet: to where the car must end
    nothing   // left to do
  };
  CarId car;
  Kind kind{Kind::nothing};
  std::string words;                // the large ones: "Leave by 11:42 for CP6."
  std::vector<std::string> beside;  // more of it: "She is due 11:58, between 11:51 and 12:07."
  std::optional<Instant> at;        // the time in the large words
  std::optional<Seconds> until;     // from now to then; negative: it is past
  std::string place;                // where it is to be done
  std::optional<MeetOptionId> meet;
  std::optional<Window> due;          // of that meet's horse, while she is to come
  std::vector<DayDuty> duties;        // of the work that comes next there
  std::vector<std::string> get_out;   // of the car
  std::vector<std::string> hazards;   // of the place
  std::vector<std::string> of_place;  // the way in, what is allowed there, notes
  std::vector<DayAlarm> alarms;       // by time, all after now
};
const char* next_action_name(NextAction::Kind kind);  // "set up"

// `car`: of answer.cars. The rest of the answer must be there already.
NextAction next_action(const RidePlan& plan, const DayModel& model, const DayAnswer& answer, CarId car);

// The moment rounded down to the minute: a deadline is never told late. "11:42"
std::string minute_before(Instant at, const Clock& clock);

}  // namespace outbye
