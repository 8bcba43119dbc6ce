// How meets are spoken of on the day. Internal to engine.
#pragma once

#include <string>

#include "core/base/text.h"
#include "engine/day.h"
#include "engine/day_names.h"

namespace outbye {

class MeetWords {
 public:
  MeetWords(const RidePlan& plan, const DayAnswer& answer) : plan_(plan), answer_(answer), names_(plan) {}

  std::string clock(Instant when) const { return hours_minutes(when, plan_.ride.clock); }
  const MeetOption& option(MeetOptionId id) const { return at(plan_.task.options, id); }
  std::string place_of(MeetOptionId id) const { return names_.place_name(option(id).place); }
  std::string her(HorseId horse) const {
    return plan_.ride.horses.size() > 1 ? at(plan_.ride.horses, horse).name : "she";
  }
  std::string Her(HorseId horse) const { return plan_.ride.horses.size() > 1 ? her(horse) : "She"; }
  const PassOutlook& outlook(MeetOptionId id) const {
    const MeetOption& o = option(id);
    return answer_.passes[o.horse.value * names_.events().size() + o.event];
  }
  std::string due_words(MeetOptionId id) const {
    const Window& due = *outlook(id).odds.due;
    return Her(option(id).horse) + " is due " + clock(due.p50) + ", between " + clock(due.p10) + " and " +
           clock(due.p90) + ".";
  }
  std::string gone_words(MeetOptionId id) const {
    return odds_words(outlook(id).odds.gone) + " that " + her(option(id).horse) + " has gone by " + place_of(id) + ".";
  }

 private:
  const RidePlan& plan_;
  const DayAnswer& answer_;
  DayNames names_;
};

}  // namespace outbye
