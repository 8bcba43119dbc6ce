#include "formats/picture/day_shape.h"

#include <algorithm>
#include <cmath>

#include "core/welfare/heat_load.h"

namespace outbye {
namespace {

// From arrival to in-time at a gate, on the median day.
Seconds median_recovery(const HorseDays& days, std::size_t event) {
  if (days.days == 0 || days.in_time.size() < (event + 1) * days.days) return Seconds{0};
  const auto first = days.in_time.begin() + static_cast<std::ptrdiff_t>(event * days.days);
  std::vector<double> column(first, first + static_cast<std::ptrdiff_t>(days.days));
  const auto middle = column.begin() + static_cast<std::ptrdiff_t>(column.size() / 2);
  std::nth_element(column.begin(), middle, column.end());
  return Seconds{*middle};
}

// When the horse leaves the place of a meet, on the median day.
Instant horse_gone(const RidePlan& plan, const TimedStop& stop) {
  const MeetOption& option = at(plan.task.options, *stop.stop.option);
  const RideEvent& event = at(plan.task.horses, option.horse).events[option.event];
  for (const auto& pass : plan.passes) {
    if (pass.horse == option.horse && pass.event.kind == event.kind && pass.event.loop == event.loop &&
        pass.event.pass == event.pass) {
      return pass.out.p50;
    }
  }
  return stop.due.p50;
}

}  // namespace

PlaceId errand_row(const RidePlan& plan, std::size_t errand) {
  return PlaceId{static_cast<std::uint32_t>(plan.places.size() - plan.ride.errands.size() + errand)};
}

Interval<Instant> shown_day(const RidePlan& plan) {
  Interval<Instant> shown;
  bool is_first = true;
  const auto reach = [&](Instant at) {
    shown.from = is_first ? at : std::min(shown.from, at);
    shown.to = is_first ? at : std::max(shown.to, at);
    is_first = false;
  };
  for (const auto& days : plan.task.horses) reach(days.origin);
  for (const auto& pass : plan.passes) {
    reach(pass.due.p10);
    reach(std::max(pass.due.p90, pass.out.p90));
  }
  for (const auto& day : plan.plan.days) {
    for (const auto& stop : day.stops) {
      reach(stop.depart);
      reach(stop.leave);
    }
    if (day.back) reach(*day.back);
  }
  if (is_first) reach(plan.ride.start);
  for (const auto& days : plan.task.horses) shown.from = std::max(shown.from, days.origin - std::chrono::hours{2});
  shown.to = std::max(shown.to, shown.from + minutes(30));
  return shown;
}

HorseLine horse_line(const RidePlan& plan, HorseId horse) {
  const HorseDays& days = at(plan.task.horses, horse);
  HorseLine line;
  line.knots.push_back({Metres{0}, {days.origin, days.origin, days.origin}});
  std::size_t event = 0;
  for (const auto& pass : plan.passes) {
    if (pass.horse != horse) continue;
    const bool is_gate = pass.event.kind == RideEvent::Kind::gate;
    line.knots.push_back({pass.event.ride_along, pass.due});
    if (is_gate || pass.is_met) line.knots.push_back({pass.event.ride_along, pass.out});
    if (is_gate) {
      line.gates.push_back({pass.event.ride_along, pass.event.loop, pass.due.p50,
                            std::min(pass.due.p50 + median_recovery(days, event), pass.out.p50), pass.out.p50});
    }
    ++event;
  }
  return line;
}

std::vector<CarSpan> stop_spans(const RidePlan& plan, const TimedStop& stop, std::size_t index, Metres along) {
  std::vector<CarSpan> spans;
  Instant done = stop.arrive;
  const auto until = [&](CarDoes does, Instant end) {
    end = std::min(end, stop.leave);
    if (end > done) spans.push_back({does, done, end, along, along, index});
    done = std::max(done, end);
  };
  switch (stop.stop.kind) {
    case PlannedStop::Kind::refill:
      until(CarDoes::refill, stop.ready);
      until(CarDoes::free, stop.leave);
      return spans;
    case PlannedStop::Kind::rest:
      until(CarDoes::rest, stop.ready);
      until(CarDoes::free, stop.leave);
      return spans;
    case PlannedStop::Kind::meet:
      break;
  }
  until(CarDoes::setup, stop.ready);
  until(CarDoes::wait, stop.due.p50);
  until(CarDoes::meet, horse_gone(plan, stop));
  until(CarDoes::pack, stop.leave);
  return spans;
}

std::vector<CarSpan> car_spans(const RidePlan& plan, const CarDay& day) {
  const CarErrands* errands = nullptr;
  for (const auto& of_car : plan.errands.cars) {
    if (of_car.car == day.car) errands = &of_car;
  }
  std::vector<CarSpan> spans;
  Metres here{};
  std::optional<Instant> done;  // with what came before
  const auto until = [&](CarDoes does, Instant from, Instant to, Metres there, std::size_t stop) {
    if (done && from > *done) spans.push_back({CarDoes::free, *done, from, here, here, stop});
    if (done) from = std::max(from, *done);
    if (to > from) spans.push_back({does, from, to, here, there, stop});
    here = there;
    done = std::max(from, to);
  };
  std::optional<std::size_t> last_errand;  // after the last stop
  const auto run_errands = [&](std::optional<std::size_t> after, std::size_t stop) {
    if (errands == nullptr) return;
    for (const auto& errand : errands->stops) {
      if (errand.after_stop != after) continue;
      until(CarDoes::drive, errand.depart, errand.arrive, here, stop);
      until(CarDoes::errand, errand.start, errand.leave, here, stop);
      if (stop == day.stops.size()) last_errand = errand.errand;
    }
  };
  run_errands(std::nullopt, 0);
  for (std::size_t s = 0; s < day.stops.size(); ++s) {
    TimedStop stop = day.stops[s];
    if (errands != nullptr) {
      for (const auto& later : errands->later) {
        if (later.stop != s) continue;
        stop.depart = std::max(stop.depart, later.depart);
        // Set-up keeps its length; errands are only run where that still makes the meet.
        stop.ready = std::max(stop.ready, later.arrive + (stop.ready - stop.arrive));
        stop.arrive = std::max(stop.arrive, later.arrive);
      }
    }
    const bool is_meet = stop.stop.kind == PlannedStop::Kind::meet && stop.stop.option.has_value();
    const Metres there = is_meet ? at(plan.task.options, *stop.stop.option).ride_along : here;
    if (stop.arrive > stop.depart) {
      until(CarDoes::drive, stop.depart, stop.arrive, there, s);
    } else if (done && stop.arrive > *done) {  // the same place, farther along the ride
      spans.push_back({CarDoes::free, *done, stop.arrive, here, here, s});
    }
    here = there;
    for (const auto& span : stop_spans(plan, stop, s, there)) until(span.does, span.from, span.to, there, s);
    done = std::max(done.value_or(stop.leave), stop.leave);
    run_errands(s, s + 1);
  }
  if (day.back && done) {
    Instant leaves = *day.back;
    if (day.home) leaves = leaves - plan.task.settings.drive_allowance * day.home->time;
    Instant back = *day.back;
    if (last_errand) {  // the plan's own way home starts at its last stop
      const auto& end = at(plan.task.cars, day.car).end;
      const auto drive = end ? plan.task.drives.drive(errand_row(plan, *last_errand), *end) : std::nullopt;
      leaves = *done;
      back = drive ? leaves + plan.task.settings.drive_allowance * drive->time : leaves;
    }
    until(CarDoes::drive, leaves, back, here, day.stops.size());
  }
  return spans;
}

Position place_of_horse(const RidePlan& plan, const HorseLine& line, Instant when) {
  const auto& knots = line.knots;
  if (knots.empty() || when <= knots.front().at.p50 || when >= knots.back().at.p50) return plan.survey.venue;
  std::size_t k = 1;
  while (knots[k].at.p50 < when) ++k;
  const Seconds span = knots[k].at.p50 - knots[k - 1].at.p50;
  const double share = span > Seconds{0} ? (when - knots[k - 1].at.p50) / span : 1.0;
  Metres along = knots[k - 1].along + share * (knots[k].along - knots[k - 1].along);
  for (const auto& loop : plan.survey.course.loops) {
    if (along <= loop.length && !loop.points.empty()) {
      const auto point = std::lower_bound(loop.points.begin(), loop.points.end(), along,
                                          [](const CoursePoint& p, Metres a) { return p.along < a; });
      return (point == loop.points.end() ? loop.points.back() : *point).position;
    }
    along = along - loop.length;
  }
  return plan.survey.venue;
}

std::vector<LightSpan> dark_spans(Position place, Interval<Instant> when) {
  constexpr Seconds step{60};
  std::vector<LightSpan> spans;
  for (Instant t = when.from; t < when.to; t += step) {
    const Light light = light_at(place, t);
    if (light == Light::day) continue;
    const Instant end = std::min(t + step, when.to);
    if (!spans.empty() && spans.back().light == light && spans.back().when.to == t) {
      spans.back().when.to = end;
    } else {
      spans.push_back({{t, end}, light});
    }
  }
  return spans;
}

std::vector<HeatSpan> heat_spans(const RidePlan& plan, Interval<Instant> when) {
  std::vector<HeatSpan> spans;
  if (plan.task.horses.empty() || plan.ride.weather.empty()) return spans;
  const HorseLine line = horse_line(plan, HorseId{0});
  constexpr double quarter = 900.0;
  for (double t = std::floor(when.from.time_since_epoch().count() / quarter) * quarter; Instant{Seconds{t}} < when.to;
       t += quarter) {
    const Instant from = std::max(Instant{Seconds{t}}, when.from),
                  to = std::min(Instant{Seconds{t + quarter}}, when.to);
    const auto weather = weather_at(plan.ride.weather, from);
    if (!weather || to <= from) continue;
    const HeatBand band = heat_load(*weather, place_of_horse(plan, line, from), from, plan.ride.heat).band;
    if (!spans.empty() && spans.back().band == band && spans.back().when.to == from) {
      spans.back().when.to = to;
    } else {
      spans.push_back({{from, to}, band});
    }
  }
  return spans;
}

}  // namespace outbye
