// Are the odds of core/live right as often as they say, and do crews that follow it meet more than by the notebook? On
// 10,000 drawn days with three other riders, a watch with a break, and a car that comes to CP2 early or late.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>

#include "core/live/wait_or_drive.h"
#include "core/pace/test_course.h"

namespace outbye {
namespace {

constexpr double speed = 12.0 / 3.6;
constexpr std::size_t fine = 60;  // cells of 500 m: 30 km
constexpr std::array<double, 3> cp{8000, 16000, 24000};
constexpr double overlook = 0.05;
constexpr double stand = 180, pack = 180, setup = 240, drive = 720;
constexpr std::size_t days = 10'000;
constexpr std::size_t riders = 3;

struct Day {
  double own[3];  // s after the start
  double rider[riders][3];
  bool seen_at_first{};  // by our crew
  double arrives{};      // the car, at CP2
  bool is_overlooked{};
  double drive_factor{};
  bool in_break(double t) const { return t >= arrives + 300 && t < arrives + 540; }
};

void wander(Rng& rng, double sd, double* x) {
  const double keep = std::exp(-500.0 / 6000.0);
  x[0] = sd * standard_normal(rng);
  for (std::size_t i = 1; i < fine; ++i)
    x[i] = keep * x[i - 1] + sd * std::sqrt(1 - keep * keep) * standard_normal(rng);
}

double ride_to(const double* a, const double* b, double level, double metres) {
  double seconds = 0;
  for (std::size_t i = 0; i < fine && 500.0 * static_cast<double>(i) < metres; ++i) {
    seconds += std::min(metres - 500.0 * static_cast<double>(i), 500.0) / speed * std::exp(level + a[i] + b[i]);
  }
  return seconds;
}

Day any_day(Rng& rng) {
  const double half = std::sqrt(0.5), level_sd = half * std::hypot(0.08, 0.041);
  double shared[fine], own[fine];
  const double shared_level = level_sd * standard_normal(rng);
  wander(rng, half * 0.06, shared);
  Day day;
  for (std::size_t k = 0; k <= riders; ++k) {
    wander(rng, half * 0.06, own);
    double level = shared_level + level_sd * standard_normal(rng);
    if (k > 0) level += 0.15 * standard_normal(rng);
    for (std::size_t c = 0; c < 3; ++c) (k == 0 ? day.own : day.rider[k - 1])[c] = ride_to(shared, own, level, cp[c]);
  }
  // Near her at CP1: riders far off are not noted.
  for (auto& rider : day.rider) {
    const double shift = day.own[0] + 900 * (uniform(rng) - 0.5) - rider[0];
    for (double& t : rider) t += shift;
  }
  day.seen_at_first = uniform(rng) < 0.7;
  day.arrives = cp[1] / speed + 1500 * (uniform(rng) - 0.6);
  day.is_overlooked = uniform(rng) < overlook;
  day.drive_factor = std::max(1.0, 1.1 * std::exp(0.1 * standard_normal(rng)));
  return day;
}

class Crew {
 public:
  Crew() : pace_(usual_pace(course_)) {
    LiveSettings settings;
    settings.held_up = 0;
    settings.days = 1024;
    live_ = *live_pace(course_, pace_, settings);
  }
  Instant at(double t) const { return pace_.start + Seconds{t}; }

  LiveDays live(const Day& day, double now, Seed seed) const {
    DayEvidence evidence;
    if (day.seen_at_first) evidence.own.push_back({0, at(day.own[0]), std::nullopt, std::nullopt, false});
    for (std::size_t k = 0; k < riders; ++k) {
      const double t = day.rider[k][1];
      if (!day.seen_at_first || t < day.arrives || t > now || day.in_break(t)) continue;
      evidence.riders.push_back(
          {std::to_string(k), LoopId{0}, Metres{cp[0]}, Metres{cp[1]}, Seconds{t - day.rider[k][0]}, 0});
    }
    const auto watch = [&](double from, double to) {
      if (std::min(to, now) > from) evidence.watches.push_back({1, at(from), at(std::min(to, now)), overlook});
    };
    watch(day.arrives, day.arrives + 300);
    watch(day.arrives + 540, 1e6);
    return live_days(live_, evidence, seed);
  }

  WaitingAdvice advice(const Day& day, double now, Seed seed) const {
    WaitOrDrive task;
    task.now = at(now);
    task.here = MeetHere{1, at(day.arrives + setup), Seconds{pack}, 1.0, overlook};
    task.next = MeetThere{2, Seconds{drive}, Seconds{setup}, 1.0};
    task.longest = minutes(60);
    task.step = minutes(2);
    return wait_or_drive(live(day, now, seed), task, seed);
  }

