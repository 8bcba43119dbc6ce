#include <algorithm>

#include "core/base/text.h"
#include "formats/exports/csv_rows.h"
#include "formats/exports/exports.h"
#include "formats/exports/plan_words.h"
#include "formats/exports/stop_lines.h"

namespace outbye {
namespace {

struct Row {
  Instant at;
  std::vector<std::string> cells;
};

std::string km(Metres length) { return fixed(in_kilometres(length), 3); }

Row stop_row(const RidePlan& plan, const CarDay& day, std::size_t index) {
  const TimedStop& stop = day.stops[index];
  const auto iso = [&plan](Instant at) { return iso8601(at, plan.ride.clock); };
  const TimedStop* limit = limit_for(day, index);
  std::vector<std::string> cells{stop.stop.option   ? "meet"
                                 : stop.stop.refill ? "refill"
                                                    : "rest",
                                 car_words(plan, day.car), std::to_string(index + 1), stop_words(plan, stop),
                                 place_words(plan, stop.place)};
  const Position where = at(plan.places, stop.place).position;
  cells.insert(cells.end(), {fixed(where.latitude, 7), fixed(where.longitude, 7)});
  const MeetOption* option = stop.stop.option ? &at(plan.task.options, *stop.stop.option) : nullptr;
  cells.push_back(option != nullptr ? horse_in_words(plan, option->horse) : "");
  cells.push_back(option != nullptr ? km(option->ride_along) : "");
  for (const Instant due : {stop.due.p10, stop.due.p50, stop.due.p90})
    cells.push_back(option != nullptr ? iso(due) : "");
  cells.insert(cells.end(),
               {km(stop.drive.length), fixed(in_minutes(stop.drive_planned), 2), iso(stop.depart),
                limit != nullptr ? iso(*limit->leave_by) : "", iso(stop.arrive), iso(stop.ready), iso(stop.leave)});
  cells.push_back(option != nullptr ? fixed(in_minutes(stop.slack), 2) : "");
  cells.push_back(option != nullptr ? fixed(stop.chance_ready, 4) : "");
  cells.push_back(limit != nullptr && limit->fallback ? meet_words(plan, *limit->fallback) : "");
  return {option != nullptr ? stop.due.p50 : stop.arrive, std::move(cells)};
}

Row pass_row(const RidePlan& plan, const PassForecast& pass) {
  const auto iso = [&plan](Instant at) { return iso8601(at, plan.ride.clock); };
  std::vector<std::string> cells{"not met", "", "", pass_words(plan, pass), pass.name, "", ""};
  if (pass.event.pass && pass.event.pass->value < plan.survey.course.passes.size()) {
    const Position where = at(plan.survey.course.passes, *pass.event.pass).position;
    cells[5] = fixed(where.latitude, 7);
    cells[6] = fixed(where.longitude, 7);
  }
  cells.insert(cells.end(), {horse_in_words(plan, pass.horse), km(pass.event.ride_along), iso(pass.due.p10),
                             iso(pass.due.p50), iso(pass.due.p90)});
  cells.resize(22);
  return {pass.due.p50, std::move(cells)};
}

}  // namespace

std::string plan_csv(const RidePlan& plan, const ExportChoice& choice) {
  std::vector<Row> rows;
  for (const CarDay& day : plan.plan.days) {
    if (choice.only_car && day.car != *choice.only_car) continue;
    for (std::size_t s = 0; s < day.stops.size(); ++s) rows.push_back(stop_row(plan, day, s));
  }
  for (std::size_t p = 0; p < plan.passes.size() && !choice.only_car; ++p) {
    if (!met_by(plan, p)) rows.push_back(pass_row(plan, plan.passes[p]));
  }
  std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.at < b.at; });
  std::string out =
      csv_row({"kind",    "car",     "number",  "what",      "place",        "latitude",  "longitude", "horse",
               "ride_km", "due_p10", "due_p50", "due_p90",   "drive_km",     "drive_min", "depart",    "leave_by",
               "arrive",  "ready",   "leave",   "slack_min", "chance_ready", "fallback"});
  for (const Row& row : rows) out += csv_row(row.cells);
  return out;
}

}  // namespace outbye
