#include "cli/plan_table.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "cli/text_layout.h"
#include "cli/welfare_table.h"
#include "core/base/text.h"
#include "core/roads/route.h"
#include "formats/plan_json/cautions.h"

namespace outbye {
namespace {

std::string whole(double value) { return fixed(value, 0); }
std::string percent(double share) { return whole(100.0 * share) + "%"; }
// Nobody has a certainty.
std::string odds_words(double chance) { return chance >= 0.995 ? ">99%" : chance < 0.005 ? "<1%" : percent(chance); }
std::string plural(std::size_t n, const std::string& one) {
  return std::to_string(n) + " " + one + (n == 1 ? "" : "s");
}
std::string signed_minutes(Seconds s) {
  const std::string text = whole(in_minutes(s));
  return text.front() == '-' || text == "0" ? text : "+" + text;
}

class PlanTable {
 public:
  PlanTable(const RidePlan& plan, const PlanTableOptions& options, const Style& style)
      : plan_(plan), options_(options), style_(style), clock_(plan.ride.clock) {
    for (const auto& day : plan.plan.days) {
      for (const auto& stop : day.stops) {
        if (stop.stop.option) met_by_[stop.stop.option->value] = at(plan.task.cars, day.car).name;
      }
    }
  }

  std::string text(const std::vector<WhatIfAnswer>& what_ifs) {
    heading();
    for (std::size_t c = 0; c < plan_.plan.days.size(); ++c) car(c);
    errands();
    for (std::uint32_t h = 0; h < plan_.task.horses.size(); ++h) horse(HorseId{h});
    out_ += welfare_sections(plan_, style_);
    out_ += rules_section(plan_.rules, plan_.rule_findings, style_);
    worth();
    for (const auto& answer : what_ifs) what_if(answer);
    out_ += warnings_section(all_warnings(), style_);
    out_ += list_section("Taken for granted (change it in the ride file)", plan_.assumptions, style_);
    out_ += list_section("Remember", crew_cautions(), style_);
    return out_;
  }

 private:
  void line(const std::string& text) {
    const auto end = text.find_last_not_of(' ');
    out_ += text.substr(0, end == std::string::npos ? 0 : end + 1) + "\n";
  }

  void heading() {
    const Ride& ride = plan_.ride;
    out_ += style_.heading(cut_to(ride.name.empty() ? "Crew plan" : ride.name, line_width)) + "\n";
    out_ += wrapped(long_date(ride.start, clock_) + ", start " + hours_minutes(ride.start, clock_) + ", times in " +
                    clock_.zone + " (" + offset_words(ride.start, clock_) + ")");
    out_ += wrapped(fixed(in_kilometres(plan_.survey.course.length), 1) + " km in " +
                    plural(plan_.survey.course.loops.size(), "loop") + ", " +
                    plural(plan_.task.horses.size(), "horse") + ", " + plural(plan_.task.cars.size(), "car") + "; " +
                    std::to_string(ride.days) + " simulated days, seed " + std::to_string(ride.seed.value));
  }

  // "Weir L2", "Gate L2", "Finish", with the horse when there are several; the tail always stays readable. Under a
  // heading that names the loop, "L2" is left out and names have more room.
  std::string short_label(MeetOptionId id, std::size_t width, bool names_loop = true) const {
    const MeetOption& option = at(plan_.task.options, id);
    std::string name = "Finish";
    std::string tail;
    const auto& events = at(plan_.task.horses, option.horse).events;
    const RideEvent& event = events[option.event];
    if (option.kind != RideEvent::Kind::finish && names_loop) tail = " L" + std::to_string(event.loop.value + 1);
    if (option.kind == RideEvent::Kind::gate) name = "Gate";
    if (event.pass) {
      const Pass& pass = at(plan_.survey.course.passes, *event.pass);
      name = at(plan_.survey.course.crew_points, pass.crew_point).name;
      if (pass.nth_in_loop > 1) tail += (names_loop ? "/" : " /") + std::to_string(pass.nth_in_loop);
    }
    if (plan_.task.horses.size() > 1) {
      const std::string& horse = at(plan_.ride.horses, option.horse).name;
      tail += " " + cut_to(horse, 5);
    }
    const std::size_t room = width > display_width(tail) ? width - display_width(tail) : 1;
    return cut_to(name, room) + tail;
  }

  std::string odds(double chance, std::size_t width) const {
    const std::string text = right(odds_words(chance), width);
    if (chance < 0.5) return style_.bad(text);
    if (chance < plan_.ride.crewing.confidence) return style_.doubtful(text);
    return text;
  }

