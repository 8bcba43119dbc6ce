// The sun against python3-ephem (Debian), which works it from other tables: its place in the sky over a century, and
// its times at twelve places, beyond both polar circles too.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/base/text.h"
#include "core/welfare/sun.h"

namespace outbye {
namespace {

using std::chrono::sys_days;

struct Asked {
  Position place;
  Instant at;
};

bool has_ephem() { return std::system("/usr/bin/python3 -c 'import ephem' 2>/dev/null") == 0; }

std::vector<std::vector<std::string>> ephem_says(const std::string& job, const std::vector<Asked>& questions) {
  const auto stem = (std::filesystem::path(OUTBYE_BUILD) / ("heat_sun_" + job)).string();
  std::ofstream file(stem + ".txt");
  for (const Asked& q : questions) {
    file << fixed(q.place.latitude, 6) << ' ' << fixed(q.place.longitude, 6) << ' '
         << fixed(q.at.time_since_epoch().count(), 3) << '\n';
  }
  file.close();
  const std::string command = "/usr/bin/python3 " OUTBYE_SOURCE "/tests/tools/heat_ephem.py " + job + " '" + stem +
                              ".txt' > '" + stem + ".out'";
  EXPECT_EQ(std::system(command.c_str()), 0) << command;
  std::vector<std::vector<std::string>> answers;
  std::ifstream out(stem + ".out");
  for (std::string line; std::getline(out, line);) {
    std::istringstream words(line);
    answers.emplace_back();
    for (std::string word; words >> word;) answers.back().push_back(word);
  }
  EXPECT_EQ(answers.size(), questions.size());
  return answers;
}

TEST(SunOfEphem, StandsWithinAHundredthOfADegreeOverACentury) {
  if (!has_ephem()) GTEST_SKIP() << "python3-ephem is not installed";
  Rng rng{Seed{21}};
  std::vector<Asked> questions;
  for (int i = 0; i < 3000; ++i) {
    const double latitude = std::round(1e6 * (-90 + 180 * uniform(rng))) / 1e6;
    const double longitude = std::round(1e6 * (-180 + 360 * uniform(rng))) / 1e6;
    const double seconds = std::floor((80 * 365.25 * uniform(rng)) * 86400.0);
    questions.push_back({{latitude, longitude}, Instant{sys_days{std::chrono::January / 1 / 1980}} + Seconds{seconds}});
  }
  const auto answers = ephem_says("heights", questions);
  double worst_zenith = 0, worst_azimuth = 0, worst_distance = 0;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const SunPosition sun = sun_position(questions[i].place, questions[i].at);
    worst_zenith = std::max(worst_zenith, std::abs(sun.zenith.value - std::stod(answers[i][0])));
    // Across the sky: an azimuth counts for little near the zenith.
    const double turn = std::remainder(sun.azimuth.value - std::stod(answers[i][1]), 360.0);
    worst_azimuth = std::max(worst_azimuth, std::abs(turn * std::sin(sun.zenith.value * 0.017453292519943295)));
    worst_distance = std::max(worst_distance, std::abs(sun.distance_au - std::stod(answers[i][2])));
  }
  EXPECT_LT(worst_zenith, 0.01);
  EXPECT_LT(worst_azimuth, 0.01);
  EXPECT_LT(worst_distance, 0.0002);
  std::printf("worst: zenith %.4f, across %.4f degrees, distance %.6f AU\n", worst_zenith, worst_azimuth,
              worst_distance);
}

struct Place {
  const char* name;
  Position at;
  int utc_offset;  // whole hours; of standard time, which is near enough to local midnight
};
constexpr Place places[] = {
    {"London", {51.5074, -0.1278}, 0},  {"Shetland", {60.15, -1.15}, 0},      {"Singapore", {1.3521, 103.8198}, 8},
    {"Quito", {-0.1807, -78.4678}, -5}, {"Sydney", {-33.8688, 151.2093}, 10}, {"Cape Town", {-33.9249, 18.4241}, 2},
    {"California", {38.9, -120.9}, -8}, {"Fiji", {-17.7, 179.9}, 12},         {"Tampere", {61.4978, 23.761}, 2},
    {"Tromso", {69.6492, 18.9553}, 1},  {"Svalbard", {78.2232, 15.6267}, 1},  {"McMurdo", {-77.8419, 166.6863}, 12}};

TEST(SunTimesOfEphem, AreTheSameWithinAMinuteAtTwelvePlacesThroughTheYear) {
  if (!has_ephem()) GTEST_SKIP() << "python3-ephem is not installed";
  std::vector<Asked> questions;
  for (const Place& p : places) {
    for (int day = 0; day < 366; day += 6) {
      const Instant midnight = Instant{sys_days{std::chrono::January / 1 / 2026} + std::chrono::days{day}} -
                               std::chrono::hours{p.utc_offset};
      questions.push_back({p.at, midnight});
    }
  }
  const auto answers = ephem_says("times", questions);
  double worst = 0;
  int compared = 0, none = 0;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const SunTimes t = sun_times(questions[i].place, questions[i].at);
    const std::optional<Instant> ours[] = {t.civil_dawn, t.sunrise, t.sunset, t.civil_dusk};
    for (std::size_t e = 0; e < 4; ++e) {
      SCOPED_TRACE(std::string(places[i / 61].name) + ", day " + std::to_string(6 * (i % 61)) + ", event " +
                   std::to_string(e) + ", ephem " + answers[i][e]);
      ASSERT_EQ(ours[e].has_value(), answers[i][e] != "-");
      if (!ours[e]) {
        ++none;
        continue;
      }
      const double off = (*ours[e] - questions[i].at).count() - std::stod(answers[i][e]);
      EXPECT_LT(std::abs(off), 60);
      worst = std::max(worst, std::abs(off));
      ++compared;
    }
  }
  EXPECT_GT(compared, 2000);
  EXPECT_GT(none, 200);  // midnight sun and polar night are among them
  std::printf("%d times compared, %d that are not, worst %.1f s\n", compared, none, worst);
}

}  // namespace
}  // namespace outbye
