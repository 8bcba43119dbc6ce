// The executable: nothing but the command line, and the last catch for what should not happen.
#include <csignal>
#include <cstdio>
#include <exception>
#include <new>

#include "cli/command_line.h"

int main(int argc, char** argv) {
  // A closed pipe shows as a failed write, which Console::flush() takes for what it is.
  std::signal(SIGPIPE, SIG_IGN);
  try {
    return static_cast<int>(outbye::CommandLine().run(argc, argv));
  } catch (const std::bad_alloc&) {
    std::fputs("outbye: out of memory; take a smaller road extract or fewer simulated days\n", stderr);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "outbye: a fault of outbye itself: %s; please report it with the command you gave\n",
                 error.what());
  }
  return static_cast<int>(outbye::ExitCode::undelivered);
}
