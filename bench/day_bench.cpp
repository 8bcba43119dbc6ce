// A day of 40 passes, played event by event: each answer is checked, then timed from the log to the answer and to its
// JSON. Exit code 1 when an answer is wrong. `./run bench`; what it is measured against is in bench/README.md.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>

#include "engine/day.h"
#include "formats/day_log/day_json.h"
#include "tests/support/small_ride.h"

namespace {

using namespace outbye;

constexpr std::size_t loops = 5;
constexpr std::size_t points = 8;

// Five loops of 30 km, each round the same eight crew points.
RideInputs long_ride() {
  RideInputs inputs;
  constexpr Metres radius{4775};
  inputs.ride.name = "Bench ride";
  inputs.ride.start = Instant{Seconds{1'781'330'400.0}};
  inputs.ride.days = 512;
  GpxDocument file;
  file.file = "bench.gpx";
  file.waypoints.push_back({"Venue", "", "", test::small_venue, std::nullopt});
  std::vector<std::string> names{"Venue"};
  for (std::size_t l = 0; l < loops; ++l) {
    file.tracks.push_back(test::round_loop("Loop " + std::to_string(l + 1), radius, true));
    file.tracks.back().file = file.file;
  }
  for (std::size_t p = 0; p < points; ++p) {
    const double turn = 2.0 * 3.14159265358979 * (static_cast<double>(p) + 1.0) / (points + 1.0);
    names.push_back("CP" + std::to_string(p + 1));
    file.waypoints.push_back({names.back(), "", "",
                              test::from_venue(std::sin(turn) * radius, (1.0 - std::cos(turn)) * radius),
                              std::nullopt});
  }
  inputs.course_files = {file};
  DriveTable drives(names);
  for (std::uint32_t i = 0; i <= points; ++i) {
    for (std::uint32_t j = 0; j <= points; ++j) {
      const double apart = std::min(std::abs(double(i) - double(j)), points + 1.0 - std::abs(double(i) - double(j)));
      if (i != j) drives.set(PlaceId{i}, PlaceId{j}, Drive{minutes(4.0 * apart), kilometres(3.0 * apart)});
    }
  }
  inputs.drive_times = drives;
  inputs.ride.horses.push_back({"Brimstone", "Ann", "5", Seconds{0}, std::nullopt});
  return inputs;
}

struct Timing {
  std::vector<double> answer, json;
};

double milliseconds_since(std::clock_t before) {
  return 1000.0 * static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
}

double quantile(std::vector<double> times, double p) {
  std::sort(times.begin(), times.end());
  return times[static_cast<std::size_t>(p * static_cast<double>(times.size() - 1))];
}

// What a crew notes: the horse in and out where a car waits, its number and others' elsewhere, watches, word, drinks.
// `late`: of the plan, so that silence has to be made sense of.
DayLog log_of_day(const RidePlan& plan, double late) {
  DayLog log;
  const auto add = [&](DayKind kind, Instant at, const std::string& place, auto change) {
    DayEntry e;
    e.kind = kind;
    e.at = Instant{std::chrono::floor<std::chrono::seconds>(at)};
    e.place = place;
    change(e);
    add_event(log, new_event(log, "anna", static_cast<std::int64_t>(1000.0 * e.at.time_since_epoch().count()), e));
  };
  const auto plain = [](DayEntry&) {};
  std::size_t n = 0;
  for (const PassForecast& pass : plan.passes) {
    const Seconds since = pass.due.p50 - plan.ride.start;
    const Instant comes = plan.ride.start + (1.0 + late) * since;
    ++n;
    if (pass.event.kind != RideEvent::Kind::pass) {
      add(DayKind::horse_in, comes, "Venue", plain);
      add(DayKind::gate_in_time, comes + minutes(7), "Venue", plain);
      continue;
    }
    if (n % 3 != 0) {
      for (const char* number : {"17", "23"}) {
        add(DayKind::number_seen, comes + minutes(number[0] == '1' ? -2.0 : 3.0), pass.name,
            [&](DayEntry& e) { e.number = number; });
      }
      continue;
    }
    add(DayKind::car_at, comes - minutes(25), pass.name, plain);
    add(DayKind::watch_begin, comes - minutes(20), pass.name, plain);
    add(DayKind::word, comes - minutes(10), pass.name, [](DayEntry& e) { e.not_yet = true; });
    add(DayKind::horse_in, comes, pass.name, plain);
    add(DayKind::drink, comes + minutes(1), pass.name, [](DayEntry& e) {
      e.what = "bucket";
      e.amount = 5;
      e.unit = "L";
    });
    add(DayKind::horse_out, comes + minutes(4), pass.name, plain);
    add(DayKind::watch_end, comes + minutes(5), pass.name, plain);
    add(DayKind::car_left, comes + minutes(7), pass.name, plain);
  }
  return log;
}

int wrong = 0;

void check(bool is_right, const char* what) {
  if (is_right) return;
  ++wrong;
  std::printf("WRONG: %s\n", what);
}

void play(const char* name, const RidePlan& plan, const DayModel& model, double late, double after) {
  const DayLog whole = log_of_day(plan, late);
  DayLog log;
  Timing timing;
  for (const DayEvent& event : whole.events) {
    add_event(log, event);
    const Instant now = event.entry.at + minutes(after);
    std::clock_t before = std::clock();
    const DayAnswer answer = day_answer(plan, model, log, now);
    timing.answer.push_back(milliseconds_since(before));
    before = std::clock();
    const std::string text = day_json(plan, answer, std::nullopt, {}).dump();
    timing.json.push_back(milliseconds_since(before));
    double sum = 0;
    for (const double w : answer.days.front().weight) sum += w;
    check(std::fabs(sum - 1.0) < 1e-9, "the days' weights do not sum to 1");
    for (std::size_t p = 0; p < answer.passes.size(); ++p) {
      const PassOutlook& pass = answer.passes[p];
      check(pass.odds.gone >= 0 && pass.odds.gone <= 1, "a chance is not one");
      if (pass.odds.due) check(pass.odds.due->p10 <= pass.odds.due->p90, "a window is the wrong way round");
      if (pass.odds.due) check(pass.odds.due->p10 >= now - Seconds{1}, "what is still to come is in the past");
    }
    if (event.entry.kind == DayKind::horse_in) check(!answer.state.horses.front().seen.empty(), "not seen");
  }
  std::printf("%-34s %4zu   %7.1f %7.1f %7.1f   %7.1f\n", name, timing.answer.size(), quantile(timing.answer, 0.5),
              quantile(timing.answer, 0.95), quantile(timing.answer, 1.0), quantile(timing.json, 0.95));
}

}  // namespace

int main() {
  const auto plan = plan_ride(long_ride());
  if (!plan) {
    std::printf("no plan: %s %s\n", plan.error().where.c_str(), plan.error().what.c_str());
    return 1;
  }
  std::clock_t before = std::clock();
  const auto model = day_model(*plan);
  if (!model) return 1;
  std::printf("%zu passes, gates and finish; made ready in %.0f ms\n", plan->passes.size(), milliseconds_since(before));
  std::printf("processor time, ms              answers    median    95 %%    most   JSON 95 %%\n");
  play("as planned", *plan, *model, 0.0, 0.0);
  play("10 % late", *plan, *model, 0.1, 0.0);
  play("30 % late: silence to explain", *plan, *model, 0.3, 0.0);
  play("10 % early", *plan, *model, -0.1, 0.0);
  play("asked 15 minutes after each", *plan, *model, 0.1, 15.0);
  return wrong == 0 ? 0 : 1;
}
