#include "engine/day_words.h"

#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "engine/day_names.h"

namespace outbye {
namespace {

constexpr std::size_t riders_named = 3;
constexpr double overdue = 0.02;

class Words {
 public:
  Words(const RidePlan& plan, const DayAnswer& answer, const CarOnDay& car, CarAdvice& advice)
      : plan_(plan), answer_(answer), car_(car), advice_(advice), names_(plan) {}

  void say() {
    const auto subject = advice_.here ? advice_.here : advice_.next;
    if (!subject) {
      advice_.headline = "Nothing is left to meet for " + at(plan_.ride.cars, car_.car).name + ".";
      return;
    }
    say_headline();
    say_odds(*subject);
    for (const WayOn& way : advice_.advice.ways) say_way(way);
    say_when_to_ask();
    say_why(*subject);
  }

 private:
  std::string clock(Instant at) const { return hours_minutes(at, plan_.ride.clock); }
  const MeetOption& option(MeetOptionId id) const { return at(plan_.task.options, id); }
  const std::string& label(MeetOptionId id) const { return option(id).label; }
  std::string whole_minutes(Seconds s) const {
    const double min = std::round(std::fabs(in_minutes(s)));
    return fixed(min, 0) + (min == 1 ? " minute" : " minutes");
  }
  // "Brimstone", or "she" where the ride has one horse.
  std::string her(HorseId horse) const {
    return plan_.ride.horses.size() > 1 ? at(plan_.ride.horses, horse).name : "she";
  }
  static std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
  }

  void say_headline() {
    if (car_.is_driving) {
      advice_.headline = "On the way to " + (advice_.next ? label(*advice_.next) : "the next meet") + ".";
      return;
    }
    if (advice_.advice.ways.empty()) {
      advice_.headline = advice_.here ? "Wait here for " + label(*advice_.here) + "."
                                      : "Next: " + label(*advice_.next) + "; no drive there is known.";
      return;
    }
    const WayOn& best = advice_.advice.ways[advice_.advice.best];
    switch (best.kind) {
      case WayOn::Kind::wait:
        advice_.headline =
            advice_.next ? "Wait here until " + clock(best.until) + ", then drive on to " + label(*advice_.next) + "."
                         : "Wait here until she comes.";
        break;
      case WayOn::Kind::next:
        advice_.headline = !advice_.here && advice_.advice.leave_by > answer_.state.now
                               ? "Next: " + label(*advice_.next) + "; leave by " + clock(*advice_.advice.leave_by) + "."
                               : "Drive on to " + label(*advice_.next) + " now.";
        break;
      case WayOn::Kind::fallback:
        advice_.headline = "Drive to " + label(*advice_.fallback) + ", the fallback, now.";
        break;
    }
  }

  void say_odds(MeetOptionId id) {
    const HorseId horse = option(id).horse;
    const PassOdds& odds = answer_.passes[horse.value * names_.events().size() + option(id).event].odds;
    std::string text = label(id) + ": ";
    if (odds.gone >= 0.005) {
      text += odds_words(odds.gone) + " that " + her(horse) + " has gone by, " + odds_words(1.0 - odds.gone) +
              " that " + her(horse) + " is still to come";
      if (odds.due) text += "; if so,";
    } else {
      text += her(horse) + " is still to come;";
    }
    if (odds.due) {
      text += " due " + clock(odds.due->p50) + ", between " + clock(odds.due->p10) + " and " + clock(odds.due->p90) +
              " (8 times in 10)";
    }
    advice_.sentences.push_back(text + ".");
  }

  void say_way(const WayOn& way) {
    std::string text;
    const std::string here = advice_.here ? odds_words(way.here) + " to meet her here, " : "";
    const auto there = [&](const std::optional<MeetOptionId>& id) {
      return odds_words(way.ready) + " to be set up at " + label(*id) + " before her";
    };
    switch (way.kind) {
      case WayOn::Kind::wait:
        text = "Wait until " + clock(way.until) + ": " + here;
        text += advice_.next ? there(advice_.next) + ", " + odds_words(way.meets) + " to meet her at one of the two"
                             : "with nothing to drive on to";
        break;
      case WayOn::Kind::next:
        text = (advice_.here ? "Go now to " : "To ") + label(*advice_.next) + ": " + there(advice_.next);
        break;
      case WayOn::Kind::fallback:
        text = "Go now to " + label(*advice_.fallback) + " instead: " + there(advice_.fallback);
        break;
    }
    advice_.sentences.push_back(text + ".");
  }

  void say_when_to_ask() {
    if (!advice_.here) return;
    if (advice_.advice.ask_again && advice_.next) {
      advice_.sentences.push_back("Ask again at " + clock(*advice_.advice.ask_again) +
                                  " if she has not come, or as soon as anything is noted.");
    } else {
      advice_.sentences.push_back("Ask again as soon as anything is noted.");
    }
    const bool watching = std::any_of(answer_.state.watches.begin(), answer_.state.watches.end(), [&](const auto& w) {
      return w.is_going_on && same_name(w.place, names_.place_name(car_.place));
    });
    if (!watching) {
      advice_.sentences.push_back("Nobody is noted as watching here: note it, so that not seeing her counts.");
    }
  }

