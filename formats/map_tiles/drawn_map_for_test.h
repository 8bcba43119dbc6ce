// A small map drawn in a test, as OpenStreetMap XML, and the folder it lies in.
#pragma once

#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

#include "core/base/text.h"
#include "core/geo/position.h"

namespace outbye {

// A folder of its own for each test, taken away with it.
struct TestFolder {
  std::filesystem::path path;
  explicit TestFolder(const std::string& name)
      : path(std::filesystem::temp_directory_path() / ("outbye-" + name + "-" + std::to_string(::getpid()))) {
    std::filesystem::create_directories(path);
  }
  TestFolder(const TestFolder&) = delete;
  TestFolder& operator=(const TestFolder&) = delete;
  ~TestFolder() {
    std::error_code error;
    std::filesystem::remove_all(path, error);
  }
};

class DrawnMap {
 public:
  using TagPairs = std::vector<std::pair<std::string, std::string>>;

  int node(Position at, const TagPairs& tags = {}) {
    nodes_ += "<node id=\"" + std::to_string(++last_) + "\" lat=\"" + fixed(at.latitude, 7) + "\" lon=\"" +
              fixed(at.longitude, 7) + "\">" + written(tags) + "</node>\n";
    return last_;
  }
  int way(const std::vector<int>& nodes, const TagPairs& tags) {
    ways_ += "<way id=\"" + std::to_string(++last_) + "\">";
    for (const int node : nodes) ways_ += "<nd ref=\"" + std::to_string(node) + "\"/>";
    ways_ += written(tags) + "</way>\n";
    return last_;
  }
  int line(const std::vector<Position>& points, const TagPairs& tags) {
    std::vector<int> nodes;
    for (const Position p : points) nodes.push_back(node(p));
    return way(nodes, tags);
  }
  int ring(const std::vector<Position>& corners, const TagPairs& tags) {
    std::vector<int> nodes;
    for (const Position p : corners) nodes.push_back(node(p));
    nodes.push_back(nodes.front());
    return way(nodes, tags);
  }
  void area(const std::vector<std::pair<int, std::string>>& members, const TagPairs& tags) {
    relations_ += "<relation id=\"" + std::to_string(++last_) + "\">";
    for (const auto& [way, role] : members) {
      relations_ += "<member type=\"way\" ref=\"" + std::to_string(way) + "\" role=\"" + role + "\"/>";
    }
    relations_ += "<tag k=\"type\" v=\"multipolygon\"/>" + written(tags) + "</relation>\n";
  }
  std::filesystem::path save(const TestFolder& folder, const std::string& name = "map.osm") const {
    const auto file = folder.path / name;
    std::ofstream(file) << "<?xml version=\"1.0\"?>\n<osm version=\"0.6\">\n"
                        << nodes_ << ways_ << relations_ << "</osm>\n";
    return file;
  }

 private:
  static std::string written(const TagPairs& tags) {
    std::string text;
    for (const auto& [key, value] : tags) text += "<tag k=\"" + key + "\" v=\"" + value + "\"/>";
    return text;
  }
  int last_{};
  std::string nodes_, ways_, relations_;
};

inline std::vector<Position> square_around(Position middle, double half_side_degrees) {
  const double d = half_side_degrees, w = d / std::cos(middle.latitude * 3.14159265358979 / 180);
  return {{middle.latitude - d, middle.longitude - w},
          {middle.latitude - d, middle.longitude + w},
          {middle.latitude + d, middle.longitude + w},
          {middle.latitude + d, middle.longitude - w}};
}

}  // namespace outbye
