#include "cli/help.h"

#include <sstream>

#include "cli/text_layout.h"

namespace outbye {
namespace {

std::string names_and_value(const OptionText& option) {
  std::string text;
  for (const auto& name : option.names) text += (text.empty() ? "" : ", ") + name;
  if (!option.value.empty()) text += (text.empty() ? "" : " ") + option.value;
  return text;
}

std::string entry(const std::string& term, const std::string& description) {
  constexpr std::size_t column = 26;
  if (term.size() + 4 <= column) {
    std::string first = "  " + term;
    first.append(column - first.size(), ' ');
    return wrapped(description, first);
  }
  return "  " + term + "\n" + wrapped(description, std::string(column, ' '));
}

}  // namespace

std::vector<OptionText> options_of(const CLI::App& app) {
  std::vector<OptionText> options;
  for (const CLI::Option* option : app.get_options()) {
    OptionText text;
    text.is_positional = option->nonpositional() == false;
    if (!text.is_positional) {
      for (const auto& name : option->get_snames()) text.names.push_back("-" + name);
      for (const auto& name : option->get_lnames()) text.names.push_back("--" + name);
    }
    if (text.is_positional) {
      text.value = option->get_name(true, false);
    } else if (option->get_type_size() != 0) {
      text.value = option->get_type_name();
    }
    if (!text.is_positional && text.value.find('|') != std::string::npos) {
      std::istringstream words(text.value);
      for (std::string word; std::getline(words, word, '|');) text.choices.push_back(word);
    }
    if (text.is_positional && option->get_type_name().find('|') != std::string::npos) {
      std::istringstream words(option->get_type_name());
      for (std::string word; std::getline(words, word, '|');) text.choices.push_back(word);
    }
    text.description = option->get_description();
    text.is_required = option->get_required();
    text.is_repeated = option->get_items_expected_max() > 1 && !text.is_positional;
    text.is_given = option->count() > 0;
    options.push_back(std::move(text));
  }
  return options;
}

std::vector<const CLI::App*> subcommands_of(const CLI::App& app) {
  const auto found = app.get_subcommands([](const CLI::App*) { return true; });
  return {found.begin(), found.end()};
}

std::string program_of(const CLI::App& app) {
  return app.get_parent() == nullptr ? app.get_name() : program_of(*app.get_parent()) + " " + app.get_name();
}

std::string usage_of(const CLI::App& app) {
  if (!subcommands_of(app).empty()) return program_of(app) + " SUBCOMMAND [ARGUMENTS]";
  std::string usage = program_of(app);
  for (const auto& option : options_of(app)) {
    if (!option.is_positional) continue;
    usage += option.is_required ? " " + option.value : " [" + option.value + "]";
  }
  return usage + " [OPTIONS]";
}

std::string help_text(const CLI::App& app) {
  std::string text = wrapped(usage_of(app), "usage: ") + "\n" + wrapped(app.get_description());
  const auto subcommands = subcommands_of(app);
  if (!subcommands.empty()) text += "\nSubcommands (each has --help):\n";
  for (const auto* sub : subcommands) {
    const std::string all = sub->get_description();
    text += entry(sub->get_name(), all.substr(0, all.find(". ")));
  }
  const auto options = options_of(app);
  std::string arguments;
  std::string others;
  for (const auto& option : options) {
    std::string description = option.description;
    if (option.is_repeated) description += " (may be given more than once)";
    (option.is_positional ? arguments : others) += entry(names_and_value(option), description);
  }
  if (!arguments.empty()) text += "\nArguments:\n" + arguments;
  if (!others.empty()) text += "\nOptions:\n" + others;
  if (!app.get_footer().empty()) text += "\n" + app.get_footer() + "\n";
  return text;
}

std::string one_clause(std::string sentence) {
  if (sentence.size() > 1 && sentence[0] >= 'A' && sentence[0] <= 'Z' && sentence[1] >= 'a' && sentence[1] <= 'z') {
    sentence[0] = static_cast<char>(sentence[0] - 'A' + 'a');
  }
  while (!sentence.empty() && (sentence.back() == '.' || sentence.back() == '\n')) sentence.pop_back();
  return sentence;
}

}  // namespace outbye