  void car(std::size_t c) {
    const CarDay& day = plan_.plan.days[c];
    const CrewCar& car = at(plan_.task.cars, day.car);
    out_ += "\n" + style_.heading(cut_to(car.name, 40));
    if (day.stops.empty()) {
      out_ += ": stays at " + cut_to(at(plan_.places, car.start).name, 30) + "\n";
      return;
    }
    const auto meets = static_cast<std::size_t>(std::count_if(
        day.stops.begin(), day.stops.end(), [](const auto& s) { return s.stop.kind == PlannedStop::Kind::meet; }));
    line(": " + plural(meets, "meet") + ", " + whole(in_kilometres(day.driven)) + " km, " + hours_minutes(day.driving) +
         " h driving");
    out_ += wrapped("From " + at(plan_.places, car.start).name + ". Leave: as planned; by: the latest for " +
                    percent(plan_.ride.crewing.confidence) +
                    " odds to be ready. Due: median, then 8 of 10 days. Odds: ready before the horse.");
    line(style_.quiet("                 leave    by    km min there ready  due   from-to     odds  wait"));
    std::string date = local_date(plan_.ride.start, clock_);
    std::optional<LoopId> loop;
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const TimedStop& stop = day.stops[s];
      if (const auto now = loop_of(stop); now && now != loop) {
        loop = now;
        line(style_.quiet("Loop " + std::to_string(loop->value + 1)));
      }
      if (const std::string now = local_date(stop.arrive, clock_); now != date) {
        date = now;
        line(long_date(stop.arrive, clock_));
      }
      row(stop, s == 0 ? nullptr : &day.stops[s - 1]);
      if (options_.turns) turns(c, s);
    }
    if (day.back) {
      const PlaceId end = car.end.value_or(car.start);
      line(left("back at " + at(plan_.places, end).name, 38) + hours_minutes(*day.back, clock_));
    }
  }

  // What fits into the cars' free time, and what does not and why.
  void errands() {
    if (plan_.ride.errands.empty()) return;
    out_ += "\n" + style_.heading("Errands in free time") + "\n";
    for (const CarErrands& car : plan_.errands.cars) {
      for (const ErrandStop& stop : car.stops) {
        out_ += wrapped(plan_.ride.errands[stop.errand].name + ", " + at(plan_.task.cars, car.car).name + ": leave " +
                            hours_minutes(stop.depart, clock_) + ", there " + hours_minutes(stop.arrive, clock_) +
                            ", done " + hours_minutes(stop.leave, clock_) + ". Leave it if it cannot start by " +
                            hours_minutes(stop.latest_start, clock_) + ".",
                        "  ");
      }
    }
    for (const LeftOutErrand& errand : plan_.errands.left_out) {
      out_ += wrapped("Not " + plan_.ride.errands[errand.errand].name + ": " + errand.why + ".", "  ");
    }
  }

  std::optional<LoopId> loop_of(const TimedStop& stop) const {
    if (!stop.stop.option) return std::nullopt;
    const MeetOption& option = at(plan_.task.options, *stop.stop.option);
    return at(plan_.task.horses, option.horse).events[option.event].loop;
  }

  void row(const TimedStop& stop, const TimedStop* before) {
    const bool is_meet = stop.stop.kind == PlannedStop::Kind::meet;
    const bool stays = stop.drive.time == Seconds{0};
    std::string name;
    if (is_meet) name = short_label(*stop.stop.option, 16, false);
    if (stop.stop.kind == PlannedStop::Kind::refill) name = "refill " + plan_.task.refills[*stop.stop.refill].label;
    if (stop.stop.kind == PlannedStop::Kind::rest) name = "rest";
    const bool has_limit = before != nullptr && before->leave_by && before->next_meet &&
                           (!is_meet || *before->next_meet == *stop.stop.option);
    std::string text = left(name, 16) + " ";
    text += left(stays ? "" : hours_minutes(stop.depart, clock_), 5) + " ";
    text += left(has_limit && !stays ? hours_minutes(*before->leave_by, clock_) : "", 5) + " ";
    text += right(stays || stop.drive.length <= Metres{0} ? "" : fixed(in_kilometres(stop.drive.length), 1), 5) + " ";
    text += right(stays ? "" : whole(in_minutes(stop.drive_planned)), 3) + " ";
    text += hours_minutes(stop.arrive, clock_) + " " + hours_minutes(stop.ready, clock_);
    if (is_meet) {
      text += "  " + window_words(stop.due, clock_) + " " + odds(stop.chance_ready, 4) + " " +
              right(signed_minutes(stop.slack), 5);
    }
    line(text);
    if (is_meet && stop.chance_ready < 0.5) {
      line("    a rush: there before the horse goes on " + odds_words(stop.chance_there) + ", not set up");
    }
    if (has_limit && before->fallback) {
      out_ += wrapped("later than that? drive to " + short_label(*before->fallback, 40) + " instead", "    ");
    }
  }

