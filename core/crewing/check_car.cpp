// One car through its day, as the plan tells it.
#include <cmath>
#include <optional>

#include "core/base/text.h"
#include "core/crewing/check_report.h"

namespace outbye {
namespace {

using Kind = PlannedStop::Kind;

constexpr Seconds rounding{2.0};

std::string in_words(Seconds time) { return fixed(std::fabs(in_minutes(time)), 1) + " min"; }

class CarCheck {
 public:
  CarCheck(const CrewingTask& task, const CarDay& day, CheckReport& report)
      : task_(task), day_(day), car_(at(task.cars, day.car)), report_(report) {
    place_ = car_.start;
    free_ = car_.ready_from;
    standing_since_ = car_.ready_from;
    stock_ = car_.water_capacity.value;
  }

  void run() {
    for (std::size_t i = 0; i < day_.stops.size(); ++i) check_stop(i);
    check_end();
    if (std::fabs(driven_.value - day_.driven.value) > 1.0)
      refuse("says it drives another distance than its stops add up to");
    if (std::fabs((driving_in_all_ - day_.driving).count()) > 1.0)
      refuse("says it drives for another time than its stops add up to");
  }

 private:
  void refuse(const std::string& what) { report_.refuse(car_.name, what); }
  std::string label(const TimedStop& t) const {
    if (t.stop.kind == Kind::meet) return at(task_.options, *t.stop.option).label;
    if (t.stop.kind == Kind::refill) return task_.refills[*t.stop.refill].label;
    return "rest";
  }

  // The opening that holds the whole stay; nothing: shut. Always open: a long time.
  static std::optional<Interval<Instant>> opening(const std::vector<Interval<Instant>>& open, Instant in, Instant out) {
    if (open.empty()) return Interval<Instant>{in, out};
    for (const Interval<Instant>& i : open) {
      if (i.from <= in + rounding && out <= i.to + rounding) return i;
    }
    return std::nullopt;
  }

  void check_stop(std::size_t i) {
    const TimedStop& t = day_.stops[i];
    const std::string where = car_.name + " at " + label(t);
    const PlaceId planned_place = t.stop.kind == Kind::meet     ? at(task_.options, *t.stop.option).place
                                  : t.stop.kind == Kind::refill ? task_.refills[*t.stop.refill].place
                                                                : place_;
    if (t.place != planned_place) report_.refuse(where, "stands at another place than the stop is at");
    if (t.stop.kind == Kind::rest && i == 0) report_.refuse(where, "begins its day with a rest");
    const bool stays = may_stay(i);
    check_drive(t, where, stays);
    if (t.stop.kind == Kind::meet) check_meet(i, where, stays);
    if (t.stop.kind == Kind::refill) check_refill(t, where);
    if (t.stop.kind == Kind::rest && t.ready < t.arrive + car_.break_length - rounding)
      report_.refuse(where, "rests for less than its break");
    if (t.leave < t.ready - rounding && t.stop.kind != Kind::meet) report_.refuse(where, "leaves before it is done");
    free_ = t.leave;
    place_ = planned_place;
  }

  // The kit may stay up from the meet before: same place, nothing between, and the place is open throughout.
  bool may_stay(std::size_t i) const {
    if (i == 0) return false;
    const TimedStop& before = day_.stops[i - 1];
    const TimedStop& t = day_.stops[i];
    if (before.stop.kind != Kind::meet || t.stop.kind != Kind::meet || before.place != t.place) return false;
    const Instant gone = before.leave - at(task_.options, *before.stop.option).pack;
    return opening(at(task_.options, *t.stop.option).open, gone, t.leave).has_value();
  }

  void check_drive(const TimedStop& t, const std::string& where, bool stays) {
    if (t.place == place_) {
      const Instant earliest = stays ? free_ - at(task_.options, *day_.stops[index_of(t) - 1].stop.option).pack : free_;
      if (t.depart < earliest - rounding)
        report_.refuse(where, "begins " + in_words(earliest - t.depart) + " before the stop before has ended");
      if (t.drive.time.count() != 0 || t.drive_planned.count() != 0)
        report_.refuse(where, "drives although it is there already");
      if (t.arrive < t.depart - rounding) report_.refuse(where, "arrives before it departs");
      return;
    }
    const std::optional<Drive>& drive = task_.drives.drive(place_, t.place);
    if (!drive) {
      report_.refuse(where, "has no way by car to get there");
      return;
    }
    if (t.depart < free_ - rounding)
      report_.refuse(where,
                     "departs " + in_words(free_ - t.depart) + " before the car is free: it would be in two places");
    if (std::fabs((t.drive.time - drive->time).count()) > 1e-6 ||
        std::fabs(t.drive.length.value - drive->length.value) > 1e-6)
      report_.refuse(where, "is reached by another drive than the table's");
    const Seconds planned = task_.settings.drive_allowance * drive->time;
    if (std::fabs((t.drive_planned - planned).count()) > 1e-6)
      report_.refuse(where, "is planned with another drive time than the allowance asks");
    if (t.arrive < t.depart + planned - rounding)
      report_.refuse(where, "arrives " + in_words(t.depart + planned - t.arrive) + " sooner than the drive takes");
    if (t.arrive > t.depart + planned + rounding)
      report_.refuse(where, "arrives " + in_words(t.arrive - t.depart - planned) + " later than the drive takes");
    drive_for(planned, drive->length, t.depart, where);
    standing_since_ = t.arrive;
  }

  std::size_t index_of(const TimedStop& t) const { return static_cast<std::size_t>(&t - day_.stops.data()); }

