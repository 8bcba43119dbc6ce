#include "core/jobs/usual_stops.h"

#include <algorithm>

namespace outbye {
namespace {

using enum RoutineStep;

constexpr const char* lift_by_two = "a full 25 L can is lifted by two people";
constexpr const char* own_bucket = "this horse's own bucket: share none with other horses";
constexpr const char* pour_cool =
    "neck first, then the big veins of the legs; odd behaviour or distress: stop and call the vet";
constexpr const char* salts =
    "only what was tried at home, with water, never to a horse that does not drink; ask the vet";

TaskMode by(double seconds, std::vector<Hand> hands) { return {Seconds{seconds}, std::move(hands)}; }
const Hand any{{}, ""};
Hand on(const char* part) { return {{}, part}; }

StopTask one(const char* name, RoutineStep step, std::vector<TaskMode> modes, std::uint32_t necessity,
             const char* caution = "", const char* for_rider = "") {
  StopTask task;
  task.name = name;
  task.step = step;
  task.modes = std::move(modes);
  task.necessity = necessity;
  task.caution = caution;
  task.for_rider = for_rider;
  return task;
}

StopTask at_horse(const char* name, std::vector<TaskMode> modes, std::uint32_t necessity, const char* caution,
                  const char* for_rider) {
  StopTask task = one(name, serve, std::move(modes), necessity, caution, for_rider);
  task.is_at_horse = true;
  return task;
}

TaskId last(const CrewStop& stop) { return TaskId{static_cast<std::uint32_t>(stop.tasks.size() - 1)}; }

// Everything before the horse: the same for all stops, more of it for longer ones.
void before_the_horse(CrewStop& stop, const UsualStop& what) {
  if (what.is_refilled) {
    stop.tasks.push_back(one("fill the cans", refill, {by(240, {any}), by(150, {any, any})}, 2, lift_by_two));
  }
  if (what.kind == StopKind::flying_bottle) {
    if (!what.is_cold) stop.tasks.push_back(one("fill two slosh bottles", set_up, {by(40, {any})}, 0));
    stop.tasks.push_back(one("lay out the rider's drink", set_up, {by(30, {any})}, 1));
    stop.tasks.push_back(one("hi-vis on, agree who stands where", stand, {by(20, {any})}, 0));
    return;
  }
  stop.tasks.push_back(one("carry the water to the place", set_up,
                           {by(120, {{{skill_lifts}, "one handle"}, {{skill_lifts}, "other handle"}}), by(180, {any})},
                           0, "a full 25 L can is lifted by two people; alone carry half-full cans, in two goes"));
  stop.tasks.push_back(one("fill the drinking bucket", set_up, {by(40, {any})}, 0, own_bucket));
  stop.tasks.back().after.push_back(TaskId{last(stop).value - 1});
  const TaskId carried{last(stop).value - 1};
  if (!what.is_cold) {
    stop.tasks.push_back(one("fill the slosh bottles", set_up, {by(60, {any})}, 1));
    stop.tasks.back().after.push_back(carried);
  } else {
    stop.tasks.push_back(one("lay out the rug", set_up, {by(30, {any})}, 1));
  }
  if (what.kind != StopKind::short_stop) {
    stop.tasks.push_back(one("lay out soaked feed", set_up, {by(50, {any})}, 2));
  }
  stop.tasks.push_back(one("lay out the rider's food and drink", set_up, {by(45, {any})}, 3));
  if (what.kind == StopKind::vet_gate || what.kind == StopKind::finish) {
    stop.tasks.push_back(one("stethoscope, clock and papers to hand", set_up, {by(30, {any})}, 0));
    stop.tasks.push_back(one("chair and dry clothes for the rider", set_up, {by(60, {any})}, 5));
  }
  stop.tasks.push_back(one("hi-vis on, agree who stands where", stand, {by(20, {any})}, 0));
}

void serve_pass(CrewStop& stop, const UsualStop& what) {
  if (what.kind == StopKind::flying_bottle) {
    if (!what.is_cold) {
      stop.tasks.push_back(at_horse("hand up two slosh bottles", {by(10, {any})}, 0,
                                    "stand at the shoulder side, off the line of the horse; let go at once",
                                    "two slosh bottles for the neck"));
    }
    stop.tasks.push_back(at_horse("hand up the drink", {by(10, {any})}, 1, "say it before you reach up", "your drink"));
    return;
  }
  const bool is_long = what.kind == StopKind::drink_stop;
  stop.tasks.push_back(at_horse("offer water", {by(is_long ? 120 : 60, {on("at the head")})}, 0,
                                "from the front and side, the bucket held low; hard hat", ""));
  if (!what.is_cold) {
    stop.tasks.push_back(at_horse("pour over the neck",
                                  {by(is_long ? 90 : 40, {on("left, then right side")}),
                                   by(is_long ? 45 : 20, {on("left side"), on("right side")})},
                                  1, caution_at_horse, ""));
  }
  if (is_long) {
    stop.tasks.push_back(at_horse("offer soaked feed", {by(90, {on("at the head")})}, 2, caution_at_horse, ""));
    stop.tasks.back().after.push_back(TaskId{last(stop).value - (what.is_cold ? 1U : 2U)});
  }
  stop.tasks.push_back(at_horse("look at four shoes and for wounds", {by(40, {any})}, 2, caution_at_horse, ""));
  stop.tasks.push_back(one("hand up food and drink", serve, {by(20, {any})}, 3, "say it before you reach up",
                           "something to eat and drink"));
  stop.tasks.push_back(
      one("tell time and placings", serve, {by(10, {any})}, 5, "", "the time, and how far to the next help"));
}

void serve_gate(CrewStop& stop, const UsualStop& what) {
  const bool is_finish = what.kind == StopKind::finish;
  stop.tasks.push_back(at_horse("girth loose, saddle off", {by(60, {{{skill_tack}, ""}})}, 1, caution_at_horse, ""));
  const TaskId saddle = last(stop);
  stop.tasks.push_back(at_horse("offer water", {by(120, {on("at the head")})}, 0, own_bucket, ""));
  const TaskId water = last(stop);
  std::optional<TaskId> cool;
  if (!what.is_cold) {
    stop.tasks.push_back(at_horse(
        "cool", {by(360, {on("both sides in turn")}), by(180, {on("left side"), on("right side")})}, 0, pour_cool, ""));
    cool = last(stop);
  } else {
    stop.tasks.push_back(at_horse("rug on", {by(30, {any})}, 0, caution_at_horse, ""));
    stop.tasks.back().after.push_back(saddle);
  }
  stop.tasks.push_back(at_horse("take the pulse", {by(30, {{{skill_pulse}, ""}})}, 0,
                                "a reading for the crew; the vet's counts, and the vet decides", ""));
  if (cool) stop.tasks.back().after.push_back(*cool);
  const TaskId pulse = last(stop);
  stop.tasks.push_back(one("papers and clock", serve, {by(60, {on("runner")})}, 0, "", ""));
  const TaskId papers = last(stop);
  stop.tasks.push_back(at_horse("present to the vet", {by(240, {on("leads and trots up")})}, 0,
                                "the rules of the day and the officials come first", ""));
  stop.tasks.back().modes.front().hands.front().skills.emplace_back(skill_holds_horse);
  stop.tasks.back().after = {saddle, water, pulse, papers};
  const TaskId vet = last(stop);
  stop.tasks.push_back(one("rider: seat, food, drink", serve, {by(90, {any})}, 2, "", "a seat, food and drink"));
  stop.tasks.push_back(at_horse("offer feed", {by(180, {on("at the head")})}, 1, caution_at_horse, ""));
  stop.tasks.back().after.push_back(vet);
  stop.tasks.push_back(at_horse("salts as tried at home", {by(40, {any})}, 3, salts, ""));
  stop.tasks.back().after.push_back(vet);
  stop.tasks.push_back(at_horse("look at four shoes and for wounds", {by(60, {any})}, 1, caution_at_horse, ""));
  stop.tasks.back().after.push_back(vet);
  if (is_finish) return;
  stop.tasks.push_back(at_horse("saddle up, check girth", {by(120, {{{skill_tack}, ""}})}, 0, caution_at_horse, ""));
  stop.tasks.back().after = {vet, TaskId{last(stop).value - 3}, TaskId{last(stop).value - 1}};
  stop.tasks.push_back(one("tell the out-time and the next help", serve, {by(15, {any})}, 1, "",
                           "your out-time, and how far to the next help"));
  stop.tasks.back().after = {papers, vet};
}

void after_the_horse(CrewStop& stop, const UsualStop& what) {
  if (what.kind == StopKind::flying_bottle) {
    stop.tasks.push_back(one("pick up the bottles", clear, {by(60, {any})}, 1));
    return;
  }
  const bool is_gate = what.kind == StopKind::vet_gate || what.kind == StopKind::finish;
  stop.tasks.push_back(one("empty and stack the buckets", clear, {by(40, {any})}, 0));
  stop.tasks.push_back(one("load the cans", clear,
                           {by(60, {{{skill_lifts}, "one handle"}, {{skill_lifts}, "other handle"}}), by(120, {any})},
                           0, "a full 25 L can is lifted by two people; alone only what is half empty"));
  stop.tasks.push_back(one("pack feed and food", clear, {by(is_gate ? 90.0 : 45.0, {any})}, 0));
  stop.tasks.push_back(
      one("lash the load, look round the place", clear, {by(30, {any})}, 0, "nothing loose behind people"));
  const std::uint32_t lash = last(stop).value;
  stop.tasks.back().after = {TaskId{lash - 3}, TaskId{lash - 2}, TaskId{lash - 1}};
  stop.tasks.push_back(one("set the next drive", clear, {by(20, {{{skill_driver}, ""}})}, 1,
                           "set the route before moving off; no telephone in the hand"));
}

}  // namespace

const char* stop_kind_name(StopKind kind) {
  switch (kind) {
    case StopKind::flying_bottle:
      return "flying bottle";
    case StopKind::short_stop:
      return "short stop";
    case StopKind::drink_stop:
      return "drink stop";
    case StopKind::vet_gate:
      return "vet gate";
    case StopKind::finish:
      return "finish";
  }
  return "";
}

Result<CrewStop> usual_stop(const UsualStop& what, const std::vector<Helper>& helpers) {
  CrewStop stop;
  stop.name = stop_kind_name(what.kind);
  stop.helpers = helpers;
  stop.horse_at = what.horse_at;
  stop.most_at_horse = what.most_at_horse;
  before_the_horse(stop, what);
  const bool is_gate = what.kind == StopKind::vet_gate || what.kind == StopKind::finish;
  if (is_gate) {
    serve_gate(stop, what);
  } else {
    serve_pass(stop, what);
  }
  after_the_horse(stop, what);
  if (is_gate) {
    // From three helpers on one of them holds the horse all the time, if two others may be near it; else the rider
    // does.
    const auto holders = std::count_if(helpers.begin(), helpers.end(), [](const Helper& helper) {
      return std::count(helper.skills.begin(), helper.skills.end(), skill_holds_horse) > 0;
    });
    const bool is_helper = helpers.size() >= 3 && what.most_at_horse >= 3 && holders >= 2;
    stop.holder = is_helper ? Holder::helper : Holder::rider_on_foot;
  }
  if (auto ok = check_stop(stop); !ok) return tl::unexpected(ok.error());
  return stop;
}

Helper helper_of_all_work(std::string name) {
  Helper helper;
  helper.name = std::move(name);
  helper.skills = {skill_holds_horse, skill_first_aid, skill_driver, skill_lifts, skill_pulse, skill_tack};
  return helper;
}

std::string crew_size_advice(std::size_t helpers) {
  switch (helpers) {
    case 0:
      return "nobody: the rider is alone";
    case 1:
      return "1 does all; the rider holds the horse; plan fewer points, and use those with water";
    case 2:
      return "2: driver and navigator, and one for the horse; at a gate one pulse, one water; the rider holds";
    case 3:
      return "3: as two, and one for the rider's food, the tack and the clock; one holds the horse at a gate";
    default:
      return "4: at a gate one each side pouring, one at the head with the pulse, one runner with the papers";
  }
}

}  // namespace outbye
