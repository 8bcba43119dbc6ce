#include <algorithm>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"
#include "formats/picture/marks.h"

namespace outbye {
namespace {

std::string km(Metres along) { return fixed(in_kilometres(along), 1); }

void car_table(Paper& paper, const RidePlan& plan, const CarDay& day) {
  paper.heading(3, car_words(plan, day.car) + ": " + fixed(in_kilometres(day.driven), 0) + " km, " +
                       duration_in_words(day.driving) + " of driving");
  Table table;
  table.columns = {{"", true},      {"Where", false}, {"Leave", true},        {"By", true},  {"There", true},
                   {"Ready", true}, {"Due", true},    {"8 of 10 days", true}, {"Odds", true}};
  for (std::size_t s = 0; s < day.stops.size(); ++s) {
    const TimedStop& stop = day.stops[s];
    const bool is_meet = stop.stop.option.has_value();
    const bool drives = stop.drive_planned > Seconds{0};
    const TimedStop* limit = limit_for(day, s);
    table.rows.push_back({std::to_string(s + 1),
                          {stop_words(plan, stop), is_meet},
                          drives ? time_words(stop.depart, plan) : "stays",
                          {limit != nullptr ? time_words(*limit->leave_by, plan) : "", true},
                          time_words(stop.arrive, plan),
                          time_words(stop.ready, plan),
                          {is_meet ? time_words(stop.due.p50, plan) : "", true},
                          is_meet ? span_words(stop.due, plan) : "",
                          is_meet ? percent(stop.chance_ready) : ""});
  }
  paper.table(table);
  std::string after;
  if (day.back) after = "Back at " + time_words(*day.back, plan) + ".";
  if (day.stops.empty()) after = "This car has no stop; it stays where it is.";
  paper.text(after);
}

void errands(Paper& paper, const RidePlan& plan) {
  if (plan.ride.errands.empty()) return;
  paper.heading(3, "Errands in free time");
  std::vector<std::string> lines;
  for (const CarErrands& car : plan.errands.cars) {
    for (const ErrandStop& stop : car.stops) {
      std::string when =
          stop.after_stop ? "after stop " + std::to_string(*stop.after_stop + 1) : "before the first stop";
      lines.push_back(plan.ride.errands[stop.errand].name + " (" + car_words(plan, car.car) + ", " + when +
                      "): leave " + time_words(stop.depart, plan) + ", there " + time_words(stop.arrive, plan) +
                      ", begin " + time_words(stop.start, plan) + ", done " + time_words(stop.leave, plan) +
                      ". Leave it if it cannot begin by " + time_words(stop.latest_start, plan) + ".");
    }
  }
  for (const LeftOutErrand& errand : plan.errands.left_out) {
    lines.push_back("Not " + plan.ride.errands[errand.errand].name + ": " + errand.why + ".");
  }
  paper.list(lines);
}

std::string light_words(const SunTimes& sun, const RidePlan& plan) {
  std::string words;
  const auto add = [&](const char* what, const std::optional<Instant>& at) {
    if (at) words += (words.empty() ? "" : ", ") + std::string(what) + " " + time_words(*at, plan);
  };
  add("civil dawn", sun.civil_dawn);
  add("sunrise", sun.sunrise);
  add("sunset", sun.sunset);
  add("civil dusk", sun.civil_dusk);
  if (sun.sun_stays_up) words += "the sun does not set";
  if (sun.sun_stays_down) words += (words.empty() ? "" : "; ") + std::string("the sun does not rise");
  return words.empty() ? "" : "Light: " + words + ".";
}

}  // namespace

void day_at_a_glance(Paper& paper, const PaperSources& from) {
  const RidePlan& plan = from.plan;
  sheet_title(paper, plan, "Crew book");
  paper.heading(2, "The day at a glance");
  for (const CarDay& day : plan.plan.days) car_table(paper, plan, day);
  errands(paper, plan);
  if (plan.plan.weakest) paper.text("Weakest link: " + meet_words(plan, *plan.plan.weakest) + ".");
  paper.text(light_words(plan.welfare.sun, plan));
  paper.text("Leave: as planned. By: the latest for " + percent(plan.ride.crewing.confidence) +
             " odds of being ready. Due: median of the simulated days. Odds: ready before the horse.");
  if (plan.passes.empty()) return;
  paper.keep_together([&] {
    paper.heading(3, "Time and distance");
    // Room for the names of all passes, on a page of their own if it must be.
    const double wanted = std::clamp(14.0 * static_cast<double>(plan.passes.size()) + 90, 220.0, 620.0);
    const double key = 5 * paper.format().body;
    const double most = (paper.room() > 200 + key ? paper.room() : paper.page_room() - 3 * paper.format().body) - key;
    const double height = std::min(wanted, most);
    paper.picture(height, [&](const Box& box) { time_distance_chart(paper, plan, box); });
    paper.text(
        "Grey band: the horse on 8 of 10 days, its black line the median, thick where it is held. Dashed: the car "
        "drives; grey bar: sets up, fills or runs an errand; white: waits; black: with the horse; dark grey: packs. "
        "Shaded: dark. Small numbers: stops as in the table.",
        paper.small());
  });
}

void every_pass(Paper& paper, const PaperSources& from) {
  const RidePlan& plan = from.plan;
  for (std::uint32_t h = 0; h < plan.task.horses.size(); ++h) {
    paper.heading(2, "Every pass of " + horse_in_words(plan, HorseId{h}));
    Table table;
    table.columns = {
        {"km", true, TextAlign::end}, {"Where", false}, {"Due", true}, {"8 of 10 days", true}, {"Goes on", true},
        {"8 of 10 days", true},       {"Met by", false}};
    std::optional<LoopId> loop;
    const auto flush = [&] {
      if (!table.rows.empty()) paper.table(table);
      table.rows.clear();
    };
    for (std::size_t p = 0; p < plan.passes.size(); ++p) {
      const PassForecast& pass = plan.passes[p];
      if (pass.horse != HorseId{h}) continue;
      if (loop != pass.event.loop) {
        flush();
        loop = pass.event.loop;
        const Loop& now = at(plan.survey.course.loops, *loop);
        paper.heading(
            3, loop_words(plan, *loop) + ": " + km(now.length) + " km, climb " + fixed(now.climb.value, 0) + " m");
      }
      const bool stands = pass.event.kind == RideEvent::Kind::gate || pass.is_met;
      const auto car = met_by(plan, p);
      table.rows.push_back({km(pass.loop_along),
                            pass_words(plan, pass),
                            {time_words(pass.due.p50, plan), true},
                            span_words(pass.due, plan),
                            stands ? time_words(pass.out.p50, plan) : "",
                            stands ? span_words(pass.out, plan) : "",
                            car ? car_words(plan, *car) : "nobody"});
    }
    flush();
  }
}

void crew_book(Paper& paper, const PaperSources& from) {
  day_at_a_glance(paper, from);
  for (std::size_t d = 0; d < from.plan.plan.days.size(); ++d) {
    const CarDay& day = from.plan.plan.days[d];
    if (day.stops.empty()) continue;
    paper.new_page();
    for (std::size_t s = 0; s < day.stops.size(); ++s) meet_block(paper, from, d, s);
  }
  gate_pages(paper, from);
  emergency_page(paper, from);
  every_pass(paper, from);
  cautions(paper, from);
}

}  // namespace outbye
