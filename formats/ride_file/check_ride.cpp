#include "formats/ride_file/check_ride.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string_view>

#include "core/base/text.h"

namespace outbye {
namespace {

class RideCheck {
 public:
  RideCheck(const Ride& ride, const std::string& file, std::vector<Problem>& problems)
      : ride_(ride), file_(file), problems_(problems) {}

  void report(const std::string& path, std::string what) {
    problems_.push_back({Problem::Kind::bad_input, file_ + ": " + path, std::move(what)});
  }

  template <class Items>
  void no_name_twice(const Items& items, const std::string& list) {
    std::map<std::string, std::size_t> first;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (items[i].name.empty()) continue;
      const auto [it, is_new] = first.emplace(in_lower_case(items[i].name), i);
      if (is_new) continue;
      report(list + "[" + std::to_string(i) + "].name", "'" + items[i].name + "' is also the name of " + list + "[" +
                                                            std::to_string(it->second) + "]; give each its own");
    }
  }

  // Upper and lower case alike, as everywhere in names.
  void known(const std::string& path, const std::string& name, const std::vector<std::string_view>& names,
             const std::string& kind) {
    if (std::any_of(names.begin(), names.end(), [&](std::string_view known) { return same_name(known, name); })) return;
    std::string what = "'" + name + "' is no " + kind + " of this ride";
    if (const auto nearest = nearest_name(name, names)) {
      what += "; did you mean '" + std::string(*nearest) + "'?";
    } else {
      what += "; known:";
      for (std::size_t i = 0; i < names.size() && i < 12; ++i) what += (i == 0 ? " " : ", ") + std::string(names[i]);
      if (names.size() > 12) what += " and " + std::to_string(names.size() - 12) + " more";
    }
    report(path, what);
  }

  void near_start(const std::string& path, Instant at) {
    const double days = std::fabs((at - ride_.start).count()) / 86400.0;
    if (days <= 7.0) return;
    report(path, "is " + fixed(days, 0) + " days from the start of the ride (" + local_date(ride_.start, ride_.clock) +
                     "); is the date right?");
  }

  void run() {
    no_name_twice(ride_.loops, "loops");
    no_name_twice(ride_.crew_points, "crew_points");
    no_name_twice(ride_.horses, "horses");
    no_name_twice(ride_.cars, "cars");
    no_name_twice(ride_.refills, "refills");
    no_name_twice(ride_.errands, "errands");
    places();
    wishes();
    cars();
    weather();
    intakes();
    containers();
    for (std::size_t i = 0; i < ride_.horses.size(); ++i) {
      const auto& speeds = ride_.horses[i].speeds;
      if (!speeds || ride_.loops.empty() || speeds->size() == ride_.loops.size()) continue;
      report("horses[" + std::to_string(i) + "].speeds_kmh",
             "has " + std::to_string(speeds->size()) + " speeds, but the ride has " +
                 std::to_string(ride_.loops.size()) + " loops; give one each");
    }
    if (ride_.crewing.give_up > ride_.crewing.confidence) {
      report("crewing.give_up",
             "is above crewing.confidence: the car would give up a meet that it counts as safe; lower it");
    }
    if (ride_.course.warn_gap > ride_.course.refuse_gap) {
      report("course.warn_gap_m", "is above course.refuse_gap_m; lower it");
    }
  }

 private:
  std::vector<std::string_view> place_names() const {
    std::vector<std::string_view> names;
    if (ride_.crew_points.empty()) return names;  // every waypoint is one: known only with the course
    for (const auto& point : ride_.crew_points) names.push_back(point.name);
    names.push_back(ride_.venue);
    return names;
  }

  void places() {
    for (std::size_t i = 0; i < ride_.crew_points.size(); ++i) {
      const auto& point = ride_.crew_points[i];
      const std::string path = "crew_points[" + std::to_string(i) + "]";
      if (same_name(point.name, ride_.venue)) {
        report(path + ".name",
               "'" + point.name + "' is the venue; gates and finish are met there without a crew point");
      }
      for (std::size_t k = 0; k < point.corrections.size(); ++k) {
        loop_is_there(path + ".passes[" + std::to_string(k) + "].loop", point.corrections[k].loop.value + 1);
      }
      for (std::size_t k = 0; k < point.open.size(); ++k) {
        near_start(path + ".open[" + std::to_string(k) + "].from", point.open[k].from);
        near_start(path + ".open[" + std::to_string(k) + "].to", point.open[k].to);
      }
    }
  }

