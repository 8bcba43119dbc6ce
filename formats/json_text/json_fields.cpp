#include "formats/json_text/json_fields.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"

namespace outbye {
namespace {

std::string kind_of(const Json& value) {
  if (value.is_string()) return "text";
  if (value.is_number()) return "a number";
  if (value.is_boolean()) return "true or false";
  if (value.is_array()) return "a list";
  if (value.is_object()) return "an object";
  return "null";
}

std::string written(double value) {
  Json number = value;
  std::string text = number.dump();
  if (text.size() > 2 && text.substr(text.size() - 2) == ".0") text.erase(text.size() - 2);
  return text;
}

std::string in_words(Range range) {
  if (range.above_from && !std::isfinite(range.to)) return "above " + written(range.from);
  if (!std::isfinite(range.to)) return written(range.from) + " or more";
  if (range.above_from) return "above " + written(range.from) + " and at most " + written(range.to);
  return "between " + written(range.from) + " and " + written(range.to);
}

}  // namespace

JsonFields::JsonFields(const Json& value, std::string file, std::string path, Problems& problems)
    : file_(std::move(file)), path_(std::move(path)), problems_(problems) {
  if (value.is_object()) {
    value_ = &value;
  } else {
    report_at(path_, "is " + kind_of(value) + ", but an object {...} is wanted here");
  }
}

std::string JsonFields::path_of(std::string_view name) const {
  return path_.empty() ? std::string(name) : path_ + "." + std::string(name);
}

void JsonFields::report_at(const std::string& path, std::string what) {
  problems_.push_back({Problem::Kind::bad_input, path.empty() ? file_ : file_ + ": " + path, std::move(what)});
}

void JsonFields::report(std::string_view name, std::string what) { report_at(path_of(name), std::move(what)); }

const Json* JsonFields::find(std::string_view name) {
  known_.emplace_back(name);
  if (value_ == nullptr) return nullptr;
  const auto it = value_->find(std::string(name));
  return it == value_->end() || it->is_null() ? nullptr : &*it;
}

void JsonFields::require(std::string_view name, std::string_view why) {
  if (value_ != nullptr && find(name) == nullptr) report(name, "is missing; " + std::string(why));
}

void JsonFields::text(std::string_view name, std::string& into, bool may_be_empty) {
  const Json* field = find(name);
  if (field == nullptr) return;
  if (!field->is_string()) return report(name, "is " + kind_of(*field) + ", but text in quotes is wanted");
  const auto& value = field->get_ref<const std::string&>();
  if (!may_be_empty && trimmed(value).empty()) return report(name, "is empty; write a name or leave the field out");
  into = value;
}

void JsonFields::text(std::string_view name, std::optional<std::string>& into) {
  std::string value;
  if (find(name) == nullptr) return;
  text(name, value);
  if (!value.empty()) into = value;
}

void JsonFields::identifier(std::string_view name, std::string& into) {
  text(name, into);
  if (into.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-_") != std::string::npos) {
    report(name, "is '" + into + "', but must be of small letters, digits, - and _");
  }
}

void JsonFields::country(std::string_view name, std::string& into, bool may_be_empty) {
  text(name, into, may_be_empty);
  if (may_be_empty && into.empty()) return;
  if (into.size() != 2 || into.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") != std::string::npos) {
    report(name, "is '" + into + "', but must be two capital letters such as GB or DE (ISO 3166-1)");
  }
}

void JsonFields::flag(std::string_view name, bool& into) {
  const Json* field = find(name);
  if (field == nullptr) return;
  if (!field->is_boolean()) return report(name, "is " + kind_of(*field) + ", but true or false is wanted");
  into = field->get<bool>();
}

std::optional<double> JsonFields::number_of(const Json& item, const std::string& path, Range range) {
  if (!item.is_number()) {
    const bool quoted = item.is_string() && parse_decimal(item.get_ref<const std::string&>());
    report_at(path, "is " + kind_of(item) + ", but a number " + (quoted ? "without quotes " : "") + "is wanted");
    return std::nullopt;
  }
  const auto value = item.get<double>();
  const bool low = range.above_from ? value <= range.from : value < range.from;
  if (!std::isfinite(value) || low || value > range.to) {
    report_at(path, "is " + written(value) + ", but must be " + in_words(range));
    return std::nullopt;
  }
  return value;
}

void JsonFields::number(std::string_view name, Range range, const std::function<void(double)>& set) {
  const Json* field = find(name);
  if (field == nullptr) return;
  if (const auto value = number_of(*field, path_of(name), range)) set(*value);
}

void JsonFields::whole(std::string_view name, std::uint64_t from, std::uint64_t to,
                       const std::function<void(std::uint64_t)>& set) {
  const Json* field = find(name);
  if (field == nullptr) return;
  if (!field->is_number_unsigned() || field->get<std::uint64_t>() < from || field->get<std::uint64_t>() > to) {
    const std::string is = field->is_number() ? field->dump() : kind_of(*field);
    return report(name, "is " + is + ", but must be a whole number between " + std::to_string(from) + " and " +
                            std::to_string(to));
  }
  set(field->get<std::uint64_t>());
}

void JsonFields::items(std::string_view name, const std::function<void(const Json&, std::string)>& each) {
  const Json* field = find(name);
  if (field == nullptr) return;
  if (!field->is_array()) return report(name, "is " + kind_of(*field) + ", but a list [...] is wanted");
  for (std::size_t i = 0; i < field->size(); ++i) {
    each((*field)[i], path_of(name) + "[" + std::to_string(i) + "]");
  }
}

void JsonFields::texts(std::string_view name, std::vector<std::string>& into) {
  if (find(name) == nullptr) return;
  into.clear();
  items(name, [&](const Json& item, const std::string& path) {
    if (!item.is_string()) return report_at(path, "is " + kind_of(item) + ", but text in quotes is wanted");
    if (trimmed(item.get_ref<const std::string&>()).empty()) return report_at(path, "is empty; remove it");
    into.push_back(item.get<std::string>());
  });
}

void JsonFields::finish() {
  if (value_ == nullptr) return;
  const std::vector<std::string_view> known(known_.begin(), known_.end());
  for (const auto& [name, item] : value_->items()) {
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    std::string what = "is not a known field";
    if (const auto nearest = nearest_name(name, known)) {
      what += "; did you mean '" + std::string(*nearest) + "'?";
    } else {
      std::vector<std::string> sorted(known_.begin(), known_.end());
      std::sort(sorted.begin(), sorted.end());
      sorted.erase(std::unique(sorted.begin(), sorted.end()), sorted.end());
      what += "; known here:";
      for (const auto& candidate : sorted) what += " " + candidate;
    }
    report(name, what);
  }
}

}  // namespace outbye
