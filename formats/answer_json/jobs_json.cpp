#include "formats/answer_json/answer_json.h"
#include "formats/json_text/json_text.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

Json whole(Seconds time) { return rounded(time.count(), 0); }

std::string holder_word(const CrewStop& stop, const StopSchedule& schedule) {
  if (schedule.holder) return at(stop.helpers, *schedule.holder).name;
  return stop.holder == Holder::rider_on_foot ? "rider on foot" : "mounted rider";
}

Json tasks(const CrewStop& stop, const StopSchedule& schedule) {
  Json list = Json::array();
  for (const ScheduledTask& one : schedule.tasks) {
    const StopTask& task = at(stop.tasks, one.task);
    Json who = Json::array();
    for (const HelperId hand : one.hands) who.push_back(at(stop.helpers, hand).name);
    Json item{{"task", task.name},       {"step", step_name(task.step)}, {"start_s", whole(one.start)},
              {"end_s", whole(one.end)}, {"by", std::move(who)},         {"at_horse", task.is_at_horse}};
    if (!task.caution.empty()) item["caution"] = task.caution;
    list.push_back(std::move(item));
  }
  return list;
}

Json card(const StopCard& from) {
  Json lines = Json::array();
  for (const CardLine& line : from.lines) {
    Json item{{"start_s", whole(line.at)}, {"end_s", whole(line.until)}, {"task", line.task}, {"with", line.with}};
    if (!line.caution.empty()) item["caution"] = line.caution;
    lines.push_back(std::move(item));
  }
  return Json{
      {"who", from.who}, {"work_s", whole(from.work)}, {"lines", std::move(lines)}, {"cautions", from.cautions}};
}

Json stop_json(const RidePlan& plan, const StopJobs& from) {
  const Clock& clock = plan.ride.clock;
  Json json{{"name", from.name},
            {"kind", stop_kind_name(from.what.kind)},
            {"car", at(plan.task.cars, from.car).name},
            {"car_in", iso8601(from.arrive, clock)},
            {"due", json_of(from.due, clock)}};
  if (from.planned_stop) json["planned_stop_s"] = whole(*from.planned_stop);
  if (from.problem) {
    json["problem"] = from.problem->where + " " + from.problem->what;
    return json;
  }
  const StopSchedule& schedule = from.schedule;
  json["horse_at_s"] = whole(from.stop.horse_at);
  json["ready_s"] = whole(schedule.ready);
  json["serve_start_s"] = whole(schedule.serve_start);
  json["serve_end_s"] = whole(schedule.serve_end);
  json["end_s"] = whole(schedule.end);
  json["stands_s"] = whole(serving_time(schedule));
  json["shortest_proven"] = schedule.is_shortest_proven;
  json["fairest_proven"] = schedule.is_fairest_proven;
  json["bound_s"] = whole(schedule.bound);
  json["most_at_horse"] = from.stop.most_at_horse;
  json["holder"] = holder_word(from.stop, schedule);
  json["tasks"] = tasks(from.stop, schedule);
  Json cards = Json::array();
  for (const StopCard& one : from.cards) cards.push_back(card(one));
  json["cards"] = std::move(cards);
  if (from.early) {
    json["if_early"] = from.early->words;
    json["if_early_all"] = from.early->details;
  }
  Json without = Json::array();
  for (std::size_t h = 0; h < from.missing.size(); ++h) {
    Json item{{"helper", from.stop.helpers[h].name}};
    if (from.missing[h]) {
      item["changes"] = from.missing[h]->words;
      item["all_changes"] = from.missing[h]->details;
    } else {
      item["problem"] = from.missing[h].error().where + " " + from.missing[h].error().what;
    }
    without.push_back(std::move(item));
  }
  json["without"] = std::move(without);
  json["warnings"] = from.warnings;
  json["notes"] = from.notes;
  return json;
}

}  // namespace

Json jobs_json(const RidePlan& plan, const RideJobs& jobs) {
  Json people = Json::array();
  for (std::size_t p = 0; p < jobs.people.size(); ++p) {
    Json skills = jobs.people[p].skills;
    for (const std::string& own : jobs.people[p].own_skills) skills.push_back(own);
    people.push_back(Json{{"name", jobs.people[p].name},
                          {"car", at(plan.task.cars, jobs.car_of[p]).name},
                          {"skills", std::move(skills)},
                          {"share", rounded(jobs.people[p].share, 3)},
                          {"work_s", whole(jobs.work[p])}});
  }
  Json stops = Json::array();
  for (const StopJobs& stop : jobs.stops) stops.push_back(stop_json(plan, stop));
  return Json{{"format", "outbye jobs"},        {"version", 1},
              {"ride", plan.ride.name},         {"time_zone", plan.ride.clock.zone},
              {"people", std::move(people)},    {"stops", std::move(stops)},
              {"assumptions", jobs.assumptions}};
}

}  // namespace outbye