  void turns(std::size_t c, std::size_t s) {
    if (c >= plan_.routes.size() || s >= plan_.routes[c].size() || !plan_.routes[c][s]) return;
    for (const auto& turn : plan_.routes[c][s]->turns) out_ += wrapped(describe(turn), "      ");
  }

  void horse(HorseId horse) {
    const auto& loops = plan_.survey.course.loops;
    std::size_t event = 0;  // of this horse
    std::optional<LoopId> loop;
    for (const auto& pass : plan_.passes) {
      if (pass.horse != horse) continue;
      if (!loop || *loop != pass.event.loop) {
        loop = pass.event.loop;
        const Loop& now = at(loops, *loop);
        std::string title = "Loop " + std::to_string(loop->value + 1);
        const bool says_number = same_name(now.name.substr(0, title.size()), title);
        if (!now.name.empty()) title = says_number ? now.name : title + " " + now.name;
        if (plan_.task.horses.size() > 1) title = at(plan_.ride.horses, horse).name + ", " + title;
        out_ += "\n" + style_.heading(cut_to(title, 40));
        line(": " + fixed(in_kilometres(now.length), 1) + " km, climb " + whole(now.climb.value) + " m");
        line(style_.quiet("   km  where                    due   from-to      goes on            met by"));
      }
      pass_row(pass, event_option(horse, event));
      ++event;
      if (pass.event.kind != RideEvent::Kind::pass) effects(horse, *loop);
    }
    not_met(horse);
  }

  std::optional<std::uint32_t> event_option(HorseId horse, std::size_t event) const {
    for (std::uint32_t o = 0; o < plan_.task.options.size(); ++o) {
      if (plan_.task.options[o].horse == horse && plan_.task.options[o].event == event) return o;
    }
    return std::nullopt;
  }

  void pass_row(const PassForecast& pass, std::optional<std::uint32_t> option) {
    std::string name = pass.name;
    if (pass.event.kind == RideEvent::Kind::gate) name = "Vet gate: " + name;
    if (pass.event.kind == RideEvent::Kind::finish) name = "Finish: " + name;
    const auto met = option ? met_by_.find(*option) : met_by_.end();
    const bool goes_on =
        pass.event.kind == RideEvent::Kind::gate || (pass.is_met && pass.event.kind == RideEvent::Kind::pass);
    line(right(fixed(in_kilometres(pass.loop_along), 1), 5) + "  " + left(name, 23) + "  " +
         window_words(pass.due, clock_) + "  " + left(goes_on ? window_words(pass.out, clock_) : "", 17) + "  " +
         (met == met_by_.end() ? "-" : cut_to(met->second, 10)));
  }

  void effects(HorseId horse, LoopId loop) {
    if (horse.value >= plan_.effects.size()) return;
    for (const auto& effect : plan_.effects[horse.value]) {
      if (effect.loop != loop) continue;
      std::string text = "Riding " + hours_minutes(effect.riding) + " h.";
      const auto add = [&text](const std::string& cause, Seconds s) {
        const double min = in_minutes(s);
        if (std::fabs(min) < 0.5) return;
        text += " " + cause + (min > 0 ? " cost " : " save ") + whole(std::fabs(min)) + " min.";
      };
      add("Hills", effect.hills);
      add("Soft or rough stretches", effect.going);
      add("Heat and the like", effect.heat);
      add("Stops at met points", effect.stops);
      if (std::fabs(in_minutes(effect.hills_within)) >= 0.5) {
        text += " Within the loop hills shift the passes by up to " +
                whole(std::fabs(in_minutes(effect.hills_within))) + " min.";
      }
      if (effect.gate > Seconds{0}) text += " Recovery and hold: " + whole(in_minutes(effect.gate)) + " min.";
      out_ += wrapped(text, "       ");
    }
  }

