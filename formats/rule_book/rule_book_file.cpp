#include "formats/rule_book/rule_book_file.h"

#include <utility>

#include "core/base/text.h"
#include "formats/rule_book/level_fields.h"

namespace outbye {
namespace {

void read_levels(JsonFields& in, RuleBook& book) {
  in.items("levels", [&](const Json& item, const std::string& path) {
    JsonFields at(item, in.file(), path, in.problems());
    RuleLevel level;
    at.require("name", "every level has a name");
    at.text("name", level.name);
    at.flag("novice", level.is_novice);
    read_rule_level_fields(at, level, ValueStyle::book);
    read_all_gates(at, level, ValueStyle::book);
    at.finish();
    for (const auto& earlier : book.levels) {
      if (same_name(earlier.name, level.name)) {
        at.report("name", "'" + level.name + "' is there twice; give each level a name of its own");
      }
    }
    book.levels.push_back(std::move(level));
  });
}

void read_head(JsonFields& in, RuleBook& book) {
  in.require("version", "write \"version\": 1");
  in.whole("version", 0, 1000000, [&](std::uint64_t version) {
    if (version != rule_book_version) {
      in.report("version",
                "is " + std::to_string(version) + "; this outbye reads version " + std::to_string(rule_book_version));
    }
  });
  in.require("id", "a short name without spaces, by which a ride names the book");
  in.identifier("id", book.id);
  in.require("name", "as people call the rules");
  in.text("name", book.name);
  in.text("body", book.body, true);
  in.country("country", book.country, true);
  in.whole("year", 1900, 2200, [&](std::uint64_t year) { book.year = static_cast<std::int32_t>(year); });
  in.require("source", "what the numbers were taken from, as a whole");
  in.text("source", book.source);
  in.texts("notes", book.notes);
}

}  // namespace

RuleBookReading check_rule_book(std::string_view text, const std::string& file) {
  const auto json = parse_json(text, file);
  if (!json) {
    Problem problem = json.error();
    // The parser's advice for an empty file is about ride files.
    if (trimmed(text).empty())
      problem.what = "is empty; `outbye rules british --json` shows what a rule book looks like";
    return {std::nullopt, {problem}};
  }
  Problems problems;
  RuleBook book;
  JsonFields in(*json, file, "", problems);
  read_head(in, book);
  in.require("levels", "a list with at least one level");
  read_levels(in, book);
  if (const Json* levels = in.find("levels"); levels != nullptr && levels->is_array() && levels->empty()) {
    in.report("levels", "is empty; a book has at least one level");
  }
  in.finish();
  if (!problems.empty()) return {std::nullopt, std::move(problems)};
  return {std::move(book), {}};
}

Result<RuleBook> read_rule_book(std::string_view text, const std::string& file) {
  auto reading = check_rule_book(text, file);
  if (!reading.book) return tl::make_unexpected(reading.problems.front());
  return std::move(*reading.book);
}

std::string write_rule_book(const RuleBook& book) {
  Json json{{"version", rule_book_version}, {"id", book.id}, {"name", book.name}};
  if (!book.body.empty()) json["body"] = book.body;
  if (!book.country.empty()) json["country"] = book.country;
  if (book.year != 0) json["year"] = book.year;
  json["source"] = book.source;
  if (!book.notes.empty()) json["notes"] = book.notes;
  json["levels"] = Json::array();
  for (const auto& level : book.levels) {
    Json item{{"name", level.name}};
    if (level.is_novice) item["novice"] = true;
    add_rule_level_fields(item, level, ValueStyle::book);
    add_all_gates(item, level, ValueStyle::book);
    json["levels"].push_back(std::move(item));
  }
  return pretty_json(json);
}

void read_rule_choice(JsonFields& in, RuleChoice& choice) {
  in.text("book", choice.book);
  in.text("level", choice.level);
  if (const Json* own = in.find("own")) {
    JsonFields at(*own, in.file(), in.path_of("own"), in.problems());
    read_rule_level_fields(at, choice.own, ValueStyle::own);
    at.finish();
  }
  read_all_gates(in, choice.own, ValueStyle::own);
  if (choice.book.empty() && !choice.level.empty()) {
    in.report("book", "is missing, but a level is named; name the book too (`outbye rules` lists them)");
  }
  in.finish();
}

Json write_rule_choice(const RuleChoice& choice) {
  Json json = Json::object();
  if (!choice.book.empty()) json["book"] = choice.book;
  if (!choice.level.empty()) json["level"] = choice.level;
  Json own = Json::object();
  add_rule_level_fields(own, choice.own, ValueStyle::own);
  if (!own.empty()) json["own"] = std::move(own);
  add_all_gates(json, choice.own, ValueStyle::own);
  return json;
}

}  // namespace outbye
