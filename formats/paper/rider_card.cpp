#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/climbs.h"
#include "formats/paper/sheets.h"

namespace outbye {
namespace {

std::string km(Metres along) { return fixed(in_kilometres(along), 1); }

// "two slosh bottles (Ann, Bob); ..."
std::string gives(const PaperSources& from, std::size_t forecast) {
  if (from.jobs == nullptr) return "";
  std::string words;
  for (const StopJobs& stop : from.jobs->stops) {
    if (stop.problem || stop.cards.empty() || forecast_row(from.plan, stop.option) != forecast) continue;
    for (const CardLine& line : stop.cards.back().lines) {
      std::string with;
      for (const auto& name : line.with) with += (with.empty() ? "" : ", ") + name;
      words += (words.empty() ? "" : "; ") + line.task + (with.empty() ? "" : " (" + with + ")");
    }
  }
  return words;
}

void loop_table(Paper& paper, const PaperSources& from, HorseId horse, LoopId loop) {
  const RidePlan& plan = from.plan;
  const Loop& now = at(plan.survey.course.loops, loop);
  paper.heading(2, loop_words(plan, loop) + ": " + km(now.length) + " km, climb " + fixed(now.climb.value, 0) + " m");
  Table table;
  table.columns = {{"km", true, TextAlign::end},
                   {"Where", false},
                   {"Due", true},
                   {"8 of 10 days", true},
                   {"Who gives you what", false}};
  for (std::size_t p = 0; p < plan.passes.size(); ++p) {
    const PassForecast& pass = plan.passes[p];
    if (pass.horse != horse || pass.event.loop != loop) continue;
    const auto car = met_by(plan, p);
    std::string words = gives(from, p);
    if (car) {
      words = car_words(plan, *car) + (words.empty() ? "" : ": " + words);
    } else {
      words = pass.event.kind == RideEvent::Kind::pass ? "nobody is here" : "";
    }
    std::string where = pass.event.kind == RideEvent::Kind::pass   ? pass.name
                        : pass.event.kind == RideEvent::Kind::gate ? "Vet gate, " + pass.name
                                                                   : "Finish, " + pass.name;
    if (pass.event.kind == RideEvent::Kind::gate)
      words += (words.empty() ? "" : ". ") + std::string("Out about ") + time_words(pass.out.p50, plan);
    table.rows.push_back({km(pass.loop_along),
                          {where, true},
                          {time_words(pass.due.p50, plan), true},
                          span_words(pass.due, plan),
                          words});
  }
  paper.table(table);
  std::string climbs;
  for (const Climb& climb : climbs_of(now)) {
    const double run = (climb.to - climb.from).value;
    climbs += (climbs.empty() ? "" : "; ") + std::string("km ") + km(climb.from) + "-" + km(climb.to) + " up " +
              fixed(climb.rise.value, 0) + " m" +
              (run > 0 ? " (" + fixed(100 * climb.rise.value / run, 0) + " %)" : "");
  }
  paper.text(now.profile.elevation.empty() ? ""
             : climbs.empty()              ? "No climb of 40 m or more."
                                           : "Climbs: " + climbs + ".");
  std::string going;
  if (loop.value < plan.ride.loops.size()) {
    for (const GoingSection& section : plan.ride.loops[loop.value].pace.going) {
      going += (going.empty() ? "" : "; ") + std::string("km ") + km(section.from) + "-" + km(section.to) + " " +
               section.what;
    }
  }
  if (!going.empty()) paper.text("Going: " + going + ".");
  std::string water;
  for (const RideWater& one : plan.ride.waters) {
    if (one.loop == loop.value + 1)
      water += (water.empty() ? "" : ", ") + std::string("km ") + km(one.along) + " " + one.name;
  }
  if (!water.empty()) paper.text("Water on the course: " + water + ".");
}

void food(Paper& paper, const PaperSources& from, HorseId horse) {
  const RidePlan& plan = from.plan;
  std::vector<std::string> lines, cautions;
  if (horse.value < plan.ride.horses.size()) {
    for (const HorseLike& like : at(plan.ride.horses, horse).likes) {
      lines.push_back("Horse: " + like_words(like) + (like.electrolyte ? ", as agreed with your vet" : "") + ".");
    }
  }
  if (from.kit != nullptr) {
    for (const char* id : {"rider-carbohydrate", "rider-fluid"}) {
      const Amount* amount = find_amount(from.kit->amounts, id);
      if (amount == nullptr || amount->value <= 0) continue;
      lines.push_back(amount->name + " for the day, all riders: " + fixed(amount->value, amount->value < 10 ? 1 : 0) +
                      " " + amount->unit + " (" + fixed(amount->range.from, amount->value < 10 ? 1 : 0) + " to " +
                      fixed(amount->range.to, amount->value < 10 ? 1 : 0) + ").");
      cautions.insert(cautions.end(), amount->cautions.begin(), amount->cautions.end());
    }
  }
  if (lines.empty()) return;
  paper.heading(2, "Food and drink");
  paper.list(lines);
  paper.list(cautions, "!");
}

}  // namespace

void rider_card(Paper& paper, const PaperSources& from) {
  const RidePlan& plan = from.plan;
  for (std::uint32_t h = 0; h < plan.task.horses.size(); ++h) {
    if (h > 0) paper.new_page();
    const HorseId horse{h};
    paper.heading(1, horse_in_words(plan, horse) + (h < plan.ride.horses.size() && !plan.ride.horses[h].rider.empty()
                                                        ? ", " + plan.ride.horses[h].rider
                                                        : ""));
    paper.text(
        date_words(plan.ride.start, plan.ride.clock) + ", start " + time_words(plan.task.horses[h].origin, plan) +
        ". Times are foreseen, not to be ridden to: the horse sets the speed. Follow marking, stewards and vets.");
    for (std::uint32_t l = 0; l < plan.survey.course.loops.size(); ++l) loop_table(paper, from, horse, LoopId{l});
    food(paper, from, horse);
  }
}

}  // namespace outbye