 private:
  Course course_ = draw_course({{Metres{30000}, {Metres{cp[0]}, Metres{cp[1]}, Metres{cp[2]}}}});
  HorsePace pace_;
  LivePace live_;
};

bool is_seen(const Day& day) { return day.own[1] >= day.arrives && !day.is_overlooked && !day.in_break(day.own[1]); }

TEST(LiveOdds, AreRightAsOftenAsTheySay) {
  const Crew crew;
  Rng rng(Seed{2026});
  std::array<double, 10> said{}, was{}, count{};
  double near_said = 0, near_was = 0, near_count = 0;
  for (std::size_t d = 0; d < days; ++d) {
    const Day day = any_day(rng);
    for (double now = day.arrives + 60; now < day.arrives + 2400; now += 420) {
      if (is_seen(day) && day.own[1] <= now) break;
      const double p = pass_odds(crew.live(day, now, Seed{d}), 1, crew.at(now)).gone;
      const double truth = day.own[1] <= now ? 1 : 0;
      const auto bin = std::min(static_cast<std::size_t>(10 * p), std::size_t{9});
      said[bin] += p;
      was[bin] += truth;
      count[bin] += 1;
      if (p < 0.6 || p > 0.8) continue;
      near_said += p;
      near_was += truth;
      near_count += 1;
    }
  }
  for (std::size_t b = 0; b < 10; ++b) {
    std::printf("said %.3f was %.3f of %.0f\n", said[b] / count[b], was[b] / count[b], count[b]);
    ASSERT_GT(count[b], 100);
    EXPECT_NEAR(was[b] / count[b], said[b] / count[b], 0.03 + 2 * std::sqrt(0.25 / count[b])) << "bin " << b;
  }
  std::printf("about 70 %%: said %.3f was %.3f of %.0f\n", near_said / near_count, near_was / near_count, near_count);
  EXPECT_NEAR(near_was / near_count, near_said / near_count, 0.03);
}

struct Tally {
  double here{}, next{}, wasted{};
};

// What becomes of a crew that leaves at `gives_up` if it has not seen her.
void play(const Day& day, double gives_up, Tally& tally) {
  const bool meets = is_seen(day) && day.own[1] <= gives_up;
  const double leaves = (meets ? day.own[1] + stand : gives_up) + pack;
  const double comes = day.own[2] + (meets ? stand : 0);
  if (meets) tally.here += 1;
  if (leaves + drive * day.drive_factor + setup <= comes) tally.next += 1;
  if (!meets) tally.wasted += (gives_up - day.arrives) / 60;
}

// The notebook: her time at CP1 (or the plan's) and average speed give the time at CP2; a rider noted beside her at CP1
// who comes to CP2 gives it anew; ten minutes after it they leave (common practice, no source).
double notebook(const Day& day) {
  constexpr double window = 600;
  double due = day.seen_at_first ? day.own[0] * cp[1] / cp[0] : cp[1] / speed;
  for (double now = day.arrives;; now += 60) {
    if (day.seen_at_first) {
      double latest = 0;
      for (const auto& rider : day.rider) {
        if (rider[1] < day.arrives || rider[1] > now || rider[1] < latest || day.in_break(rider[1])) continue;
        latest = rider[1];
        due = rider[1] - (rider[0] - day.own[0]);
      }
    }
    if (now > due + window) return now;
  }
}

double by_odds(const Crew& crew, const Day& day, Seed seed) {
  double now = day.arrives;
  for (int asked = 0; asked < 40; ++asked) {
    const auto advice = crew.advice(day, now, seed);
    if (advice.ways[advice.best].kind != WayOn::Kind::wait) return now;
    double next = (*advice.ask_again - crew.at(0)).count();
    for (const auto& rider : day.rider) {
      if (rider[1] > now && rider[1] < next && day.seen_at_first && !day.in_break(rider[1])) next = rider[1];
    }
    if (is_seen(day) && day.own[1] <= next) return next;
    now = std::max(next, now + 1);
  }
  return now;
}

TEST(LiveAdvice, MeetsMoreThanTheNotebook) {
  const Crew crew;
  Rng rng(Seed{11});
  Tally odds, book, stay;
  double square = 0, gain = 0;
  for (std::size_t d = 0; d < days; ++d) {
    const Day day = any_day(rng);
    const Tally odds_before = odds, book_before = book;
    play(day, by_odds(crew, day, Seed{d}), odds);
    play(day, notebook(day), book);
    play(day, day.arrives + 5400, stay);
    const double more = odds.here + odds.next - odds_before.here - odds_before.next -
                        (book.here + book.next - book_before.here - book_before.next);
    gain += more;
    square += more * more;
  }
  const auto n = static_cast<double>(days);
  for (const auto& [name, t] : {std::pair{"by odds", odds}, {"notebook", book}, {"stays 90 min", stay}}) {
    std::printf("%-13s meets %.3f (here %.3f, next %.3f), wasted %.2f min a day\n", name, (t.here + t.next) / n,
                t.here / n, t.next / n, t.wasted / n);
  }
  const double mean = gain / n, error = std::sqrt((square / n - mean * mean) / n);
  std::printf("gain %.4f +- %.4f meets a day\n", mean, error);
  EXPECT_GT(mean, 2 * error);
}

}  // namespace
}  // namespace outbye
