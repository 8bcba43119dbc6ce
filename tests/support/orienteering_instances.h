// The 29 published orienteering instances with 100 points: the reader and the best scores known for one route.
// Instances: Righini and Salani (2009), Vansteenwegen and others (2009), made from Solomon's vehicle-routing instances
// (Operations Research 35(2), 1987). The scores are from memory of the published tables; the solver proves them anew.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "core/crewing/orienteering.h"

namespace outbye {

struct KnownInstance {
  const char* name;
  std::int64_t score;
};
inline constexpr std::array<KnownInstance, 29> known_instances{{
    {"c101", 320},  {"c102", 360},  {"c103", 400},  {"c104", 420},  {"c105", 340},  {"c106", 340},
    {"c107", 370},  {"c108", 370},  {"c109", 380},  {"r101", 198},  {"r102", 286},  {"r103", 293},
    {"r104", 303},  {"r105", 247},  {"r106", 293},  {"r107", 299},  {"r108", 308},  {"r109", 277},
    {"r110", 284},  {"r111", 297},  {"r112", 298},  {"rc101", 219}, {"rc102", 266}, {"rc103", 266},
    {"rc104", 301}, {"rc105", 244}, {"rc106", 252}, {"rc107", 277}, {"rc108", 298},
}};

// Integer square root, rounded down.
inline std::int64_t root(std::int64_t x) {
  auto r = static_cast<std::int64_t>(std::sqrt(static_cast<double>(x)));
  while (r * r > x) --r;
  while ((r + 1) * (r + 1) <= x) ++r;
  return r;
}

// Times in tenths. Travel is the straight line rounded down to one decimal, in whole numbers throughout.
// A point a line after two lines of heading: number, x, y, service, score, a flag, the length of a list, the list,
// opening, closing. Point 0 is start and end. Nothing when the file is not there or not like that.
inline std::optional<OrienteeringProblem> read_instance(const std::string& folder, const std::string& name) {
  std::ifstream file(folder + "/" + name + ".txt");
  std::string line;
  if (!std::getline(file, line) || !std::getline(file, line)) return std::nullopt;
  struct Point {
    std::int64_t x, y;  // hundredths
  };
  std::vector<Point> points;
  OrienteeringProblem problem;
  const auto whole = [](double value, double factor) { return static_cast<std::int64_t>(std::lround(value * factor)); };
  while (std::getline(file, line)) {
    std::istringstream in(line);
    double number, x, y, service, score, open, close;
    int flag, count;
    if (!(in >> number)) continue;  // an empty last line
    if (!(in >> x >> y >> service >> score >> flag >> count)) return std::nullopt;
    for (int k = 0; k < count; ++k) {
      double skipped;
      in >> skipped;
    }
    if (!(in >> open >> close)) return std::nullopt;
    points.push_back({whole(x, 100), whole(y, 100)});
    problem.nodes.push_back({{{whole(open, 10), whole(close, 10)}}, whole(service, 10), whole(score, 1), false});
  }
  if (points.size() != 101) return std::nullopt;
  for (const Point& a : points) {
    for (const Point& b : points) {
      problem.travel.push_back(root(((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y)) / 100));
    }
  }
  problem.back_by = problem.nodes[0].windows[0].to;
  return problem;
}

}  // namespace outbye
