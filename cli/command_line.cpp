#include "cli/command_line.h"

#include <algorithm>

#include "cli/help.h"
#include "core/base/text.h"

namespace outbye {
namespace {

bool starts_with(std::string_view text, std::string_view start) { return text.substr(0, start.size()) == start; }

// "; did you mean '--speed'?"
std::string nearest_option(const CLI::App& app, const std::string& word) {
  std::vector<std::string> names;
  for (const auto& option : options_of(app)) names.insert(names.end(), option.names.begin(), option.names.end());
  const std::vector<std::string_view> views(names.begin(), names.end());
  const std::string name = word.substr(0, word.find('='));
  if (const auto nearest = nearest_name(name, views)) return "; did you mean '" + std::string(*nearest) + "'?";
  return "; `" + program_of(app) + " --help` lists what there is";
}

}  // namespace

CommandLine::CommandLine()
    : all_(
          "Plans the crewing of an endurance ride: when the horse is where, which crew points "
          "each car makes, when it must leave, and what to do when it slips.",
          "outbye") {
  all_.set_help_flag("-h,--help", "Show this help");
  all_.set_version_flag("--version", std::string("outbye ") + OUTBYE_VERSION, "Show the version");
  all_.footer(
      "Example: outbye new ride.json --course course.gpx --roads map.osm.pbf\n"
      "         outbye plan ride.json");
  for (const auto add :
       {add_new, add_check, add_plan, add_heat, add_kit, add_day, add_gate, add_jobs, add_load, add_roads, add_rules,
        add_export, add_print, add_pack, add_serve, add_completion, add_manual}) {
    commands_.push_back(add(all_));
    CLI::App& app = *commands_.back().app;
    app.set_help_flag("-h,--help", "Show this help");
    add_choice(app, "--color", colour_, {"never", "auto", "always"},
               "Colours; auto: on a terminal, unless NO_COLOR is set");
  }
}

ExitCode CommandLine::refuse(const std::string& what) {
  return console_.report(Problem{Problem::Kind::bad_input, "command line", what});
}

ExitCode CommandLine::refuse(const CLI::ParseError& error, const CLI::App& app, const std::vector<std::string>& words) {
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
    const auto extras = all_.remaining(true);
    const std::string word = extras.empty() ? words.back() : extras.front();
    if (starts_with(word, "-")) return refuse("'" + word + "' is not an option" + nearest_option(app, word));
    return refuse("'" + word + "' is one argument too many; `" + program_of(app) + " --help` shows what it takes");
  }
  if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr) {
    for (const auto& option : options_of(app)) {
      if (!option.is_required || option.is_given) continue;
      const std::string name = option.is_positional ? option.value : option.names.front();
      return refuse("needs " + name + " (" + option.description + "); `" + program_of(app) + " --help` shows how");
    }
  }
  std::string what = error.what();
  // The library's sentences begin with a capital and end anyhow; ours are one clause with a remedy.
  return refuse(one_clause(what) + "; `" + program_of(app) + " --help` shows what it takes");
}

ExitCode CommandLine::run(int argc, const char* const* argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  if (words.empty()) {
    console_.print(help_text(all_));
    console_.flush();
    return ExitCode::refused;
  }
  std::vector<std::string_view> names;
  for (const auto& command : commands_) names.push_back(command.app->get_name());
  if (!starts_with(words[0], "-") && std::find(names.begin(), names.end(), words[0]) == names.end()) {
    const auto nearest = nearest_name(words[0], names);
    return refuse(
        "'" + words[0] + "' is not a subcommand" +
        (nearest ? "; did you mean 'outbye " + std::string(*nearest) + "'?" : "; `outbye --help` lists them"));
  }
  const CLI::App* asked = &all_;
  for (const auto& command : commands_) {
    if (command.app->get_name() == words[0]) asked = command.app;
  }
  try {
    auto reversed = words;
    std::reverse(reversed.begin(), reversed.end());  // as the library wants them
    all_.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    console_.print(help_text(*asked));
    return console_.flush();
  } catch (const CLI::CallForVersion& version) {
    console_.print(std::string(version.what()) + "\n");
    return console_.flush();
  } catch (const CLI::ParseError& error) {
    return refuse(error, *asked, words);
  }
  console_.wish_colour(colour_ == "never"    ? ColourWish::never
                       : colour_ == "always" ? ColourWish::always
                                             : ColourWish::when_terminal);
  for (const auto& command : commands_) {
    if (!command.app->parsed()) continue;
    const ExitCode code = command.run(console_);
    const ExitCode written = console_.flush();
    return std::max(code, written);
  }
  return refuse("name a subcommand; `outbye --help` lists them");
}

void add_json_flag(CLI::App& app, bool& into) { app.add_flag("--json", into, "Answer in JSON (docs/plan-json.md)"); }

CLI::Option* add_choice(CLI::App& app, const std::string& name, std::string& into,
                        const std::vector<std::string>& choices, const std::string& description) {
  std::string words;
  for (const auto& choice : choices) words += (words.empty() ? "" : "|") + choice;
  CLI::Option* option = app.add_option(name, into, description);
  option->type_name(words);
  option->check([choices, words](const std::string& value) {
    if (std::find(choices.begin(), choices.end(), value) != choices.end()) return std::string();
    return "'" + value + "' is not one of " + words;
  });
  return option;
}

CLI::Option* add_repeated(CLI::App& app, const std::string& name, std::vector<std::string>& into,
                          const std::string& description) {
  return app.add_option(name, into, description)->allow_extra_args(false);
}

Result<double> number_from(std::string_view text, const std::string& option, double above, double at_most) {
  const auto value = parse_decimal(text);
  const std::string range = "a number above " + fixed(above, 0) + " and at most " + fixed(at_most, 0);
  if (!value) return bad_input(option, "'" + std::string(text) + "' is not a number; give " + range);
  if (*value <= above || *value > at_most) {
    return bad_input(option, "is " + std::string(text) + ", but must be " + range);
  }
  return *value;
}

std::optional<Position> position_from(std::string_view text) {
  const auto comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const auto latitude = parse_decimal(trimmed(text.substr(0, comma)));
  const auto longitude = parse_decimal(trimmed(text.substr(comma + 1)));
  if (!latitude || !longitude) return std::nullopt;
  return Position{*latitude, *longitude};
}

bool is_on_earth(Position position) {
  return position.latitude >= -90 && position.latitude <= 90 && position.longitude >= -180 && position.longitude <= 180;
}

}  // namespace outbye
