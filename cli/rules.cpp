// outbye rules: the rule books with every number and how far it can be trusted; checks a book of one's own.
#include <algorithm>
#include <memory>
#include <string_view>

#include "cli/command_line.h"
#include "cli/plan_table.h"
#include "cli/text_layout.h"
#include "core/base/text.h"
#include "core/rules/rule_fields.h"
#include "formats/file_io/file_io.h"
#include "formats/rule_book/rule_book_file.h"

namespace outbye {
namespace {

struct RulesOptions {
  std::string book;
  std::string level;
  std::string file;
  bool json{};
};

constexpr const char* rules_of_the_day =
    "The rules of the day win: schedule, briefing and officials override every number here.";

std::string year_words(const RuleBook& book) { return book.year == 0 ? "no year" : std::to_string(book.year); }

// "hold  40 min  from memory; in force from 2020 on"; the words say what no colour says alone.
class LevelTable {
 public:
  explicit LevelTable(const Style& style) : style_(style) {}

  std::string of(const RuleLevel& level) {
    text_ = "\n" + style_.heading(cut_to(level.name, line_width)) + (level.is_novice ? "  (novices)" : "") + "\n";
    const std::size_t before = text_.size();
    each_level_rule([&](RuleField field, auto member) { row(field, level.*member); });
    gate("every vet gate", level.gate);
    for (const auto& [number, rules] : level.gates) gate("gate " + std::to_string(number), rules);
    gate("finish", level.finish);
    if (text_.size() == before) text_ += "  The book gives no number for this level.\n";
    return text_;
  }

 private:
  void gate(const std::string& name, const GateRules& rules) {
    const std::size_t before = text_.size();
    each_gate_rule([&](RuleField field, auto member) { row(field, rules.*member); });
    if (text_.size() != before) text_.insert(before, " " + name + "\n");
  }

  template <class T>
  void row(RuleField field, const Rule<T>& rule) {
    if (!rule) return;
    std::string trust = in_words(rule->mark);
    if (!rule->source.empty()) trust += "; " + rule->source;
    text_ += wrapped(trust, "  " + left(field.words, 30) + " " + left(in_words(rule->value), 16) + "  ");
  }

  Style style_;
  std::string text_;
};

std::string list_of_books(const Style& style) {
  std::string text = style.heading("Rule books") + "\n";
  for (const auto& book : preset_books()) {
    text += "\n  " + left(book.id, 14) + left(year_words(book), 8) + cut_to(book.name, 54) + "\n";
    std::string levels;
    for (const auto& level : book.levels) levels += (levels.empty() ? "" : "; ") + level.name;
    text += wrapped(levels, "                        ");
  }
  text += "\n" + wrapped(
                     "`outbye rules BOOK` shows every number, how far it can be trusted and what was read. A ride "
                     "file names book and level under \"rules\", and sets there what the event sets.");
  return text + wrapped(rules_of_the_day);
}

std::string shown(const RuleBook& book, const Style& style) {
  std::string text = style.heading(cut_to(book.name, line_width)) + "\n";
  if (!book.body.empty()) text += wrapped("Of " + book.body);
  text += wrapped("Id " + book.id + "; " + (book.year == 0 ? "year not known" : year_words(book)));
  text += wrapped("Source: " + book.source);
  LevelTable table(style);
  for (const auto& level : book.levels) text += table.of(level);
  text += list_section("What the numbers leave open", book.notes, style);
  return text + "\n" +
         wrapped(
             "published: stated in the source; derived: worked out from it; from memory: not looked up; common "
             "practice: a habit of the trade, no rule. Ask the officials about all but the first.") +
         wrapped(rules_of_the_day);
}

Json json_list() {
  Json list = Json::array();
  for (const auto& book : preset_books()) {
    Json item{{"id", book.id}, {"name", book.name}};
    if (book.year != 0) item["year"] = book.year;
    item["levels"] = Json::array();
    for (const auto& level : book.levels) item["levels"].push_back(level.name);
    list.push_back(std::move(item));
  }
  return {{"format", "outbye rules"}, {"version", 1}, {"books", std::move(list)}, {"note", rules_of_the_day}};
}

Problem unknown(const std::string& where, const std::string& name, const std::string& kind,
                const std::vector<std::string_view>& names) {
  std::string what = "'" + name + "' is no " + kind;
  if (const auto nearest = nearest_name(name, names)) {
    what += "; did you mean '" + std::string(*nearest) + "'?";
  } else {
    what += "; there are";
    for (const auto known : names) what += (known == names.front() ? " '" : ", '") + std::string(known) + "'";
  }
  return {Problem::Kind::not_found, where, what};
}

RuleBookReading book_of(const RulesOptions& options) {
  if (!options.file.empty()) {
    const auto text = read_whole_file(options.file, 10'000'000);
    if (!text) return {std::nullopt, {text.error()}};
    return check_rule_book(*text, options.file);
  }
  std::vector<std::string_view> ids;
  for (const auto& book : preset_books()) {
    if (same_name(book.id, options.book)) return {book, {}};
    ids.push_back(book.id);
  }
  return {std::nullopt, {unknown("BOOK", options.book, "rule book", ids)}};
}

ExitCode rules(const RulesOptions& options, Console& console) {
  const Style style = console.style_of_output();
  if (!options.book.empty() && !options.file.empty()) {
    return console.report(Problem{Problem::Kind::bad_input, "--file", "goes without BOOK: the file is the book"});
  }
  if (options.book.empty() && options.file.empty()) {
    if (!options.level.empty()) {
      return console.report(Problem{Problem::Kind::bad_input, "--level", "needs a BOOK; `outbye rules` lists them"});
    }
    console.print(options.json ? pretty_json(json_list()) : list_of_books(style));
    return ExitCode::good;
  }
  auto reading = book_of(options);
  if (!reading.book) return console.report(reading.problems);
  RuleBook& book = *reading.book;
  if (!options.level.empty()) {
    std::vector<std::string_view> names;
    for (const auto& level : book.levels) names.push_back(level.name);
    const auto level = std::find_if(book.levels.begin(), book.levels.end(),
                                    [&](const RuleLevel& known) { return same_name(known.name, options.level); });
    if (level == book.levels.end()) {
      return console.report(unknown("--level", options.level, "level of '" + book.id + "'", names));
    }
    book.levels = {RuleLevel(*level)};
  }
  console.print(options.json ? write_rule_book(book) : shown(book, style));
  return ExitCode::good;
}

}  // namespace

Command add_rules(CLI::App& all) {
  auto options = std::make_shared<RulesOptions>();
  CLI::App* app = all.add_subcommand(
      "rules",
      "Show rule books: what a body asks at each level, with how far each number can be trusted and what was read. "
      "Without a book: the list of them. The rules of the day win.");
  app->add_option("BOOK", options->book, "A book of the list, such as british")->type_name("BOOK");
  app->add_option("--level", options->level, "Only this level of the book")->type_name("NAME");
  app->add_option("--file", options->file, "Check and show a rule book of your own (JSON)")->type_name("FILE");
  add_json_flag(*app, options->json);
  app->footer(
      "Example: outbye rules british --level \"Novice graded\"\n"
      "         outbye rules --file my-rules.json");
  return {app, [options](Console& console) { return rules(*options, console); }};
}

}  // namespace outbye