  void say_why(MeetOptionId id) {
    const MeetOption& about = option(id);
    const LiveDays& live = answer_.days[about.horse.value];
    const HorseOnDay& horse = answer_.state.horses[about.horse.value];
    say_last_seen(horse, about.horse);
    say_riders(horse, about);
    say_watches(about);
    for (const Word& word : horse.words) {
      if (live.anchor.event && word.event <= *live.anchor.event) continue;
      const std::string where = names_.label(about.horse, word.event);
      advice_.why.push_back(
          (word.seen_at ? "Word that " + her(about.horse) + " passed " + where + " about " + clock(*word.seen_at) +
                              ", give or take " + whole_minutes(word.doubt)
                        : "Word that " + her(about.horse) + " had not passed " + where + " by " + clock(word.at)) +
          " (taken as right " + odds_words(word.trust) + ").");
    }
    if (chance_of_coming_after(live, about.event, answer_.state.now) < overdue) {
      advice_.why.push_back(
          "By sightings alone fewer than 2 days in 100 would have her later than now: ask other crews "
          "and the organiser.");
    }
  }

  void say_last_seen(const HorseOnDay& horse, HorseId id) {
    if (horse.seen.empty()) {
      advice_.why.push_back(capital(her(id)) + " has not been seen yet; the times are the plan's.");
      return;
    }
    const OwnSighting& last = horse.seen.back();
    const Instant at = last.in ? *last.in : last.in_time ? *last.in_time : *last.out;
    const Seconds late = at - names_.due(id, last.event);
    std::string text = capital(her(id)) + " was last seen at " + names_.label(id, last.event) + " at " + clock(at);
    if (std::fabs(in_minutes(late)) >= 1.0) {
      text += ", " + whole_minutes(late) + (late.count() > 0 ? " later" : " earlier") + " than planned";
    }
    advice_.why.push_back(text + ".");
  }

  // Other riders seen beside her at an earlier point, and at the point in question.
  void say_riders(const HorseOnDay& horse, const MeetOption& about) {
    const RideEvent& target = names_.events()[about.event];
    std::size_t named = 0;
    const auto& riders = answer_.state.riders;
    for (auto now = riders.rbegin(); now != riders.rend() && named < riders_named; ++now) {
      if (now->loop != target.loop || !is_at(*now, target)) continue;
      const RiderSeen* beside = nullptr;
      const OwnSighting* hers = nullptr;
      for (const RiderSeen& before : riders) {
        if (before.number != now->number || before.at >= now->at) continue;
        for (const OwnSighting& seen : horse.seen) {
          if (!seen.in || !is_at(before, names_.events()[seen.event])) continue;
          beside = &before;
          hers = &seen;
        }
      }
      std::string text = "Number " + now->number + " passed " + now->place + " at " + clock(now->at);
      if (beside != nullptr) {
        const Seconds behind = beside->at - *hers->in;
        text = "Number " + now->number + " was ";
        text += std::fabs(in_minutes(behind)) < 0.5
                    ? "beside her"
                    : whole_minutes(behind) + (behind.count() > 0 ? " behind her" : " ahead of her");
        text += " at " + beside->place + " and passed " + now->place + " at " + clock(now->at);
      }
      advice_.why.push_back(text + ".");
      ++named;
    }
  }

  bool is_at(const RiderSeen& rider, const RideEvent& event) const {
    if (rider.loop != event.loop) return false;
    const Metres along = event.pass ? at(plan_.survey.course.passes, *event.pass).along
                                    : at(plan_.survey.course.loops, event.loop).length;
    return std::fabs(along.value - rider.along.value) < 1.0;
  }

  void say_watches(const MeetOption& about) {
    const std::string place = names_.place_name(about.place);
    const WatchKept* before = nullptr;
    for (const WatchKept& watch : answer_.state.watches) {
      if (watch.place != place) continue;
      if (before != nullptr && before->who == watch.who && watch.from > before->to) {
        advice_.why.push_back("Nobody watched " + place + " from " + clock(before->to) + " to " + clock(watch.from) +
                              " (" + watch.who + "'s break).");
      }
      advice_.why.push_back(watch.who + " watched " + place + " from " + clock(watch.from) + " to " +
                            (watch.is_going_on ? "now" : clock(watch.to)) + " (a horse passes unseen " +
                            odds_words(watch.overlook) + ").");
      before = &watch;
    }
  }

  const RidePlan& plan_;
  const DayAnswer& answer_;
  const CarOnDay& car_;
  CarAdvice& advice_;
  DayNames names_;
};

}  // namespace

std::string odds_words(double chance) {
  if (chance < 0.005) return "less than 1 in 100";
  if (chance > 0.995) return "more than 99 in 100";
  if (chance < 0.095 || chance > 0.905) return fixed(std::round(100.0 * chance), 0) + " in 100";
  return fixed(std::round(10.0 * chance), 0) + " in 10";
}

void say(const RidePlan& plan, const DayAnswer& answer, const CarOnDay& car, CarAdvice& advice) {
  Words(plan, answer, car, advice).say();
}

}  // namespace outbye
