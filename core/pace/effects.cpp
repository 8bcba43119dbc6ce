#include <cmath>
#include <string>
#include <vector>

#include "core/pace/loop_clock.h"
#include "core/pace/pace.h"
#include "core/pace/pace_checks.h"

namespace outbye {
namespace {

// Whole minutes as people say them.
std::string in_words(long number) {
  static constexpr const char* words[] = {"no",    "one",   "two",  "three", "four",   "five",  "six",
                                          "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return number <= 12 ? words[number] : std::to_string(number);
}
long whole_minutes(Seconds time) { return std::lround(std::fabs(in_minutes(time))); }
std::string minutes_in_words(long number) { return in_words(number) + (number == 1 ? " minute" : " minutes"); }

struct Cause {
  const char* name;
  bool is_plural;
  Seconds time;
};

// "Hills cost Loop 2 eleven minutes, going four and stops nine"
std::string clause(const std::vector<Cause>& causes, const char* plural_verb, const char* singular_verb,
                   const std::string& loop) {
  std::string text;
  for (std::size_t i = 0; i < causes.size(); ++i) {
    const auto& cause = causes[i];
    if (i == 0) {
      text += std::string(cause.name) + ' ' + (cause.is_plural ? plural_verb : singular_verb) + ' ' + loop + ' ' +
              minutes_in_words(whole_minutes(cause.time));
    } else {
      text += (i + 1 == causes.size() ? " and " : ", ") + std::string(cause.name) + ' ' +
              in_words(whole_minutes(cause.time));
    }
  }
  return text;
}

}  // namespace

Result<std::vector<LoopEffects>> pace_effects(const Course& course, const HorsePace& pace,
                                              const std::vector<bool>& is_met) {
  if (auto checked = check_pace(course, pace); !checked) return tl::make_unexpected(checked.error());
  const auto events = ride_events(course);
  if (is_met.size() != events.size()) {
    return bad_input("meets", "are given for " + std::to_string(is_met.size()) + " events, but the ride has " +
                                  std::to_string(events.size()) + "; give one flag an event");
  }
  std::vector<LoopEffects> result;
  std::size_t e = 0;
  for (std::size_t l = 0; l < course.loops.size(); ++l) {
    const Loop& loop = course.loops[l];
    const LoopPace& of = pace.loops[l];
    LoopEffects effects;
    effects.loop = LoopId{static_cast<std::uint32_t>(l)};
    const Seconds level = loop.length / of.speed;
    const LoopClock all(loop, of);
    if (of.is_average) {
      effects.heat = all.total() - level;
    } else {
      const Seconds with_hills = LoopClock(loop, of, {.hills = true, .going = false, .heat = false}).total();
      const Seconds with_going = LoopClock(loop, of, {.hills = true, .going = true, .heat = false}).total();
      effects.hills = with_hills - level;
      effects.going = with_going - with_hills;
      effects.heat = all.total() - with_going;
    }
    for (; e < events.size() && events[e].loop.value == l; ++e) {
      if (!events[e].pass) continue;
      const Metres along = at(course.passes, *events[e].pass).along;
      const Seconds later = all.at(along) - (along / loop.length) * all.total();
      if (std::fabs(later.count()) > std::fabs(effects.hills_within.count())) effects.hills_within = later;
      if (is_met[e]) effects.stops += at(pace.stops, *events[e].pass).median;
    }
    effects.riding = all.total() + effects.stops;
    effects.gate = of.recovery.median;
    if (l + 1 < course.loops.size()) effects.gate += of.hold;
    result.push_back(effects);
  }
  return result;
}

std::string describe(const LoopEffects& effects, const std::string& loop_name) {
  std::vector<Cause> costs;
  std::vector<Cause> savings;
  const Cause causes[] = {{"hills", true, effects.hills},
                          {"going", false, effects.going},
                          {"heat", false, effects.heat},
                          {"stops", true, effects.stops}};
  for (const auto& cause : causes) {
    if (whole_minutes(cause.time) == 0) continue;
    (cause.time > Seconds{0} ? costs : savings).push_back(cause);
  }
  std::string text = clause(costs, "cost", "costs", loop_name);
  if (!savings.empty()) {
    if (!text.empty()) text += "; ";
    text += clause(savings, "save", "saves", text.empty() ? loop_name : "it");
  }
  const long within = whole_minutes(effects.hills_within);
  if (within > 0) {
    text += text.empty() ? "the lie of " + loop_name + " brings" : "; the lie of the loop brings";
    text += " the horse to one crew point " + minutes_in_words(within) +
            (effects.hills_within > Seconds{0} ? " later" : " earlier") + " than even speed would";
  }
  if (text.empty()) text = "nothing slows " + loop_name;
  if (text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text + '.';
}

}  // namespace outbye
