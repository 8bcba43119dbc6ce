#include <algorithm>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/plan_gpx/plan_gpx.h"

namespace outbye {
namespace {

struct Knot {  // along the loop
  Metres along{};
  Instant at;
};

// When the horse is where on a loop, on the median day: from going out to arrival, with its stands at passes.
std::vector<Knot> knots_of(const RidePlan& plan, HorseId horse, LoopId loop) {
  std::vector<Knot> knots;
  Instant out = at(plan.task.horses, horse).origin;
  for (const PassForecast& pass : plan.passes) {
    if (pass.horse != horse) continue;
    if (pass.event.loop.value + 1 == loop.value && pass.event.kind == RideEvent::Kind::gate) out = pass.out.p50;
    if (pass.event.loop != loop) continue;
    knots.push_back({pass.loop_along, pass.due.p50});
    if (pass.is_met && pass.event.kind == RideEvent::Kind::pass) knots.push_back({pass.loop_along, pass.out.p50});
  }
  knots.insert(knots.begin(), {Metres{0}, out});
  return knots;
}

Instant time_at(const std::vector<Knot>& knots, Metres along) {
  for (std::size_t k = 1; k < knots.size(); ++k) {
    const Knot &from = knots[k - 1], &to = knots[k];
    if (along > to.along) continue;
    const double share = to.along > from.along ? (along - from.along) / (to.along - from.along) : 0.0;
    return from.at + std::clamp(share, 0.0, 1.0) * (to.at - from.at);
  }
  return knots.back().at;
}

Position place_of(const RidePlan& plan, const PassForecast& pass) {
  const Course& course = plan.survey.course;
  if (pass.event.pass && pass.event.pass->value < course.passes.size()) {
    return at(course.passes, *pass.event.pass).position;
  }
  return at(course.loops, pass.event.loop).points.back().position;
}

}  // namespace

GpxOutput course_gpx(const RidePlan& plan, HorseId horse) {
  GpxOutput out;
  out.name = (plan.ride.name.empty() ? "" : plan.ride.name + ": ") + "course of " + horse_in_words(plan, horse);
  out.description = "Times are the medians of simulated days. Follow the marking and the officials, not the watch.";
  const auto& loops = plan.survey.course.loops;
  for (const PassForecast& pass : plan.passes) {
    if (pass.horse != horse) continue;
    OutWaypoint point;
    point.name = fixed(in_kilometres(pass.event.ride_along), 1) + " " + pass_words(plan, pass);
    point.comment = "due " + time_words(pass.due.p50, plan) + " (" + span_words(pass.due, plan) + ")" +
                    (pass.is_met                                ? ", crew is there"
                     : pass.event.kind == RideEvent::Kind::pass ? ", no crew"
                                                                : "");
    point.type = pass.event.kind == RideEvent::Kind::pass ? "crew point" : "gate";
    point.symbol = pass.event.kind == RideEvent::Kind::pass ? "Flag, Blue" : "Flag, Green";
    point.position = place_of(plan, pass);
    point.time = pass.due.p50;
    out.waypoints.push_back(std::move(point));
  }
  for (std::uint32_t l = 0; l < loops.size(); ++l) {
    const Loop& loop = loops[l];
    const std::vector<Knot> knots = knots_of(plan, horse, LoopId{l});
    OutTrack track{loop_words(plan, LoopId{l}), fixed(in_kilometres(loop.length), 1) + " km", {{}}};
    for (const CoursePoint& point : loop.points) {
      track.segments.front().push_back({point.position, point.elevation, time_at(knots, point.along)});
    }
    out.tracks.push_back(std::move(track));
  }
  return out;
}

}  // namespace outbye
