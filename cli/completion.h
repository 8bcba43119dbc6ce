// Shell completions made from the table of subcommands.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace outbye {

std::string bash_completion(const CLI::App& all);
std::string zsh_completion(const CLI::App& all);
std::string fish_completion(const CLI::App& all);

}  // namespace outbye
