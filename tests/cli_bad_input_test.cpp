// Runs every case of tests/bad_input/cases.txt: exit code 2, a message with the words it must give (where and remedy),
// nothing on standard output and no file written, whole or in part.
#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "tests/run_outbye.h"

namespace outbye {
namespace {

struct BadCase {
  std::string what;
  std::vector<std::string> words;         // of the command
  std::vector<std::string> must_contain;  // in standard error
  bool may_print{};                       // the questions of `outbye new`
  std::size_t line{};
};

// Words as a shell splits them, with "double quotes"; {f} is the folder of bad files.
std::vector<std::string> split(const std::string& command) {
  std::vector<std::string> words;
  std::string word;
  bool quoted = false;
  bool any = false;
  for (const char c : command) {
    if (c == '"') {
      quoted = !quoted;
      any = true;
    } else if (c == ' ' && !quoted) {
      if (any || !word.empty()) words.push_back(word);
      word.clear();
      any = false;
    } else {
      word += c;
    }
  }
  if (any || !word.empty()) words.push_back(word);
  for (auto& w : words) {
    for (auto at = w.find("{f}"); at != std::string::npos; at = w.find("{f}"))
      w.replace(at, 3, test_file("").substr(0, test_file("").size() - 1));
  }
  return words;
}

std::vector<BadCase> read_cases() {
  std::istringstream lines(text_of(test_file("cases.txt")));
  std::vector<BadCase> cases;
  std::size_t number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    if (line.empty() || line[0] == '#') continue;
    if (line[0] == '$') {
      cases.back().words = split(line.substr(2));
      cases.back().may_print = line.find("new") != std::string::npos && line.find("--course") == std::string::npos;
    } else if (line[0] == '>') {
      cases.back().must_contain.push_back(line.substr(2));
    } else {
      cases.push_back({line, {}, {}, false, number});
    }
  }
  return cases;
}

class BadInput : public testing::TestWithParam<BadCase> {};

TEST_P(BadInput, IsRefusedWithPlaceAndRemedyAndNothingIsWritten) {
  const BadCase& bad = GetParam();
  FreshFolder folder;
  std::ofstream(folder / "there.gpx") << "mine";
  std::ofstream(folder / "there.json") << "mine";
  const ProgramRun run = run_outbye(folder, bad.words);
  EXPECT_EQ(run.code, 2) << bad.what << "\n" << run.out << run.err;
  for (const auto& words : bad.must_contain) {
    EXPECT_NE(run.err.find(words), std::string::npos) << bad.what << ": no '" << words << "' in\n" << run.err;
  }
  std::istringstream lines(run.err);
  for (std::string line; std::getline(lines, line);) EXPECT_EQ(line.rfind("outbye: ", 0), 0U) << line;
  if (!bad.may_print) {
    EXPECT_EQ(run.out, "") << bad.what;
  }
  std::set<std::string> left;
  for (const auto& entry : std::filesystem::directory_iterator(folder.here()))
    left.insert(entry.path().filename().string());
  EXPECT_EQ(left, (std::set<std::string>{"there.gpx", "there.json"})) << bad.what;
  EXPECT_EQ(text_of(folder / "there.gpx"), "mine");
  EXPECT_EQ(text_of(folder / "there.json"), "mine");
}

std::string name_of(const testing::TestParamInfo<BadCase>& info) {
  std::string name;
  for (const char c : info.param.what) {
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')) {
      name += c;
    } else if (!name.empty() && name.back() != '_') {
      name += '_';
    }
  }
  return name + "_line_" + std::to_string(info.param.line);
}

INSTANTIATE_TEST_SUITE_P(Case, BadInput, testing::ValuesIn(read_cases()), name_of);

TEST(BadInputTable, HoldsAtLeastSixtyCasesEachWithAMessage) {
  const auto cases = read_cases();
  EXPECT_GE(cases.size(), 60U);
  for (const auto& bad : cases) {
    EXPECT_FALSE(bad.words.empty()) << bad.what;
    EXPECT_FALSE(bad.must_contain.empty()) << bad.what;
  }
}

}  // namespace
}  // namespace outbye
