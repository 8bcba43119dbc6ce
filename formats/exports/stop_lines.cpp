#include "formats/exports/stop_lines.h"

#include <set>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/picture/marks.h"

namespace outbye {

std::string numbered(std::size_t number, const std::string& name) {
  return (number < 10 ? "0" : "") + std::to_string(number) + " " + name;
}

std::string drive_line(const TimedStop& stop) {
  if (stop.drive_planned <= Seconds{0}) return "no drive";
  const std::string km = stop.drive.length > Metres{0} ? fixed(in_kilometres(stop.drive.length), 1) + " km, " : "";
  return km + duration_in_words(stop.drive_planned);
}

std::string stop_line(const RidePlan& plan, const CarDay& day, std::size_t index) {
  const TimedStop& stop = day.stops[index];
  std::string words;
  if (stop.stop.option) {
    words = horse_in_words(plan, at(plan.task.options, *stop.stop.option).horse) + " due " +
            time_words(stop.due.p50, plan) + " (" + span_words(stop.due, plan) + "); ";
  }
  if (stop.drive_planned > Seconds{0}) {
    words += "leave " + time_words(stop.depart, plan);
    if (const TimedStop* limit = limit_for(day, index)) words += ", by " + time_words(*limit->leave_by, plan);
    words += " (" + drive_line(stop) + "); ";
  }
  words += "there " + time_words(stop.arrive, plan) + ", ready " + time_words(stop.ready, plan);
  if (stop.stop.option) words += "; ready before the horse on " + percent(stop.chance_ready) + " of days";
  words += ".";
  if (const TimedStop* limit = limit_for(day, index); limit != nullptr && limit->fallback) {
    words += " Later than that: " + meet_words(plan, *limit->fallback) + " instead.";
  }
  if (const RideCrewPoint* point = crew_point_of(plan, stop.place)) {
    if (!point->approach.empty()) words += " Approach: " + point->approach;
    if (!point->note.empty()) words += " " + point->note;
    for (const RideHazard& hazard : point->hazards) words += " Hazard: " + hazard.what + ".";
  }
  return words;
}

std::string export_words(const RidePlan& plan) {
  return "Crew plan for " + date_words(plan.ride.start, plan.ride.clock) + ", start " +
         time_words(plan.ride.start, plan) + " (" + plan.ride.clock.zone +
         "). Spans in brackets hold on 8 of 10 simulated days. The rules of the day and the officials win.";
}

std::vector<const CrewPoint*> points_without_stop(const RidePlan& plan, const ExportChoice& choice) {
  std::set<std::uint32_t> used;
  for (const CarDay& day : plan.plan.days) {
    if (choice.only_car && day.car != *choice.only_car) continue;
    for (const TimedStop& stop : day.stops) used.insert(stop.place.value);
  }
  std::vector<const CrewPoint*> points;
  const auto& all = plan.survey.course.crew_points;
  for (std::uint32_t c = 0; c < all.size(); ++c) {
    if (used.count(c + 1) == 0) points.push_back(&all[c]);
  }
  return points;
}

}  // namespace outbye
