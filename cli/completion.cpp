// outbye completion: what the shell offers after a tab.
#include "cli/completion.h"

#include <memory>

#include "cli/command_line.h"
#include "cli/help.h"

namespace outbye {
namespace {

std::string joined(const std::vector<std::string>& words, const std::string& separator = " ") {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : separator) + word;
  return text;
}

// 'text' for a shell: a quote inside ends the quotes, stands alone, and opens them again.
std::string in_quotes(const std::string& text) {
  std::string safe = "'";
  for (const char c : text) {
    if (c == '\'') {
      safe += "'\\''";
    } else {
      safe += c;
    }
  }
  return safe + "'";
}

std::string first_sentence(const std::string& text) { return text.substr(0, text.find(". ")); }

std::vector<std::string> subcommand_names(const CLI::App& all) {
  std::vector<std::string> names;
  for (const auto* sub : subcommands_of(all)) names.push_back(sub->get_name());
  return names;
}

std::vector<std::string> option_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const auto& option : options_of(app)) names.insert(names.end(), option.names.begin(), option.names.end());
  return names;
}

bool takes_folder(const OptionText& option) { return option.value == "DIR"; }
bool takes_file(const OptionText& option) { return option.value == "FILE"; }

}  // namespace

std::string bash_completion(const CLI::App& all) {
  std::string text =
      "# bash completion of outbye; load with: source <(outbye completion bash)\n"
      "_outbye() {\n"
      "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} sub=${COMP_WORDS[1]}\n"
      "  COMPREPLY=()\n"
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W " +
      in_quotes(joined(subcommand_names(all)) + " " + joined(option_names(all))) +
      " -- \"$word\"))\n"
      "    return\n"
      "  fi\n"
      "  local IFS=$'\\n'\n"
      "  case \"$sub $before\" in\n";
  for (const auto* sub : subcommands_of(all)) {
    for (const auto& option : options_of(*sub)) {
      if (option.is_positional || option.value.empty()) continue;
      std::string patterns;
      for (const auto& name : option.names) {
        patterns += (patterns.empty() ? "" : "|") + in_quotes(sub->get_name() + " " + name);
      }
      std::string action = ":";
      if (!option.choices.empty())
        action = "COMPREPLY=($(compgen -W $'" + joined(option.choices, "\\n") + "' -- \"$word\"))";
      if (takes_file(option)) action = "COMPREPLY=($(compgen -f -- \"$word\"))";
      if (takes_folder(option)) action = "COMPREPLY=($(compgen -d -- \"$word\"))";
      text += "    " + patterns + ") " + action + "; return ;;\n";
    }
  }
  text += "  esac\n  case \"$sub\" in\n";
  for (const auto* sub : subcommands_of(all)) {
    std::vector<std::string> positional_choices;
    for (const auto& option : options_of(*sub)) {
      if (option.is_positional) positional_choices = option.choices;
    }
    text += "    " + sub->get_name() + ")\n";
    text += "      if [[ $word == -* ]]; then\n";
    text += "        COMPREPLY=($(compgen -W $'" + joined(option_names(*sub), "\\n") + "' -- \"$word\"))\n";
    text += "      else\n";
    if (positional_choices.empty()) {
      text += "        COMPREPLY=($(compgen -f -- \"$word\"))\n";
    } else {
      text += "        COMPREPLY=($(compgen -W $'" + joined(positional_choices, "\\n") + "' -- \"$word\"))\n";
    }
    text += "      fi ;;\n";
  }
  text += "  esac\n}\ncomplete -o filenames -F _outbye outbye\n";
  return text;
}

std::string zsh_completion(const CLI::App& all) {
  // In a description a colon or bracket has a meaning of its own.
  const auto described = [](std::string words) {
    std::string safe;
    for (const char c : words) {
      if (c == ':' || c == '[' || c == ']' || c == '\\') safe += '\\';
      safe += c;
    }
    return safe;
  };
  std::string text =
      "#compdef outbye\n"
      "# zsh completion of outbye; put this file into a folder of $fpath under the name _outbye\n"
      "_outbye() {\n"
      "  local -a subcommands\n"
      "  subcommands=(\n";
  for (const auto* sub : subcommands_of(all)) {
    text += "    " + in_quotes(sub->get_name() + ":" + described(first_sentence(sub->get_description()))) + "\n";
  }
  text += "  )\n  if (( CURRENT == 2 )); then\n    _describe 'subcommand' subcommands\n    return\n  fi\n";
  text += "  local sub=$words[2]\n  shift words\n  (( CURRENT-- ))\n  case $sub in\n";
  for (const auto* sub : subcommands_of(all)) {
    text += "    " + sub->get_name() + ")\n      _arguments";
    int number = 0;
    for (const auto& option : options_of(*sub)) {
      std::string action = "_files";
      if (!option.choices.empty()) action = "(" + joined(option.choices) + ")";
      if (takes_folder(option)) action = "_files -/";
      if (!option.is_positional && !takes_file(option) && !takes_folder(option) && option.choices.empty()) action = " ";
      if (option.is_positional) {
        text +=
            " \\\n        " + in_quotes(std::to_string(++number) + ":" + described(option.description) + ":" + action);
        continue;
      }
      for (const auto& name : option.names) {
        std::string spec = (option.is_repeated ? "*" : "") + name + "[" + described(option.description) + "]";
        if (!option.value.empty()) spec += ":" + described(option.value) + ":" + action;
        text += " \\\n        " + in_quotes(spec);
      }
    }
    text += " ;;\n";
  }
  return text + "  esac\n}\n_outbye \"$@\"\n";
}

std::string fish_completion(const CLI::App& all) {
  std::string text = "# fish completion of outbye; save as ~/.config/fish/completions/outbye.fish\n";
  for (const auto* sub : subcommands_of(all)) {
    text += "complete -c outbye -f -n __fish_use_subcommand -a " + sub->get_name() + " -d " +
            in_quotes(first_sentence(sub->get_description())) + "\n";
  }
  for (const auto* sub : subcommands_of(all)) {
    const std::string when = "complete -c outbye -n '__fish_seen_subcommand_from " + sub->get_name() + "'";
    for (const auto& option : options_of(*sub)) {
      if (option.is_positional) {
        if (!option.choices.empty()) text += when + " -f -a " + in_quotes(joined(option.choices)) + "\n";
        continue;
      }
      std::string line = when;
      for (const auto& name : option.names) {
        line += name.substr(0, 2) == "--" ? " -l " + name.substr(2) : " -s " + name.substr(1);
      }
      if (!option.value.empty()) line += " -r";
      if (!option.value.empty() && !takes_file(option) && !takes_folder(option)) line += " -f";
      if (!option.choices.empty()) line += " -a " + in_quotes(joined(option.choices));
      text += line + " -d " + in_quotes(option.description) + "\n";
    }
  }
  return text;
}

Command add_completion(CLI::App& all) {
  auto shell = std::make_shared<std::string>();
  CLI::App* app = all.add_subcommand("completion",
                                     "Print completions for a shell. They are made from the same table as this help.");
  add_choice(*app, "SHELL", *shell, {"bash", "zsh", "fish"}, "The shell: bash, zsh or fish")->required();
  app->footer("Example: source <(outbye completion bash)");
  return {app, [shell, &all](Console& console) {
            console.print(*shell == "bash"  ? bash_completion(all)
                          : *shell == "zsh" ? zsh_completion(all)
                                            : fish_completion(all));
            return ExitCode::good;
          }};
}

}  // namespace outbye
