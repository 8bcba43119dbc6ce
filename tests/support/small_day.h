// The day of the small ride as tests note it.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "engine/day.h"
#include "tests/support/small_ride.h"

namespace outbye::test {

// The small ride: East with Ash and Birch, West with Cedar and Damson; the horse has number 5. Minutes are from the
// start.
struct Small {
  static const RidePlan& plan() {
    static const RidePlan planned = [] {
      RideInputs inputs = small_inputs();
      inputs.ride.horses.push_back({"Brimstone", "Ann", "5", Seconds{0}, std::nullopt});
      return *plan_ride(inputs);
    }();
    return planned;
  }
  static const DayModel& model() {
    static const DayModel made = *day_model(plan());
    return made;
  }
  DayLog log;

  static Instant minute(double m) { return plan().ride.start + minutes(m); }
  static std::int64_t clock(double m) {
    return static_cast<std::int64_t>(1000.0 * minute(m).time_since_epoch().count());
  }
  DayEntry entry(DayKind kind, double m, const std::string& place = "") const {
    DayEntry e;
    e.kind = kind;
    e.at = minute(m);
    e.place = place;
    return e;
  }
  std::string add(DayEntry e) {
    DayEvent event = new_event(log, "anna", static_cast<std::int64_t>(1000.0 * e.at.time_since_epoch().count()), e);
    add_event(log, event);
    return event.id;
  }
  std::string add(DayKind kind, double m, const std::string& place = "") { return add(entry(kind, m, place)); }
  std::string number(const std::string& text, double m, const std::string& place) {
    DayEntry e = entry(DayKind::number_seen, m, place);
    e.number = text;
    return add(e);
  }
  DayAnswer answer(double m) const { return day_answer(plan(), model(), log, minute(m)); }
  DayState state(double m) const { return day_state(plan(), log, minute(m)); }
};

inline const PassOutlook& outlook(const DayAnswer& answer, const std::string& label) {
  for (const auto& pass : answer.passes) {
    if (pass.label == label) return pass;
  }
  ADD_FAILURE() << "no pass " << label;
  return answer.passes.front();
}

inline std::string all_troubles(const DayState& state) {
  std::string text;
  for (const auto& t : state.troubles) text += t.id + ": " + t.what + "\n";
  return text;
}

inline std::string all_words(const DayAnswer& answer) {
  std::string text;
  for (const auto& car : answer.cars) {
    text += car.headline + "\n";
    for (const auto& s : car.sentences) text += s + "\n";
    for (const auto& s : car.why) text += s + "\n";
  }
  return text;
}

}  // namespace outbye::test
