#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"

namespace outbye {
namespace {

struct Took {  // from one event of a horse to the next
  Seconds p10{}, p50{}, p90{};
};

double quantile_of(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  const double place = share * static_cast<double>(values.size() - 1);
  const auto low = static_cast<std::size_t>(place);
  const std::size_t high = std::min(low + 1, values.size() - 1);
  return values[low] + (place - static_cast<double>(low)) * (values[high] - values[low]);
}

// Over the plan's simulated days; by the medians where a plan has none. From a gate it counts from going out.
Took time_between(const RidePlan& plan, HorseId horse, std::size_t event, const PassForecast& before,
                  const PassForecast& here) {
  const HorseDays& days = at(plan.task.horses, horse);
  const bool from_gate = before.event.kind == RideEvent::Kind::gate;
  const Seconds median = here.due.p50 - (from_gate ? before.out.p50 : before.due.p50);
  if (days.days == 0 || event == 0 || days.base.size() < (event + 1) * days.days) return {median, median, median};
  std::vector<bool> is_met(days.events.size(), false);
  std::size_t e = 0;
  for (const PassForecast& pass : plan.passes) {
    if (pass.horse == horse && e < is_met.size()) is_met[e++] = pass.is_met;
  }
  const std::vector<double> arrive = arrivals(days, is_met);
  std::vector<double> took;
  for (std::size_t d = 0; d < days.days; ++d) {
    const double stood = from_gate ? days.stand[(event - 1) * days.days + d] : 0.0;
    took.push_back(arrive[event * days.days + d] - arrive[(event - 1) * days.days + d] - stood);
  }
  return {Seconds{quantile_of(took, 0.1)}, Seconds{quantile_of(took, 0.5)}, Seconds{quantile_of(took, 0.9)}};
}

std::string minutes_of(Seconds time) { return fixed(in_minutes(time), 0); }

void how(Paper& paper) {
  paper.heading(2, "The rule, worked by hand");
  paper.list(
      {"Write each number that goes by with its time, those before ours and those behind.",
       "Ours was seen at the place before: add the minutes printed below to that time. That is when it is due here, "
       "early and late on 8 of 10 days.",
       "Another rider was seen there too and has come here: the minutes that one took, added to the time when ours "
       "was there, say when ours would be due if it goes like that one. Take the middle of two or three such times.",
       "Ours was behind number N there and N has gone by here: ours is still to come, or has passed unseen; ask "
       "the next crew before you decide.",
       "The late time is past and nobody has seen ours: tell ride control, and decide by the leave-by below. Wait "
       "no longer than that unless you give up the next meet on purpose.",
       "Nobody watches alone for long: write down when you looked away."});
  paper.text("A notebook rule: common practice, no source. It does not know hills or a slow vet gate.");
}

void meet_part(Paper& paper, const RidePlan& plan, const CarDay& day, std::size_t s) {
  const TimedStop& stop = day.stops[s];
  const MeetOption& option = at(plan.task.options, *stop.stop.option);
  const auto row = forecast_row(plan, *stop.stop.option);
  const std::string ours = horse_in_words(plan, option.horse);
  paper.heading(
      2, std::to_string(s + 1) + "  " + meet_words(plan, *stop.stop.option) + " (" + car_words(plan, day.car) + ")");
  paper.text("Ours: " + ours + ", due " + time_words(stop.due.p50, plan) + ", 8 of 10 days " +
                 span_words(stop.due, plan) + ". Ready by " + time_words(stop.ready, plan) + ".",
             paper.bold());
  std::string before_words = "the start";
  if (row && option.event > 0) {
    const PassForecast &before = plan.passes[*row - 1], &here = plan.passes[*row];
    const Took took = time_between(plan, option.horse, option.event, before, here);
    before_words = before.event.kind == RideEvent::Kind::gate
                       ? "out of gate " + std::to_string(before.event.loop.value + 1)
                       : before.name;
    paper.text("Add to the time at " + before_words + ": " + minutes_of(took.p50) + " min, early " +
               minutes_of(took.p10) + ", late " + minutes_of(took.p90) + ".");
    paper.to_fill_in({"ours there at", "due here", "early", "late", "looked away from-to"}, 90);
  } else {
    paper.to_fill_in({"ours started at", "due here", "early", "late", "looked away from-to"}, 90);
  }
  if (stop.leave_by && stop.next_meet) {
    std::string words = "Leave by " + time_words(*stop.leave_by, plan) + " for " + meet_words(plan, *stop.next_meet);
    if (stop.fallback) words += "; later than that, " + meet_words(plan, *stop.fallback) + " instead";
    paper.text(words + ".", paper.bold());
  }
  Table table;
  table.is_boxed = true;
  table.row_height = 17;
  table.columns = {{"Number", true}, {"There at", true},      {"Here at", true},
                   {"Took", true},   {"Ours then due", true}, {"Before or behind ours", true}};
  table.rows.assign(8, std::vector<TableCell>(6));
  paper.table(table);
}

}  // namespace

void spotter_sheet(Paper& paper, const PaperSources& from) {
  const RidePlan& plan = from.plan;
  sheet_title(paper, plan, "Spotter's sheet");
  how(paper);
  for (const CarDay& day : plan.plan.days) {
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      if (!day.stops[s].stop.option) continue;
      paper.keep_together([&] { meet_part(paper, plan, day, s); });
    }
  }
}

}  // namespace outbye