  void wishes() {
    const auto names = place_names();
    std::vector<std::string_view> cars;
    for (const auto& car : ride_.cars) cars.push_back(car.name);
    std::vector<std::string_view> horses;
    for (const auto& horse : ride_.horses) horses.push_back(horse.name);
    for (std::size_t i = 0; i < ride_.wishes.size(); ++i) {
      const auto& wish = ride_.wishes[i];
      const std::string path = "wishes[" + std::to_string(i) + "]";
      if (!names.empty() && !wish.crew_point.empty()) known(path + ".crew_point", wish.crew_point, names, "crew point");
      if (wish.car && !cars.empty()) known(path + ".car", *wish.car, cars, "car");
      if (wish.horse && !horses.empty()) known(path + ".horse", *wish.horse, horses, "horse");
      if (wish.loop && !ride_.loops.empty() && *wish.loop > ride_.loops.size()) {
        report(path + ".loop", "is " + std::to_string(*wish.loop) + ", but the ride has " +
                                   std::to_string(ride_.loops.size()) + " loops; the first is 1");
      }
    }
  }

  void containers() {
    std::vector<std::string_view> cars;
    for (const auto& car : ride_.cars) cars.push_back(car.name);
    for (std::size_t i = 0; i < ride_.kit.containers.size() && !cars.empty(); ++i) {
      const auto& car = ride_.kit.containers[i].car;
      if (car) known("kit.containers[" + std::to_string(i) + "].car", *car, cars, "car");
    }
  }

  void cars() {
    const auto names = place_names();
    for (std::size_t i = 0; i < ride_.cars.size(); ++i) {
      const auto& car = ride_.cars[i];
      const std::string path = "cars[" + std::to_string(i) + "]";
      if (!names.empty() && car.start) known(path + ".start", *car.start, names, "crew point");
      if (!names.empty() && car.end) known(path + ".end", *car.end, names, "crew point");
      if (car.ready_from) near_start(path + ".ready_from", *car.ready_from);
      if (car.back_by) near_start(path + ".back_by", *car.back_by);
      const Instant ready = car.ready_from.value_or(ride_.start - Seconds{3600});
      if (car.back_by && *car.back_by <= ready) {
        report(path + ".back_by", "is " + iso8601(*car.back_by, ride_.clock) + ", not after the car is ready at " +
                                      iso8601(ready, ride_.clock) + "; put a later time");
      }
    }
  }

  void weather() {
    if (!ride_.weather.empty() && ride_.weather_file) {
      report("weather", "is given here and in files.weather; keep one of the two");
    }
    for (std::size_t i = 0; i < ride_.weather.size(); ++i) {
      const std::string path = "weather[" + std::to_string(i) + "].time";
      near_start(path, ride_.weather[i].at);
      if (i > 0 && ride_.weather[i].at <= ride_.weather[i - 1].at) {
        report(path, "is not later than the hour before it; put the hours in order of time");
      }
    }
    for (std::size_t i = 0; i < ride_.waters.size(); ++i) {
      loop_is_there("waters[" + std::to_string(i) + "].loop", ride_.waters[i].loop);
    }
  }

  void loop_is_there(const std::string& path, std::uint32_t loop) {
    if (ride_.loops.empty() || loop <= ride_.loops.size()) return;
    report(path, "is " + std::to_string(loop) + ", but the ride has " + std::to_string(ride_.loops.size()) +
                     " loops; the first is 1");
  }

  void intakes() {
    const auto names = place_names();
    for (std::size_t h = 0; h < ride_.horses.size(); ++h) {
      for (std::size_t i = 0; i < ride_.horses[h].intakes.size(); ++i) {
        const RideIntake& intake = ride_.horses[h].intakes[i];
        const std::string path = "horses[" + std::to_string(h) + "].intakes[" + std::to_string(i) + "]";
        if (!names.empty()) known(path + ".place", intake.place, names, "crew point");
        loop_is_there(path + ".loop", intake.loop);
      }
    }
  }

  const Ride& ride_;
  const std::string& file_;
  std::vector<Problem>& problems_;
};

}  // namespace

void check_ride(const Ride& ride, const std::string& file, std::vector<Problem>& problems) {
  RideCheck(ride, file, problems).run();
}

}  // namespace outbye
