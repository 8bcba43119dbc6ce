// outbye manual: manual pages (man(7)) made from the table of subcommands.
#include <filesystem>
#include <memory>
#include <sstream>

#include "cli/command_line.h"
#include "cli/help.h"
#include "formats/file_io/file_io.h"

namespace outbye {
namespace {

// A text as troff takes it: no control line, no escape, and a hyphen that stays one.
std::string plain(const std::string& text) {
  std::string safe;
  if (!text.empty() && (text[0] == '.' || text[0] == '\'')) safe = "\\&";
  for (const char c : text) {
    if (c == '\\') {
      safe += "\\e";
    } else if (c == '-') {
      safe += "\\-";
    } else {
      safe += c;
    }
  }
  return safe;
}

std::string option_entry(const OptionText& option) {
  std::string term;
  for (const auto& name : option.names) term += (term.empty() ? "" : ", ") + std::string("\\fB") + plain(name) + "\\fR";
  if (!option.value.empty()) term += (term.empty() ? "" : " ") + std::string("\\fI") + plain(option.value) + "\\fR";
  std::string text = ".TP\n" + term + "\n" + plain(option.description);
  if (option.is_repeated) text += " (may be given more than once)";
  return text + "\n";
}

std::string examples(const std::string& footer) {
  std::string text = ".SH EXAMPLES\n.nf\n";
  std::istringstream lines(footer);
  for (std::string line; std::getline(lines, line);) {
    const std::string mark = "Example: ";
    if (line.substr(0, mark.size()) == mark) line.erase(0, mark.size());
    if (const auto start = line.find_first_not_of(' '); start != std::string::npos) line.erase(0, start);
    text += plain(line) + "\n";
  }
  return text + ".fi\n";
}

constexpr const char* exit_status =
    ".SH EXIT STATUS\n"
    ".TP\n0\nThe answer is there.\n"
    ".TP\n1\nIt could not be delivered: a full disk, a closed output, a fault of outbye itself.\n"
    ".TP\n2\nThe input is wrong or asks for the impossible. The message says where and what to do; nothing was "
    "written.\n";

constexpr const char* environment =
    ".SH ENVIRONMENT\n"
    ".TP\n\\fBNO_COLOR\\fR\nWhen set and not empty: no colours (unless \\fB\\-\\-color always\\fR).\n"
    ".TP\n\\fBOUTBYE_CACHE\\fR\nFolder for imported road maps; else \\fI$XDG_CACHE_HOME/outbye\\fR, else "
    "\\fI~/.cache/outbye\\fR.\n"
    ".TP\n\\fBTZ\\fR\nTime zone of this machine, for the default of \\fBoutbye new\\fR.\n";

std::string page(const CLI::App& app) {
  std::string name = program_of(app);
  for (char& c : name) {
    if (c == ' ') c = '-';
  }
  std::string title = name;
  for (char& c : title) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  const std::string description = app.get_description();
  const std::string first = one_clause(description.substr(0, description.find(". ")));
  std::string text = ".TH " + title + " 1 \"2026-06-01\" \"outbye " + OUTBYE_VERSION + "\" \"Outbye\"\n";
  text += ".SH NAME\n" + plain(name) + " \\- " + plain(first) + "\n";
  text += ".SH SYNOPSIS\n\\fB" + plain(program_of(app)) + "\\fR" + plain(usage_of(app).substr(program_of(app).size())) +
          "\n";
  text += ".SH DESCRIPTION\n" + plain(description) + "\n";
  const auto subcommands = subcommands_of(app);
  if (!subcommands.empty()) {
    text += ".SH SUBCOMMANDS\n";
    for (const auto* sub : subcommands) {
      text += ".TP\n\\fB" + plain(sub->get_name()) + "\\fR\n" + plain(sub->get_description()) + "\n";
    }
  }
  std::string arguments;
  std::string options;
  for (const auto& option : options_of(app)) (option.is_positional ? arguments : options) += option_entry(option);
  if (!arguments.empty()) text += ".SH ARGUMENTS\n" + arguments;
  if (!options.empty()) text += ".SH OPTIONS\n" + options;
  text += exit_status;
  if (!subcommands.empty()) text += environment;
  if (!app.get_footer().empty()) text += examples(app.get_footer());
  if (subcommands.empty()) {
    text += ".SH SEE ALSO\n\\fBoutbye\\fR(1)\n";
  } else {
    text += ".SH SEE ALSO\n";
    for (std::size_t i = 0; i < subcommands.size(); ++i) {
      text += "\\fBoutbye\\-" + subcommands[i]->get_name() + "\\fR(1)" + (i + 1 < subcommands.size() ? ",\n" : "\n");
    }
  }
  return text;
}

ExitCode write_pages(const CLI::App& all, const std::string& folder, Console& console) {
  namespace fs = std::filesystem;
  std::error_code error;
  if (!fs::is_directory(folder, error)) {
    return console.report(Problem{Problem::Kind::bad_input, folder, "is not a folder; make it first"});
  }
  std::vector<const CLI::App*> apps{&all};
  for (const auto* sub : subcommands_of(all)) apps.push_back(sub);
  for (const auto* app : apps) {
    std::string name = program_of(*app);
    for (char& c : name) {
      if (c == ' ') c = '-';
    }
    const std::string path = (fs::path(folder) / (name + ".1")).string();
    if (auto ok = write_whole_file(path, page(*app), Existing::replace); !ok) return console.report(ok.error());
    console.print(path + "\n");
  }
  return ExitCode::good;
}

}  // namespace

Command add_manual(CLI::App& all) {
  auto folder = std::make_shared<std::string>();
  CLI::App* app = all.add_subcommand(
      "manual",
      "Write the manual pages into a folder. They are made from the same table as this help; pages of the same "
      "name there are replaced.");
  app->add_option("DIR", *folder, "The folder, such as ~/.local/share/man/man1")->required()->type_name("DIR");
  app->footer("Example: outbye manual ~/.local/share/man/man1");
  return {app, [folder, &all](Console& console) { return write_pages(all, *folder, console); }};
}

}  // namespace outbye
