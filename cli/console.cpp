#include "cli/console.h"

#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <system_error>

#include "cli/text_layout.h"
#include "core/base/text.h"

namespace outbye {
namespace {

using std::chrono::steady_clock;

bool has_colour(ColourWish wish, int descriptor) {
  if (wish != ColourWish::when_terminal) return wish == ColourWish::always;
  // no-color.org: any value but the empty one turns colour off.
  const char* no_color = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  if (no_color != nullptr && *no_color != '\0') return false;
  if (terminal == nullptr || std::string_view(terminal) == "dumb") return false;
  return ::isatty(descriptor) == 1;
}

// 0, or the error that stopped it.
int write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(descriptor, bytes.data(), bytes.size());
    if (n < 0) {
      if (errno == EINTR) continue;
      return errno;
    }
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return 0;
}

}  // namespace

ExitCode exit_code_of(Problem::Kind kind) {
  switch (kind) {
    case Problem::Kind::bad_input:
    case Problem::Kind::not_found:
    case Problem::Kind::impossible:
      return ExitCode::refused;
    case Problem::Kind::cancelled:
      break;
  }
  return ExitCode::undelivered;
}

Style Console::style_of_output() const { return Style(has_colour(wish_, STDOUT_FILENO)); }
Style Console::style_of_errors() const { return Style(has_colour(wish_, STDERR_FILENO)); }

void Console::say_now(std::string_view text) {
  end_progress();
  write_all(STDOUT_FILENO, text);
}

ExitCode Console::report(const Problem& problem) {
  end_progress();
  std::string line = style_of_errors().bad("outbye:") + " ";
  if (!problem.where.empty()) line += one_line(problem.where) + ": ";
  line += one_line(problem.what) + "\n";
  write_all(STDERR_FILENO, line);
  return exit_code_of(problem.kind);
}

ExitCode Console::report(const std::vector<Problem>& problems) {
  ExitCode worst = ExitCode::undelivered;
  constexpr std::size_t most = 20;
  for (std::size_t i = 0; i < problems.size() && i < most; ++i) worst = std::max(worst, report(problems[i]));
  if (problems.size() > most) note("and " + std::to_string(problems.size() - most) + " more problems");
  return worst;
}

void Console::note(const std::string& text) {
  end_progress();
  write_all(STDERR_FILENO, "outbye: " + one_line(text) + "\n");
}

void Console::progress(const std::string& step, double share) {
  const auto now = steady_clock::now();
  if (step != step_) {
    step_ = step;
    step_began_ = now;
    if (!step_shown_) last_drawn_ = now;
  }
  const bool is_terminal = ::isatty(STDERR_FILENO) == 1;
  const auto patience = is_terminal ? std::chrono::milliseconds(300) : std::chrono::milliseconds(1000);
  if (now - last_drawn_ < patience) return;
  last_drawn_ = now;
  const int percent = static_cast<int>(100.0 * std::clamp(share, 0.0, 1.0));
  if (is_terminal) {
    write_all(STDERR_FILENO, "\r" + left(std::to_string(percent) + " % " + step, line_width - 1));
    step_shown_ = true;
  } else {
    write_all(STDERR_FILENO, "outbye: " + std::to_string(percent) + " %, " + one_line(step) + "\n");
  }
}

void Console::end_progress() {
  if (!step_shown_) return;
  write_all(STDERR_FILENO, "\r" + std::string(line_width - 1, ' ') + "\r");
  step_shown_ = false;
}

ExitCode Console::flush() {
  end_progress();
  const int error = write_all(STDOUT_FILENO, output_);
  output_.clear();
  if (error == 0 || error == EPIPE) return ExitCode::good;
  return report(Problem{Problem::Kind::cancelled, "standard output",
                        "cannot be written: " + std::generic_category().message(error)});
}

}  // namespace outbye
