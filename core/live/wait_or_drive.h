// Do we wait for her here or drive on? Each choice is played on the days that are still possible (live_days.h), with
// the same drives for all choices, and its odds are counted. A car that waits until t stays until she comes or it is t,
// and drives on then; one that has been passed unseen waits in vain. What is learnt while waiting is only that she has
// not come yet, so the best t found now stays the best until something else is noted.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/live/live_days.h"

namespace outbye {

// Where the car stands (or is about to), waiting for a pass.
struct MeetHere {
  std::size_t event{};
  Instant ready;   // set up; before now: it is
  Seconds pack{};  // before the car can leave, met or not
  double worth{1.0};
  double overlook{0.05};  // chance that she passes the waiting crew unseen
};

// Another meet that the car could drive to.
struct MeetThere {
  std::size_t event{};
  Seconds drive{};  // at the limits, from where the car is
  Seconds setup{};
  double worth{1.0};
};

struct WaitOrDrive {
  Instant now;
  std::optional<MeetHere> here;  // nothing: nobody is expected here
  Seconds pack_now{};            // before the car can leave, when there is no `here`
  std::optional<MeetThere> next;
  std::optional<MeetThere> fallback;
  double drive_allowance{1.10};  // as CrewingSettings
  double drive_log_sd{0.10};
  double part_worth{0.4};
  double give_up{0.3};     // the fallback comes in once the chance of being ready at the next, going now, is below this
  double confidence{0.8};  // of being ready at the next: leave-by
  Seconds longest{minutes(180)};  // of waiting that is looked at
  Seconds step{minutes(1)};
};

// What one way of going on comes to.
struct WayOn {
  enum class Kind { wait, next, fallback } kind{};
  Instant until;   // wait: this long
  double here{};   // chance of meeting her here
  double ready{};  // chance of being set up at the next (or the fallback) before her
  double there{};  // ... there before she leaves, set up or not; includes `ready`
  double meets{};  // chance of meeting her at one of the two at least
  double worth{};  // here + next, by their worths
};

struct WaitingAdvice {
  std::vector<WayOn> ways;           // what there is to choose from: wait (the best time), go now, fallback
  std::size_t best{};                // of `ways`
  std::vector<WayOn> by_waiting;     // each step of waiting, for the picture; from going now to `longest`
  std::optional<Instant> leave_by;   // latest departure that is set up at the next with `confidence`; may be past
  std::optional<Instant> ask_again;  // when waiting is best: then the advice changes if she has not come
};

// Nothing to choose from: `ways` is empty.
WaitingAdvice wait_or_drive(const LiveDays& live, const WaitOrDrive& task, Seed seed);

}  // namespace outbye
