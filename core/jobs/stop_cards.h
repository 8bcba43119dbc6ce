// The card of each person at a stop, and of the rider ("who gives you what"), as data and as lines of text.
#pragma once

#include <string>
#include <vector>

#include "core/jobs/schedule_stop.h"

namespace outbye {

struct CardLine {
  Seconds at{};  // after the car has stopped; on the rider's card after the horse is served first
  Seconds until{};
  std::string task;               // "pour, left side"; on the rider's card what the rider is given
  std::vector<std::string> with;  // names of the others; on the rider's card who gives it
  std::string caution;            // may be empty
};

struct StopCard {
  std::string who;  // the helper's name, or "rider"
  std::vector<CardLine> lines;
  Seconds work{};                     // at this stop; the rider's is 0
  std::vector<std::string> cautions;  // of the whole card
};

// One card a helper, in order, then the rider's.
std::vector<StopCard> stop_cards(const CrewStop& stop, const StopSchedule& schedule);

// "+0:30-1:15  pour, left side (with Ann)": a first line with the name, a line a task, then the cautions.
std::vector<std::string> card_text(const StopCard& card);

}  // namespace outbye
