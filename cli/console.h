// What goes to the terminal: colour or not, progress, problems, exit codes, and standard output written whole at the
// end.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace outbye {

// docs/exit-codes.md
enum class ExitCode : int {
  good = 0,         // the answer is there
  undelivered = 1,  // outbye or the machine failed: a full disk, a closed output, a fault of ours
  refused = 2,      // the input is wrong or asks for the impossible: put it right and try again
};

// The one place where a kind of problem becomes an exit code.
ExitCode exit_code_of(Problem::Kind kind);

enum class ColourWish { never, when_terminal, always };

// Words in colour, or plain. Colour never stands alone: what it says is also in the words.
class Style {
 public:
  explicit Style(bool is_coloured = false) : is_coloured_(is_coloured) {}
  std::string heading(std::string_view text) const { return marked(text, "1"); }
  std::string good(std::string_view text) const { return marked(text, "32"); }
  std::string doubtful(std::string_view text) const { return marked(text, "33"); }
  std::string bad(std::string_view text) const { return marked(text, "31"); }
  std::string quiet(std::string_view text) const { return marked(text, "2"); }

 private:
  std::string marked(std::string_view text, const char* code) const {
    if (!is_coloured_) return std::string(text);
    return "\033[" + std::string(code) + "m" + std::string(text) + "\033[0m";
  }
  bool is_coloured_;
};

class Console {
 public:
  void wish_colour(ColourWish wish) { wish_ = wish; }
  Style style_of_output() const;  // NO_COLOR and a dumb terminal are respected unless the wish is `always`
  Style style_of_errors() const;

  void print(std::string_view text) { output_ += text; }
  // At once, for the questions of `outbye new`.
  void say_now(std::string_view text);

  // "outbye: WHERE: WHAT" on standard error. Returns the exit code.
  ExitCode report(const Problem& problem);
  ExitCode report(const std::vector<Problem>& problems);
  void note(const std::string& text);  // "outbye: TEXT" on standard error, not a problem

  // What is being done and the share done: on a terminal a line that is rewritten, shown once it has taken 0.3 s;
  // elsewhere one line a step for what takes longer than a second.
  void progress(const std::string& step, double share);
  void end_progress();

  // Writes what was printed. A reader that has gone (a closed pipe) is no fault; a full disk is.
  ExitCode flush();

 private:
  ColourWish wish_{ColourWish::when_terminal};
  std::string output_;
  std::string step_;
  bool step_shown_{};
  std::chrono::steady_clock::time_point step_began_{};
  std::chrono::steady_clock::time_point last_drawn_{};
};

}  // namespace outbye