  void drive_for(Seconds planned, Metres length, Instant depart, const std::string& where) {
    if (depart - standing_since_ >= car_.break_length - rounding) since_break_ = Seconds{0};
    since_break_ += planned;
    driving_in_all_ += planned;
    driven_ += length;
    since_fuel_ += length;
    if (car_.longest_driving.count() > 0 && since_break_ > car_.longest_driving + rounding)
      report_.refuse(where, "is reached after " + in_words(since_break_) + " of driving without a break");
    if (car_.fuel_range.value > 0 && since_fuel_.value > car_.fuel_range.value + 1.0)
      report_.refuse(where,
                     "is " + fixed((since_fuel_ - car_.fuel_range).value / 1000.0, 1) + " km beyond the fuel range");
  }

  void check_meet(std::size_t i, const std::string& where, bool stays) {
    const TimedStop& t = day_.stops[i];
    const MeetOption& option = at(task_.options, *t.stop.option);
    const Instant gone = t.leave - option.pack;
    if (gone < t.due.p50 - rounding) report_.refuse(where, "leaves before the horse has come and the kit is packed");
    const Instant ready_to = t.ready - (stays ? Seconds{0} : option.setup);
    if (t.ready < t.arrive + (stays ? Seconds{0} : option.setup) - rounding)
      report_.refuse(where, "is set up sooner than setting up takes");
    if (!stays && ready_to > gone + rounding)
      report_.refuse(where, "gets there " + in_words(ready_to - gone) + " after the horse has gone");
    if (stays && t.ready > gone + rounding) report_.refuse(where, "turns to the horse after it has gone");
    if (!opening(option.open, stays ? t.arrive : ready_to, t.leave))
      report_.refuse(where, "stands there while the place is shut");
    if (std::fabs((t.slack - (t.due.p50 - t.ready)).count()) > 2.0)
      report_.refuse(where, "gives another slack than its times");
    check_order(i, where);
    check_waiting(i, where);
    if (option.has_water) {
      stock_ = car_.water_capacity.value;
    } else if (car_.water_capacity.value > 0) {
      stock_ -= option.water.value;
      if (stock_ < -1e-6) report_.refuse(where, "runs short of water by " + fixed(-stock_, 1) + " litres");
    }
  }

  void check_order(std::size_t i, const std::string& where) {
    const TimedStop& t = day_.stops[i];
    const MeetOption& option = at(task_.options, *t.stop.option);
    for (std::size_t k = 0; k < i; ++k) {
      if (day_.stops[k].stop.kind != Kind::meet) continue;
      const MeetOption& before = at(task_.options, *day_.stops[k].stop.option);
      const Instant gone_before = day_.stops[k].leave - before.pack;
      const bool same_horse = before.horse == option.horse;
      if ((same_horse && before.event >= option.event) || gone_before > t.leave - option.pack + rounding) {
        report_.refuse(where, "comes after a meet of a horse that goes later");
        return;
      }
    }
  }

  // Standing ready too long is for no good unless the car was there already, could not safely leave later, or takes its
  // break there.
  void check_waiting(std::size_t i, const std::string& where) {
    const TimedStop& t = day_.stops[i];
    if (t.drive.time.count() == 0 || t.slack <= task_.settings.longest_wait + Seconds{60.0}) return;
    const bool takes_break =
        car_.longest_driving.count() > 0 && t.leave - t.arrive <= car_.break_length + Seconds{60.0};
    if (i == 0 || takes_break) return;
    const std::optional<Instant>& leave_by = day_.stops[i - 1].leave_by;
    if (leave_by && t.depart < *leave_by - Seconds{60.0} && t.ready - option_setup(t) <= t.arrive + rounding)
      report_.refuse(
          where, "stands ready " + in_words(t.slack) + " before the horse, longer than wanted, and could leave later");
  }
  Seconds option_setup(const TimedStop& t) const { return at(task_.options, *t.stop.option).setup; }

  void check_refill(const TimedStop& t, const std::string& where) {
    const RefillPlace& refill = task_.refills[*t.stop.refill];
    if (t.ready < t.arrive + refill.duration - rounding) report_.refuse(where, "fills sooner than filling takes");
    if (!opening(refill.open, t.ready - refill.duration, t.ready))
      report_.refuse(where, "fills while the place is shut");
    if (refill.fuel) since_fuel_ = Metres{0};
    if (refill.water) stock_ = car_.water_capacity.value;
  }

  void check_end() {
    if (day_.stops.empty()) return;
    Instant back = day_.stops.back().leave;
    if (car_.end) {
      const std::optional<Drive> drive =
          place_ == *car_.end ? std::optional<Drive>{Drive{}} : task_.drives.drive(place_, *car_.end);
      if (!drive) return refuse("has no way by car to its end");
      const Seconds planned = task_.settings.drive_allowance * drive->time;
      if (place_ != *car_.end) drive_for(planned, drive->length, back, car_.name + " on the way home");
      back += planned;
      if (!day_.back || std::fabs((*day_.back - back).count()) > 2.0)
        refuse("says it is back at another time than its drive home takes");
    }
    if (car_.back_by && back > *car_.back_by + rounding)
      refuse("is back " + in_words(back - *car_.back_by) + " after it must be");
  }

  const CrewingTask& task_;
  const CarDay& day_;
  const CrewCar& car_;
  CheckReport& report_;
  PlaceId place_;
  Instant free_;
  Instant standing_since_;
  Seconds since_break_{};
  Seconds driving_in_all_{};
  Metres driven_{};
  Metres since_fuel_{};
  double stock_{};
};

}  // namespace

void check_car(const CrewingTask& task, const CarDay& day, CheckReport& report) { CarCheck(task, day, report).run(); }

}  // namespace outbye
