#include "formats/json_text/json_text.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

#include "core/base/text.h"

namespace outbye {
namespace {

constexpr std::size_t deepest = 64;
constexpr std::size_t widest = 100;

// "line 3, column 14" of a byte; columns count characters, not bytes.
std::string place_in(std::string_view text, std::size_t byte) {
  byte = std::min(byte, text.size());
  std::size_t line = 1;
  std::size_t start = 0;
  for (std::size_t i = 0; i < byte; ++i) {
    if (text[i] == '\n') {
      ++line;
      start = i + 1;
    }
  }
  return "line " + std::to_string(line) + ", column " +
         std::to_string(display_width(text.substr(start, byte - start)) + 1);
}

// Nesting outside strings; checked first so that a hostile file cannot exhaust the stack of a recursive walk.
std::optional<std::size_t> too_deep_at(std::string_view text) {
  std::size_t depth = 0;
  bool in_string = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_string) {
      if (c == '\\') ++i;
      if (c == '"') in_string = false;
    } else if (c == '"') {
      in_string = true;
    } else if (c == '{' || c == '[') {
      if (++depth > deepest) return i;
    } else if ((c == '}' || c == ']') && depth > 0) {
      --depth;
    }
  }
  return std::nullopt;
}

// The library's message without its number and place: "unexpected '}'; expected string literal".
std::string plain_reason(std::string message) {
  for (const char* mark : {"syntax error while parsing ", " - "}) {
    if (const auto at = message.find(mark); at != std::string::npos) {
      message.erase(0, at + std::string_view(mark).size());
    }
  }
  return message;
}

// Reads again what could not be read, for where and why: this way needs no exceptions, which WebAssembly does without.
class ErrorPlace : public nlohmann::json_sax<Json> {
 public:
  std::size_t byte{};  // 1-based
  bool has_place{};
  std::string message;

  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override { return true; }
  bool key(string_t&) override { return true; }
  bool end_object() override { return true; }
  bool start_array(std::size_t) override { return true; }
  bool end_array() override { return true; }
  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception& error) override {
    byte = position;
    has_place = error.id > 100 && error.id < 200;  // the library's numbers of parse errors
    message = error.what();
    return false;
  }
};

std::string on_one_line(const Json& value) {
  if (value.is_object()) {
    if (value.empty()) return "{}";
    std::string text = "{";
    const char* separator = "";
    for (const auto& [name, item] : value.items()) {
      text += separator + Json(name).dump() + ": " + on_one_line(item);
      separator = ", ";
    }
    return text + "}";
  }
  if (value.is_array()) {
    std::string text = "[";
    const char* separator = "";
    for (const auto& item : value) {
      text += separator + on_one_line(item);
      separator = ", ";
    }
    return text + "]";
  }
  return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::size_t height(const Json& value) {
  std::size_t below = 0;
  if (!value.is_structured()) return 0;
  for (const auto& item : value) below = std::max(below, height(item));
  return below + 1;
}

bool is_list_of_sentences(const Json& value) {
  return value.is_array() && value.size() > 1 && std::any_of(value.begin(), value.end(), [](const Json& item) {
           return item.is_string() && item.get_ref<const std::string&>().size() > 30;
         });
}

void write(const Json& value, std::size_t indent, std::string& text) {
  const bool short_enough = height(value) <= 2 && indent > 0 && !is_list_of_sentences(value);
  if (!value.is_structured() || value.empty()) {
    text += on_one_line(value);
    return;
  }
  if (short_enough) {
    const std::string line = on_one_line(value);
    if (indent + display_width(line) <= widest) {
      text += line;
      return;
    }
  }
  const std::string pad(indent + 2, ' ');
  text += value.is_object() ? "{" : "[";
  const char* separator = "\n";
  for (const auto& [name, item] : value.items()) {
    text += separator + pad;
    if (value.is_object()) text += Json(name).dump() + ": ";
    write(item, indent + 2, text);
    separator = ",\n";
  }
  text += "\n" + std::string(indent, ' ');
  text += value.is_object() ? "}" : "]";
}

}  // namespace

Result<Json> parse_json(std::string_view text, const std::string& file) {
  if (const auto at = too_deep_at(text)) {
    return bad_input(file + ", " + place_in(text, *at),
                     "is nested more than 64 levels deep; this is no file of outbye");
  }
  if (trimmed(text).empty()) return bad_input(file, "is empty; `outbye new` makes a ride file");
  std::vector<std::set<std::string>> names;
  std::string twice;
  const Json::parser_callback_t watch = [&](int, Json::parse_event_t event, Json& parsed) {
    if (event == Json::parse_event_t::object_start) names.emplace_back();
    if (event == Json::parse_event_t::object_end) names.pop_back();
    if (event == Json::parse_event_t::key && twice.empty()) {
      const auto& name = parsed.get_ref<const std::string&>();
      if (!names.back().insert(name).second) twice = name;
    }
    return true;
  };
  Json value = Json::parse(text.begin(), text.end(), watch, false);
  if (!value.is_discarded()) {
    if (!twice.empty()) return bad_input(file + ": " + twice, "is written twice in one object; keep one");
    return value;
  }
  ErrorPlace error;
  Json::sax_parse(text.begin(), text.end(), &error);
  const std::string where = error.has_place ? file + ", " + place_in(text, error.byte > 0 ? error.byte - 1 : 0) : file;
  return bad_input(where, "is not JSON: " + plain_reason(error.message));
}

std::string pretty_json(const Json& value) {
  std::string text;
  write(value, 0, text);
  return text + "\n";
}

Json plain_number(double value) {
  if (std::fabs(value) < 1e15 && value == std::floor(value)) return static_cast<std::int64_t>(value);
  return value;
}

}  // namespace outbye
