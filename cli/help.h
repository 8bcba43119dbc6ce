// What the table of subcommands says of itself: help in 80 columns, and the option list that completions and manual
// pages are made from.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace outbye {

struct OptionText {
  std::vector<std::string> names;    // "-h", "--help"; empty for a positional argument
  std::string value;                 // "FILE"; empty for a flag
  std::vector<std::string> choices;  // when the value is one of a few words
  std::string description;
  bool is_positional{};
  bool is_required{};
  bool is_repeated{};
  bool is_given{};  // on this command line
};
std::vector<OptionText> options_of(const CLI::App& app);
std::vector<const CLI::App*> subcommands_of(const CLI::App& app);  // in the order defined

// "outbye plan"
std::string program_of(const CLI::App& app);
// "outbye plan RIDE.json [OPTIONS]"
std::string usage_of(const CLI::App& app);
std::string help_text(const CLI::App& app);

// "Could not convert: --x = y" -> "could not convert: --x = y"
std::string one_clause(std::string sentence);

}  // namespace outbye
