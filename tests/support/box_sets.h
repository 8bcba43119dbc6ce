// The published container-loading sets BR1 to BR7 of Bischoff and Ratcliff, Omega 23(4), 1995, in the OR-Library's
// format.
#pragma once

#include <cstddef>
#include <fstream>
#include <string>
#include <vector>

#include "core/load/box_packing.h"

namespace outbye {

// All problems of a set; none when the file is not there or not like that. A problem: its number and seed, the
// container, the kinds as number, three sides each with "may point up", count.
inline std::vector<BoxPackingTask> read_box_set(const std::string& path) {
  std::ifstream file(path);
  std::size_t count = 0;
  file >> count;
  std::vector<BoxPackingTask> tasks(file ? count : 0);
  for (BoxPackingTask& task : tasks) {
    long number = 0;
    long seed = 0;
    std::size_t kinds = 0;
    file >> number >> seed >> task.container[0] >> task.container[1] >> task.container[2] >> kinds;
    for (std::size_t k = 0; file && k < kinds; ++k) {
      BoxKind kind;
      file >> number;
      for (std::size_t a = 0; a < 3; ++a) {
        int up = 0;
        file >> kind.size[a] >> up;
        kind.vertical[a] = up != 0;
      }
      file >> kind.count;
      task.kinds.push_back(kind);
    }
    if (!file) return {};
  }
  return tasks;
}

}  // namespace outbye
