// Runs the built command line as a user would, in a fresh folder, and takes what it prints.
#pragma once

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace outbye {

inline std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

struct ProgramRun {
  int code{-1};  // exit code; 128 + signal when killed
  std::string out;
  std::string err;
};

// A folder of its own for a test, removed at the end.
class FreshFolder {
 public:
  FreshFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "outbye-test-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) std::abort();
    path_ = name;
    std::filesystem::create_directory(path_ / "here");
    std::filesystem::create_directory(path_ / "cache");
  }
  FreshFolder(const FreshFolder&) = delete;
  FreshFolder& operator=(const FreshFolder&) = delete;
  ~FreshFolder() { std::filesystem::remove_all(path_); }

  std::filesystem::path here() const { return path_ / "here"; }  // where programs run
  std::string operator/(const std::string& name) const { return (here() / name).string(); }
  std::filesystem::path base() const { return path_; }

 private:
  std::filesystem::path path_;
};

// `words[0]` is the program, found in PATH. Standard output and error go through files, so that nothing can block.
inline ProgramRun run_program(const FreshFolder& folder, const std::vector<std::string>& words,
                              const std::string& input = "", const std::string& out_path = "") {
  const std::string out = out_path.empty() ? (folder.base() / "stdout").string() : out_path;
  const std::string err = (folder.base() / "stderr").string();
  const std::string in = (folder.base() / "stdin").string();
  std::ofstream(in, std::ios::binary) << input;
  const pid_t child = ::fork();
  if (child == 0) {
    const int in_fd = ::open(in.c_str(), O_RDONLY);
    const int out_fd = ::open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    const int err_fd = ::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(in_fd, 0);
    ::dup2(out_fd, 1);
    ::dup2(err_fd, 2);
    if (::chdir(folder.here().c_str()) != 0) ::_exit(126);
    ::setenv("OUTBYE_CACHE", (folder.base() / "cache").c_str(), 1);
    ::setenv("TZ", "Europe/London", 1);
    ::unsetenv("NO_COLOR");
    ::setenv("TERM", "xterm", 1);
    std::vector<char*> argv;
    for (const auto& word : words) argv.push_back(const_cast<char*>(word.c_str()));
    argv.push_back(nullptr);
    ::execvp(argv[0], argv.data());
    ::_exit(127);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  ProgramRun run;
  run.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  if (out_path.empty()) run.out = text_of(out);
  run.err = text_of(err);
  return run;
}

inline ProgramRun run_outbye(const FreshFolder& folder, std::vector<std::string> words, const std::string& input = "") {
  words.insert(words.begin(), std::string(OUTBYE_BUILD) + "/outbye");
  return run_program(folder, words, input);
}

inline bool has_program(const std::string& name) {
  return std::system(("command -v " + name + " >/dev/null 2>&1").c_str()) == 0;
}

inline std::string test_file(const std::string& name) {
  return std::string(OUTBYE_SOURCE) + "/tests/bad_input/" + name;
}

}  // namespace outbye
