#include "formats/exports/plan_words.h"

#include <cmath>

#include "core/base/text.h"

namespace outbye {
namespace {

const char* const weekdays[] = {"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};

std::chrono::sys_days local_day(Instant at, const Clock& clock) {
  return std::chrono::floor<std::chrono::days>(
      std::chrono::sys_time<Seconds>{at.time_since_epoch() + offset_at(clock, at)});
}

std::string ordinal(std::uint32_t n) {
  const bool teens = n % 100 >= 11 && n % 100 <= 13;
  const char* end = teens ? "th" : n % 10 == 1 ? "st" : n % 10 == 2 ? "nd" : n % 10 == 3 ? "rd" : "th";
  return std::to_string(n) + end;
}

std::string event_words(const RidePlan& plan, const RideEvent& event, const std::string& place) {
  const std::string loop = std::to_string(event.loop.value + 1);
  switch (event.kind) {
    case RideEvent::Kind::gate:
      return "Vet gate " + loop + ", " + place;
    case RideEvent::Kind::finish:
      return "Finish, " + place;
    case RideEvent::Kind::pass:
      break;
  }
  std::string words = place + ", loop " + loop;
  if (event.pass && event.pass->value < plan.survey.course.passes.size()) {
    const std::uint32_t nth = at(plan.survey.course.passes, *event.pass).nth_in_loop;
    if (nth > 1) words += ", " + ordinal(nth) + " pass";
  }
  return words;
}

}  // namespace

std::string time_words(Instant at, const RidePlan& plan) {
  const Clock& clock = plan.ride.clock;
  // Rounded first, as hours_minutes() does, so that 23:59:40 is already the next day's 00:00.
  const Instant shown{std::chrono::round<std::chrono::minutes>(at.time_since_epoch())};
  const std::string hours = hours_minutes(shown, clock);
  const auto day = local_day(shown, clock);
  if (day == local_day(plan.ride.start, clock)) return hours;
  return std::string(weekdays[std::chrono::weekday{day}.c_encoding()]).substr(0, 3) + " " + hours;
}

std::string span_words(const Window& window, const RidePlan& plan) {
  return time_words(window.p10, plan) + "-" + time_words(window.p90, plan);
}

std::string date_words(Instant at, const Clock& clock) {
  static const char* const months[] = {"January", "February", "March",     "April",   "May",      "June",
                                       "July",    "August",   "September", "October", "November", "December"};
  const auto day = local_day(at, clock);
  const std::chrono::year_month_day date{day};
  return std::string(weekdays[std::chrono::weekday{day}.c_encoding()]) + " " +
         std::to_string(static_cast<unsigned>(date.day())) + " " + months[static_cast<unsigned>(date.month()) - 1] +
         " " + std::to_string(static_cast<int>(date.year()));
}

std::string duration_in_words(Seconds duration) {
  const double min = std::round(in_minutes(duration));
  if (std::fabs(min) < 60) return fixed(min, 0) + " min";
  return hours_minutes(duration) + " h";
}

std::string place_words(const RidePlan& plan, PlaceId place) {
  if (place.value >= plan.places.size()) return "place " + std::to_string(place.value + 1);
  const std::string& name = at(plan.places, place).name;
  return name.empty() ? "place " + std::to_string(place.value + 1) : name;
}

std::string meet_words(const RidePlan& plan, MeetOptionId id) {
  const MeetOption& option = at(plan.task.options, id);
  return event_words(plan, at(plan.task.horses, option.horse).events[option.event], place_words(plan, option.place));
}

std::string pass_words(const RidePlan& plan, const PassForecast& pass) {
  return event_words(plan, pass.event, pass.name.empty() ? "pass" : pass.name);
}

std::string horse_in_words(const RidePlan& plan, HorseId horse) {
  if (horse.value >= plan.ride.horses.size()) return "the horse";
  const RideHorse& it = at(plan.ride.horses, horse);
  const std::string name = !it.name.empty()               ? it.name
                           : plan.ride.horses.size() == 1 ? "the horse"
                                                          : "horse " + std::to_string(horse.value + 1);
  return it.number.empty() ? name : name + " (" + it.number + ")";
}

std::string loop_words(const RidePlan& plan, LoopId loop) {
  const std::string number = "Loop " + std::to_string(loop.value + 1);
  const std::string& name = at(plan.survey.course.loops, loop).name;
  if (name.empty()) return number;
  return same_name(name.substr(0, number.size()), number) ? name : number + ", " + name;
}

std::string stop_words(const RidePlan& plan, const TimedStop& stop) {
  switch (stop.stop.kind) {
    case PlannedStop::Kind::meet:
      return meet_words(plan, *stop.stop.option);
    case PlannedStop::Kind::refill:
      return "Refill: " + plan.task.refills[*stop.stop.refill].label;
    case PlannedStop::Kind::rest:
      break;
  }
  return "Rest at " + place_words(plan, stop.place);
}

std::string car_words(const RidePlan& plan, CarId car) {
  const std::string& name = at(plan.task.cars, car).name;
  return name.empty() ? "Car " + std::to_string(car.value + 1) : name;
}

std::optional<std::size_t> forecast_row(const RidePlan& plan, MeetOptionId id) {
  const MeetOption& option = at(plan.task.options, id);
  std::size_t event = 0;
  for (std::size_t row = 0; row < plan.passes.size(); ++row) {
    if (plan.passes[row].horse != option.horse) continue;
    if (event++ == option.event) return row;
  }
  return std::nullopt;
}

std::optional<CarId> met_by(const RidePlan& plan, std::size_t forecast) {
  for (const CarDay& day : plan.plan.days) {
    for (const TimedStop& stop : day.stops) {
      if (stop.stop.option && forecast_row(plan, *stop.stop.option) == forecast) return day.car;
    }
  }
  return std::nullopt;
}

const RideCrewPoint* crew_point_of(const RidePlan& plan, PlaceId place) {
  // Row 0 is the venue; then come the course's crew points, which are the ride's, in its order.
  if (place.value == 0 || place.value > plan.survey.course.crew_points.size()) return nullptr;
  const std::string& name = at(plan.survey.course.crew_points, CrewPointId{place.value - 1}).name;
  for (const RideCrewPoint& point : plan.ride.crew_points) {
    if (same_name(point.name, name)) return &point;
  }
  return nullptr;
}

const Route* drive_into(const RidePlan& plan, std::size_t day, std::size_t stop) {
  if (day >= plan.routes.size() || stop >= plan.routes[day].size() || !plan.routes[day][stop]) return nullptr;
  const Route& route = *plan.routes[day][stop];
  return route.geometry.size() < 2 ? nullptr : &route;
}

const TimedStop* limit_for(const CarDay& day, std::size_t stop) {
  if (stop == 0) return nullptr;
  const TimedStop& before = day.stops[stop - 1];
  if (!before.leave_by || !before.next_meet) return nullptr;
  const PlannedStop& here = day.stops[stop].stop;
  if (here.kind == PlannedStop::Kind::meet && before.next_meet != here.option) return nullptr;
  return &before;
}

}  // namespace outbye
