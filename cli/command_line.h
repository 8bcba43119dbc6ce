// The table of subcommands. Help, shell completions and manual pages are all made from it.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/console.h"
#include "core/base/result.h"
#include "core/geo/position.h"

namespace outbye {

// A subcommand: its options are defined on `app`, and `run` is called when it was asked for.
struct Command {
  CLI::App* app{};
  std::function<ExitCode(Console&)> run;
};

// Each in its own file.
Command add_new(CLI::App& all);
Command add_check(CLI::App& all);
Command add_plan(CLI::App& all);
Command add_heat(CLI::App& all);
Command add_kit(CLI::App& all);
Command add_day(CLI::App& all);
Command add_gate(CLI::App& all);
Command add_jobs(CLI::App& all);
Command add_load(CLI::App& all);
Command add_roads(CLI::App& all);
Command add_rules(CLI::App& all);
Command add_export(CLI::App& all);
Command add_print(CLI::App& all);
Command add_pack(CLI::App& all);
Command add_serve(CLI::App& all);
Command add_completion(CLI::App& all);
Command add_manual(CLI::App& all);

class CommandLine {
 public:
  CommandLine();
  ExitCode run(int argc, const char* const* argv);

 private:
  ExitCode refuse(const std::string& what);
  ExitCode refuse(const CLI::ParseError& error, const CLI::App& app, const std::vector<std::string>& words);

  CLI::App all_;
  std::vector<Command> commands_;
  Console console_;
  std::string colour_{"auto"};
};

// Pieces for defining options.

// --json
void add_json_flag(CLI::App& app, bool& into);
// One of a few words; the words are in the help and in the completions.
CLI::Option* add_choice(CLI::App& app, const std::string& name, std::string& into,
                        const std::vector<std::string>& choices, const std::string& description);
// May be given many times, one value each.
CLI::Option* add_repeated(CLI::App& app, const std::string& name, std::vector<std::string>& into,
                          const std::string& description);

// A number typed as the value of an option. Errors: bad_input at `option`, with the range.
Result<double> number_from(std::string_view text, const std::string& option, double above, double at_most);

// "54.52,-2.31": degrees north and east. Nothing when it is not two numbers; they may lie off the earth.
std::optional<Position> position_from(std::string_view text);
bool is_on_earth(Position position);

}  // namespace outbye
