// Who watched where and when, breaks taken out. Internal to engine.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/live/day_log.h"
#include "engine/day_fold.h"

namespace outbye {

inline constexpr double default_overlook = 0.05;  // chance of overlooking her, where nobody said another

class WatchBook {
 public:
  void take(const DayFold& fold, const StandingEntry& e);  // of a watch or break
  // Watches that go on end now. Adds to the state and to each horse what they are watches of.
  void settle(const DayFold& fold, DayState& state);

 private:
  struct Open {
    PlaceId place;
    Instant from;
    double overlook{};
    bool is_paused{};
  };
  struct Closed {
    PlaceId place;
    std::string who;
    Instant from, to;
    bool is_going_on{};
    double overlook{};
  };
  void close_stretch(const std::string& who, Instant to, bool is_going_on);
  void end(const std::string& who, Instant to);

  std::map<std::string, Open> open_;  // by who
  std::vector<Closed> closed_;
};

}  // namespace outbye
