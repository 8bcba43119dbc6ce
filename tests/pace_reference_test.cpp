// A whole ride, simulated by the engine and by tests/tools/pace_reference.py (python3-numpy), which shares no code.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <string>

#include "core/base/text.h"
#include "core/pace/pace.h"
#include "core/pace/test_course.h"

namespace outbye {
namespace {

// Rolling gradients with a step at each kilometre, the same on any machine.
std::vector<double> rolling(Metres length, double steepest) {
  std::vector<double> gradient;
  for (std::size_t i = 0; i < static_cast<std::size_t>(length.value / 25.0); ++i) {
    const auto km = static_cast<int>(i / 40);
    gradient.push_back(steepest * static_cast<double>((km * 7) % 11 - 5) / 5.0);
  }
  return gradient;
}

std::string json(const UncertainTime& time) {
  return "{\"median\":" + fixed(time.median.count(), 6) + ",\"log_sd\":" + fixed(time.log_sd, 6) + "}";
}

void write_ride(std::ostream& file, const Course& course, const HorsePace& pace, const std::vector<bool>& is_met,
                const HorseDays& days, const std::vector<double>& all) {
  file << "{\"days\":" << days.days << ",\"start_delay\":" << json(pace.start_delay)
       << ",\"spread\":{\"ride\":" << fixed(pace.spread.ride, 6) << ",\"loop\":" << fixed(pace.spread.loop, 6)
       << ",\"within\":" << fixed(pace.spread.within, 6)
       << ",\"within_length\":" << fixed(pace.spread.within_length.value, 3) << "},\n\"loops\":[";
  for (std::size_t l = 0; l < course.loops.size(); ++l) {
    const auto& of = pace.loops[l];
    file << (l > 0 ? ",\n" : "") << "{\"length\":" << fixed(course.loops[l].length.value, 3)
         << ",\"speed\":" << fixed(of.speed.value, 6) << ",\"is_average\":" << (of.is_average ? "true" : "false")
         << ",\"heat_factor\":" << fixed(of.heat_factor, 6) << ",\"recovery\":" << json(of.recovery)
         << ",\"hold\":" << fixed(of.hold.count(), 3) << ",\"going\":[";
    for (std::size_t i = 0; i < of.going.size(); ++i) {
      file << (i > 0 ? "," : "") << "{\"from\":" << fixed(of.going[i].from.value, 3)
           << ",\"to\":" << fixed(of.going[i].to.value, 3) << ",\"factor\":" << fixed(of.going[i].factor, 6) << "}";
    }
    file << "],\"passes\":[";
    bool is_first = true;
    for (std::size_t e = 0; e < days.events.size(); ++e) {
      if (days.events[e].loop.value != l || !days.events[e].pass) continue;
      const PassId pass = *days.events[e].pass;
      file << (is_first ? "" : ",") << "{\"along\":" << fixed(at(course.passes, pass).along.value, 3)
           << ",\"is_met\":" << (is_met[e] ? "true" : "false") << ",\"stop\":" << json(at(pace.stops, pass)) << "}";
      is_first = false;
    }
    file << "],\"gradient\":[";
    const auto& gradient = course.loops[l].profile.gradient;
    for (std::size_t i = 0; i < gradient.size(); ++i) file << (i > 0 ? "," : "") << fixed(gradient[i], 6);
    file << "]}";
  }
  file << "],\n\"events\":[";
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    double mean = 0, square = 0;
    for (std::size_t d = 0; d < days.days; ++d) mean += all[e * days.days + d];
    mean /= static_cast<double>(days.days);
    for (std::size_t d = 0; d < days.days; ++d) square += std::pow(all[e * days.days + d] - mean, 2);
    const auto window = window_of(days, all, e);
    file << (e > 0 ? ",\n" : "") << "{\"mean\":" << fixed(mean, 3)
         << ",\"sd\":" << fixed(std::sqrt(square / static_cast<double>(days.days - 1)), 3)
         << ",\"p10\":" << fixed((window.p10 - days.origin).count(), 3)
         << ",\"p50\":" << fixed((window.p50 - days.origin).count(), 3)
         << ",\"p90\":" << fixed((window.p90 - days.origin).count(), 3) << "}";
  }
  file << "]}\n";
}

TEST(SimulatedRide, AgreesWithAnIndependentSimulation) {
  const auto course = draw_course({{kilometres(40),
                                    {kilometres(6.4), kilometres(15.25), kilometres(27), kilometres(36.1)},
                                    rolling(kilometres(40), 0.06)},
                                   {kilometres(30), {kilometres(8), kilometres(19.5)}, rolling(kilometres(30), 0.10)},
                                   {kilometres(20), {kilometres(1), kilometres(11)}, rolling(kilometres(20), 0.03)}});
  HorsePace pace = usual_pace(course);
  pace.start_delay = {minutes(2), 0.5};
  pace.loops[0].speed = {13};
  pace.loops[0].going = {{kilometres(3), kilometres(9), 0.7, "deep sand"},
                         {kilometres(20), kilometres(22), 0.85, "stony"}};
  pace.loops[1].is_average = false;
  pace.loops[1].heat_factor = 0.93;
  pace.loops[1].recovery = {minutes(9), 0.5};
  pace.loops[2].heat_factor = 0.9;
  for (std::size_t i = 0; i < pace.stops.size(); ++i) pace.stops[i] = {minutes(2.0 + static_cast<double>(i)), 0.4};
  auto is_met = meet_all(course);
  is_met[1] = false;
  const auto days = simulate_days(course, pace, 65536, Seed{42}).value();
  const auto all = arrivals(days, is_met);
  const std::string path = std::string(OUTBYE_BUILD) + "/pace_reference.json";
  {
    std::ofstream file(path);
    write_ride(file, course, pace, is_met, days, all);
  }
  const std::string command = "/usr/bin/python3 " OUTBYE_SOURCE "/tests/tools/pace_reference.py '" + path + "'";
  const int status = std::system(command.c_str());
  ASSERT_TRUE(WIFEXITED(status));
  if (WEXITSTATUS(status) == 77 || WEXITSTATUS(status) == 127) GTEST_SKIP() << "python3-numpy is not installed";
  EXPECT_EQ(WEXITSTATUS(status), 0) << command;
}

}  // namespace
}  // namespace outbye
