// Takes the fields of a JSON object one by one, with their kinds and ranges, and collects every problem with its path.
// A field that was not asked for is unknown: finish() refuses it with the nearest known name.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "formats/json_text/json_text.h"

namespace outbye {

using Problems = std::vector<Problem>;

struct Range {
  double from{};
  double to{};
  bool above_from{};  // from itself is refused: "above 0"
};

class JsonFields {
 public:
  // `value` must outlive this. `path`: "" for the document, "horses[0]" inside. Not an object: a problem at once.
  JsonFields(const Json& value, std::string file, std::string path, Problems& problems);

  // The field, or null when absent or written as null. Marks the name as known.
  const Json* find(std::string_view name);
  void require(std::string_view name, std::string_view why);  // a problem when absent

  // Each leaves `into` alone when the field is absent, and reports a wrong kind or range.
  void text(std::string_view name, std::string& into, bool may_be_empty = false);
  void text(std::string_view name, std::optional<std::string>& into);
  // A short name by which other files call it: small letters, digits, - and _.
  void identifier(std::string_view name, std::string& into);
  // ISO 3166-1, two capital letters. An empty one is refused unless it may be.
  void country(std::string_view name, std::string& into, bool may_be_empty = false);
  void flag(std::string_view name, bool& into);
  void number(std::string_view name, Range range, const std::function<void(double)>& set);
  void whole(std::string_view name, std::uint64_t from, std::uint64_t to,
             const std::function<void(std::uint64_t)>& set);
  void texts(std::string_view name, std::vector<std::string>& into);
  // Calls `each` with every item of an array and its path, "cars[2]".
  void items(std::string_view name, const std::function<void(const Json&, std::string)>& each);
  // Reads an item that must be a number in range: for arrays of numbers.
  std::optional<double> number_of(const Json& item, const std::string& path, Range range);

  void report(std::string_view name, std::string what);  // at a field of this object
  void finish();                                         // unknown fields

  std::string path_of(std::string_view name) const;
  const std::string& file() const { return file_; }
  Problems& problems() const { return problems_; }

 private:
  void report_at(const std::string& path, std::string what);

  const Json* value_{};
  std::string file_;
  std::string path_;
  Problems& problems_;
  std::vector<std::string> known_;
};

}  // namespace outbye
