// The npm package jsthermalcomfort 0.0.2 (MIT), which has a saturation pressure, the weather service's heat index and
// the heat strain of people, and neither WBGT nor wet bulb. The pressure is the one thing that both define, and WBGT by
// the short form follows from it. `./run test` installs the package (tests/npm).
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

bool has_package() {
  return std::filesystem::exists(OUTBYE_SOURCE "/tests/npm/node_modules/jsthermalcomfort/package.json") &&
         std::system("command -v node >/dev/null") == 0;
}
#define NEEDS_PACKAGE() \
  if (!has_package()) GTEST_SKIP() << "node or tests/npm/node_modules is missing: npm ci --prefix tests/npm"

std::vector<Row> grid(const std::string& test) {
  const std::string out = OUTBYE_BUILD "/heat_npm_" + test + ".out";
  const std::string command = "node '" OUTBYE_SOURCE "/tests/tools/heat_jsthermalcomfort.mjs' > '" + out + "'";
  EXPECT_EQ(std::system(command.c_str()), 0);
  std::vector<Row> rows;
  std::ifstream file(out);
  for (Row r; file >> r.temperature.value >> r.humidity.value >> r.saturation_pascals >> r.felt;) rows.push_back(r);
  EXPECT_EQ(rows.size(), 51u * 20u);
  return rows;
}

// The package has Hyland and Wexler's saturation pressure (steam tables), the Bureau of Meteorology Tetens' with
// constants of its own. So they differ, by less than 0.6 percent from 0 to 50 degrees; a wrong unit would be a
// factor of ten.
TEST(VapourPressureOfThePackage, IsOursToSixTenthsOfAPercent) {
  NEEDS_PACKAGE();
  double worst = 0;
  for (const Row& r : grid("pressure")) {
    const double theirs = r.humidity.value / 100 * r.saturation_pascals / 100;  // Pa to hPa
    worst = std::max(worst, std::abs(vapour_pressure(r.temperature, r.humidity).value / theirs - 1));
  }
  EXPECT_LT(worst, 0.006);
  std::printf("worst: %.3f %%\n", 100 * worst);
}

TEST(ShortFormOfWbgtOnThePackagesPressure, IsOursToTwoTenthsOfADegreeUpTo40Degrees) {
  NEEDS_PACKAGE();
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
  NEEDS_PACKAGE();
  Row dry, damp;
  for (const Row& r : grid("index")) {
    if (r.temperature.value == 40 && r.humidity.value == 25) dry = r;
    if (r.temperature.value == 28 && r.humidity.value == 80) damp = r;
  }
  EXPECT_GT(dry.felt, damp.felt);
  EXPECT_LT(fahrenheit_humidity_sum(dry.temperature, dry.humidity),
            fahrenheit_humidity_sum(damp.temperature, damp.humidity));
}

}  // namespace
}  // namespace outbye