  void not_met(HorseId horse) {
    std::string names;
    std::size_t n = 0;
    for (const auto& pass : plan_.passes) {
      if (pass.horse != horse || pass.is_met || pass.event.kind == RideEvent::Kind::finish) continue;
      names += (names.empty() ? "" : ", ") + (pass.event.kind == RideEvent::Kind::gate ? "gate" : pass.name) + " L" +
               std::to_string(pass.event.loop.value + 1);
      ++n;
    }
    if (n > 0) out_ += "\n" + wrapped(names + ".", "Met by nobody (" + std::to_string(n) + "): ");
  }

  void worth() {
    const PlanValue& value = plan_.plan.value;
    const Ride& ride = plan_.ride;
    out_ += "\n" + style_.heading("What the plan is worth") + "\n";
    out_ += wrapped(fixed(value.worth, 2) + " points (give or take " + fixed(value.standard_error, 2) +
                        "), where a pass met with everything set up counts 1, a gate " + short_number(ride.gate_worth) +
                        " and the finish " + short_number(ride.finish_worth) +
                        ", and each more in heat and far from water.",
                    "  ");
    const double share = value.upper_bound > 0 ? std::max(0.0, value.gap) / value.upper_bound : 0.0;
    out_ += wrapped("No crew could expect more than " + fixed(value.upper_bound, 2) +
                        ", even knowing the day beforehand: at most " + fixed(std::max(0.0, value.gap), 2) + " (" +
                        percent(share) + ") is left to gain.",
                    "  ");
    out_ += wrapped(value.what_is_exact, "  ");
    if (plan_.plan.weakest) {
      for (const auto& day : plan_.plan.days) {
        for (const auto& stop : day.stops) {
          if (stop.stop.option != plan_.plan.weakest) continue;
          out_ += wrapped("Weakest link: " + at(plan_.task.options, *plan_.plan.weakest).label +
                              ", ready before the horse on " + odds_words(stop.chance_ready) +
                              " of the days, there before it leaves on " + odds_words(stop.chance_there) + ".",
                          "  ");
        }
      }
    }
  }

  static std::string short_number(double value) { return fixed(value, value == std::floor(value) ? 0 : 1); }

  void what_if(const WhatIfAnswer& answer) {
    out_ += "\n" + style_.heading(cut_to("What if: " + answer.question, line_width)) + "\n";
    if (!answer.plan) {
      out_ += wrapped("No plan: " + answer.plan.error().where + ": " + answer.plan.error().what, "  ");
      return;
    }
    const double change = answer.worth_change;
    out_ += wrapped(
        "Worth " + fixed(answer.plan->plan.value.worth, 2) + " points: " +
            (std::fabs(change) < 0.005 ? "no change" : fixed(std::fabs(change), 2) + (change > 0 ? " more" : " less")) +
            ".",
        "  ");
    for (const auto& sentence : answer.changes) out_ += wrapped(sentence, "  - ");
    if (answer.changes.empty()) out_ += "  - The same meets, with much the same odds.\n";
  }

  Warnings all_warnings() const {
    Warnings all = plan_.warnings;
    for (const auto& warning : plan_.plan.warnings) {
      if (std::find(all.begin(), all.end(), warning) == all.end()) all.push_back(warning);
    }
    return all;
  }

  const RidePlan& plan_;
  const PlanTableOptions& options_;
  const Style& style_;
  const Clock& clock_;
  std::map<std::uint32_t, std::string> met_by_;  // option: car
  std::string out_;
};

}  // namespace

std::string plan_table(const RidePlan& plan, const std::vector<WhatIfAnswer>& what_ifs, const PlanTableOptions& options,
                       const Style& style) {
  return PlanTable(plan, options, style).text(what_ifs);
}

std::string offset_words(Instant at, const Clock& clock) { return "UTC" + iso8601(at, clock).substr(19); }

std::string window_words(const Window& window, const Clock& clock) {
  return hours_minutes(window.p50, clock) + " " + hours_minutes(window.p10, clock) + "-" +
         hours_minutes(window.p90, clock);
}

std::string list_section(const std::string& title, const std::vector<std::string>& sentences, const Style& style) {
  if (sentences.empty()) return "";
  std::string text = "\n" + style.heading(title) + "\n";
  for (const auto& sentence : sentences) text += wrapped(sentence, "  - ");
  return text;
}

std::string warnings_section(const Warnings& warnings, const Style& style) {
  if (warnings.empty()) return "";
  std::string text = "\n" + style.doubtful("Warnings") + "\n";
  for (const auto& warning : warnings) text += wrapped(warning.where + ": " + warning.what, "  ! ");
  return text;
}

}  // namespace outbye
