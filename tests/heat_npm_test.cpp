// Short formulas of heat against npm packages, which `./run test` installs (tests/npm).
// jsthermalcomfort 0.0.2 (MIT) has a saturation pressure, the weather service's heat index and the heat strain of
// people, and neither WBGT nor wet bulb: the pressure is the one thing that both define, and WBGT by the short form
// follows from it. psychrolib 1.1.1 (MIT) has the wet bulb.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <vector>

#include "core/welfare/heat_index.h"

namespace outbye {
namespace {

struct Row {
  Celsius temperature;
  Percent humidity;
  double saturation_pascals{};
  double felt{};  // heat index, degrees C
};

bool has_packages() {
  return std::filesystem::exists(OUTBYE_SOURCE "/tests/npm/node_modules/jsthermalcomfort/package.json") &&
         std::filesystem::exists(OUTBYE_SOURCE "/tests/npm/node_modules/psychrolib/package.json") &&
         std::system("command -v node >/dev/null") == 0;
}
#define NEEDS_PACKAGES() \
  if (!has_packages()) GTEST_SKIP() << "node or tests/npm/node_modules is missing: npm ci --prefix tests/npm"

// What a script prints; `test` keeps tests that run at the same time apart.
std::ifstream said_by(const std::string& script, const std::string& test) {
  const std::string out = OUTBYE_BUILD "/heat_npm_" + test + ".out";
  const std::string command = "node '" OUTBYE_SOURCE "/tests/tools/" + script + "' > '" + out + "'";
  EXPECT_EQ(std::system(command.c_str()), 0);
  return std::ifstream(out);
}

std::vector<Row> grid(const std::string& test) {
  std::vector<Row> rows;
  std::ifstream file = said_by("heat_jsthermalcomfort.mjs", test);
  for (Row r; file >> r.temperature.value >> r.humidity.value >> r.saturation_pascals >> r.felt;) rows.push_back(r);
  EXPECT_EQ(rows.size(), 51u * 20u);
  return rows;
}

// The package has Hyland and Wexler's saturation pressure (steam tables), the Bureau of Meteorology Tetens' with
// constants of its own. So they differ, by less than 0.6 percent from 0 to 50 degrees; a wrong unit would be a
// factor of ten.
TEST(VapourPressureOfThePackage, IsOursToSixTenthsOfAPercent) {
  NEEDS_PACKAGES();
  double worst = 0;
  for (const Row& r : grid("pressure")) {
    const double theirs = r.humidity.value / 100 * r.saturation_pascals / 100;  // Pa to hPa
    worst = std::max(worst, std::abs(vapour_pressure(r.temperature, r.humidity).value / theirs - 1));
  }
  EXPECT_LT(worst, 0.006);
  std::printf("worst: %.3f %%\n", 100 * worst);
}

TEST(ShortFormOfWbgtOnThePackagesPressure, IsOursToTwoTenthsOfADegreeUpTo40Degrees) {
  NEEDS_PACKAGES();
  double worst = 0;
  for (const Row& r : grid("wbgt")) {
    if (r.temperature.value > 40) continue;
    const double e = r.humidity.value / 100 * r.saturation_pascals / 100;
    const double theirs = 0.567 * r.temperature.value + 0.393 * e + 3.94;
    worst = std::max(worst, std::abs(bom_wbgt(r.temperature, r.humidity).value - theirs));
  }
  EXPECT_LT(worst, 0.2);
  std::printf("worst: %.3f degrees\n", worst);
}

// The package's heat index is the weather service's felt temperature (a regression for 27 degrees and more), not
// degrees F + % humidity; they do not even rank two days alike.
TEST(HeatIndexOfThePackage, RanksDaysOtherwiseThanTheSum) {
  NEEDS_PACKAGES();
  Row dry, damp;
  for (const Row& r : grid("index")) {
    if (r.temperature.value == 40 && r.humidity.value == 25) dry = r;
    if (r.temperature.value == 28 && r.humidity.value == 80) damp = r;
  }
  EXPECT_GT(dry.felt, damp.felt);
  EXPECT_LT(fahrenheit_humidity_sum(dry.temperature, dry.humidity),
            fahrenheit_humidity_sum(damp.temperature, damp.humidity));
}

struct WetRow {
  Celsius temperature;
  Percent humidity;
  Hectopascals pressure;
  Celsius wet_bulb;
};
std::vector<WetRow> wet_bulbs(const std::string& test) {
  std::vector<WetRow> rows;
  std::ifstream file = said_by("heat_psychrolib.mjs", test);
  for (WetRow r; file >> r.temperature.value >> r.humidity.value >> r.pressure.value >> r.wet_bulb.value;) {
    rows.push_back(r);
  }
  EXPECT_GT(rows.size(), 300u);
  return rows;
}

// The package's wet bulb is the thermodynamic one; a psychrometer reads a little higher, the more so the drier the air,
// because its coefficient is an instrument's (6.6e-4 and more) and not that of adiabatic saturation.
TEST(WetBulbOfThePackage, IsALittleUnderThePsychrometersAndNoMore) {
  NEEDS_PACKAGES();
  double least = 10, most = -10;
  for (const WetRow& r : wet_bulbs("psychrometer")) {
    const double over = kelvin_between(psychrometer_wet_bulb(r.temperature, r.humidity, r.pressure), r.wet_bulb);
    least = std::min(least, over);
    most = std::max(most, over);
  }
  EXPECT_GT(least, -0.05);
  EXPECT_LT(most, 0.6);
  std::printf("over: %.3f to %.3f degrees\n", least, most);
}

// Stull (J. Appl. Meteor. Climatol. 50, 2011, 2267-2269) states -1.0..+0.65 degrees at sea level, against a
// psychrometric table. The thermodynamic wet bulb lies lower in dry heat, so that against it up to 40 degrees he is
// between -1.15 (at 5 %) and +0.83 (at 40 degrees).
TEST(WetBulbOfThePackage, IsNearStullsUpTo40Degrees) {
  NEEDS_PACKAGES();
  double least = 10, most = -10;
  for (const WetRow& r : wet_bulbs("stull")) {
    const auto stull = stull_wet_bulb(r.temperature, r.humidity);
    if (!stull || r.pressure.value < 1013 || r.temperature.value > 40) continue;
    const double over = kelvin_between(*stull, r.wet_bulb);
    least = std::min(least, over);
    most = std::max(most, over);
  }
  EXPECT_GT(least, -1.2);
  EXPECT_LT(most, 0.85);
  std::printf("over: %.3f to %.3f degrees\n", least, most);
}

}  // namespace
}  // namespace outbye
