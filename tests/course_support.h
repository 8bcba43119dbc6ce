// For the course's outside checks: real files, and programs run for their lines of output.
#pragma once

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

namespace outbye {

inline std::string file_bytes(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

inline std::vector<std::filesystem::path> real_gpx_files() {
  std::vector<std::filesystem::path> files;
  for (const char* folder : {"gpx", "course"}) {
    const std::filesystem::path path = std::filesystem::path(OUTBYE_SHARED) / "data/real" / folder;
    if (!std::filesystem::is_directory(path)) continue;
    for (const auto& entry : std::filesystem::directory_iterator(path)) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

inline std::vector<std::string> run_lines(const std::string& command) {
  std::vector<std::string> lines;
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return lines;
  std::string output;
  char buffer[1 << 14];
  while (const std::size_t n = std::fread(buffer, 1, sizeof buffer, pipe)) output.append(buffer, n);
  pclose(pipe);
  for (std::size_t from = 0; from < output.size();) {
    const std::size_t end = std::min(output.find('\n', from), output.size());
    lines.push_back(output.substr(from, end - from));
    from = end + 1;
  }
  return lines;
}

inline bool has_gpxpy() { return std::system("/usr/bin/python3 -c 'import gpxpy' 2>/dev/null") == 0; }

// What course_gpxpy.py prints for each file, by the file's name. One Python for all of them.
inline std::map<std::string, std::vector<std::string>> run_gpxpy(const std::string& job,
                                                                 const std::vector<std::filesystem::path>& files) {
  std::string command = "/usr/bin/python3 '" + std::string(OUTBYE_SOURCE) + "/tests/tools/course_gpxpy.py' " + job;
  for (const auto& file : files) command += " '" + file.string() + "'";
  std::map<std::string, std::vector<std::string>> answers;
  std::string name;
  for (const std::string& line : run_lines(command)) {
    if (line.rfind("file\t", 0) == 0) {
      name = line.substr(5);
      answers[name];
    } else {
      answers[name].push_back(line);
    }
  }
  return answers;
}

}  // namespace outbye
