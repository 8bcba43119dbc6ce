#include "server/http/target.h"

#include <cstdint>

namespace outbye {
namespace {

int hex_value(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

// RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF.
bool is_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto first = static_cast<unsigned char>(text[i]);
    const std::size_t length = first < 0x80 ? 1 : first >> 5 == 6 ? 2 : first >> 4 == 14 ? 3 : first >> 3 == 30 ? 4 : 0;
    if (length == 0 || i + length > text.size()) return false;
    std::uint32_t value = length == 1 ? first : first & (0x7FU >> length);
    for (std::size_t k = 1; k < length; ++k) {
      const auto next = static_cast<unsigned char>(text[i + k]);
      if (next >> 6 != 2) return false;
      value = value << 6 | (next & 0x3FU);
    }
    constexpr std::uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    if (value < least[length] || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) return false;
    i += length;
  }
  return true;
}

std::optional<std::string> decoded(std::string_view text, bool plus_is_space) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c == '%') {
      if (i + 2 >= text.size()) return std::nullopt;
      const int high = hex_value(text[i + 1]);
      const int low = hex_value(text[i + 2]);
      if (high < 0 || low < 0) return std::nullopt;
      c = static_cast<char>(high * 16 + low);
      i += 2;
    } else if (c == '+' && plus_is_space) {
      c = ' ';
    }
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7F) return std::nullopt;
    out += c;
  }
  if (!is_utf8(out)) return std::nullopt;
  return out;
}

bool is_plain(const std::string& segment) {
  return segment != "." && segment != ".." && segment.find_first_of("/\\") == std::string::npos;
}

}  // namespace

std::optional<Target> parse_target(std::string_view target) {
  if (target.empty() || target.front() != '/' || target.size() > 4096) return std::nullopt;
  if (target.find('#') != std::string_view::npos) return std::nullopt;
  Target parsed;
  std::string_view query;
  if (const auto cut = target.find('?'); cut != std::string_view::npos) {
    query = target.substr(cut + 1);
    target = target.substr(0, cut);
  }
  std::string_view rest = target.substr(1);
  while (!rest.empty() || target.back() == '/') {
    const auto cut = rest.find('/');
    auto segment = decoded(rest.substr(0, cut), false);
    if (!segment || !is_plain(*segment)) return std::nullopt;
    parsed.path.push_back(std::move(*segment));
    if (cut == std::string_view::npos) break;
    rest = rest.substr(cut + 1);
  }
  if (parsed.path.size() == 1 && parsed.path.front().empty()) parsed.path.clear();
  while (!query.empty()) {
    const auto cut = query.find('&');
    const std::string_view pair = query.substr(0, cut);
    const auto equals = pair.find('=');
    auto name = decoded(pair.substr(0, equals), true);
    auto value = decoded(equals == std::string_view::npos ? std::string_view() : pair.substr(equals + 1), true);
    if (!name || !value) return std::nullopt;
    parsed.query[*name] = *value;
    query = cut == std::string_view::npos ? std::string_view() : query.substr(cut + 1);
  }
  return parsed;
}

std::string encoded(std::string_view segment) {
  constexpr char digits[] = "0123456789ABCDEF";
  std::string out;
  for (const char c : segment) {
    const bool is_letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    if (is_letter || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '_' || c == '~') {
      out += c;
      continue;
    }
    const auto byte = static_cast<unsigned char>(c);
    out += '%';
    out += digits[byte >> 4];
    out += digits[byte & 15];
  }
  return out;
}

}  // namespace outbye
