#include "engine/day_watches.h"

#include <algorithm>

namespace outbye {

void WatchBook::take(const DayFold& fold, const StandingEntry& e) {
  const std::string who = e.entry.who.empty() ? e.device : e.entry.who;
  if (e.entry.kind == DayKind::watched || e.entry.kind == DayKind::watch_begin) {
    const auto place = fold.known(e.id, fold.names.place(e.entry.place));
    if (!place) return;
    const double overlook = e.entry.overlook.value_or(default_overlook);
    if (e.entry.kind == DayKind::watched) {
      if (*e.entry.until > fold.now)
        fold.trouble(e.id, "watches until a time still to come; only the time until now counts");
      closed_.push_back({*place, who, e.entry.at, std::min(*e.entry.until, fold.now), false, overlook});
      return;
    }
    end(who, e.entry.at);
    open_[who] = {*place, e.entry.at, overlook, false};
    return;
  }
  const auto open = open_.find(who);
  if (open == open_.end()) {
    return fold.trouble(e.id, "is about a watch of '" + who + "' that was not begun; note when it began");
  }
  if (e.entry.kind == DayKind::watch_end) return end(who, e.entry.at);
  if (e.entry.kind == DayKind::break_begin) {
    if (!open->second.is_paused) close_stretch(who, e.entry.at, false);
    open->second.is_paused = true;
  } else {
    open->second.is_paused = false;
    open->second.from = e.entry.at;
  }
}

void WatchBook::close_stretch(const std::string& who, Instant to, bool is_going_on) {
  const Open& w = open_[who];
  if (to > w.from) closed_.push_back({w.place, who, w.from, to, is_going_on, w.overlook});
}
void WatchBook::end(const std::string& who, Instant to) {
  const auto open = open_.find(who);
  if (open == open_.end()) return;
  if (!open->second.is_paused) close_stretch(who, to, false);
  open_.erase(open);
}

void WatchBook::settle(const DayFold& fold, DayState& state) {
  std::vector<std::string> going_on;
  for (const auto& [who, open] : open_) {
    if (!open.is_paused) going_on.push_back(who);
  }
  for (const std::string& who : going_on) close_stretch(who, fold.now, true);
  for (const Closed& w : closed_) {
    state.watches.push_back({fold.names.place_name(w.place), w.who, w.from, w.to, w.is_going_on, w.overlook});
    for (HorseOnDay& horse : state.horses) {
      for (const std::size_t e : fold.names.events_at(w.place)) horse.watches.push_back({e, w.from, w.to, w.overlook});
    }
  }
}

}  // namespace outbye
