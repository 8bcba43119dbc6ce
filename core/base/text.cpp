#include "core/base/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <vector>

namespace outbye {
namespace {

char folded(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

// The shape [+-]digits[.digits][e[+-]digits], at least one digit before any exponent.
bool is_decimal(std::string_view text) {
  std::size_t i = 0;
  if (i < text.size() && (text[i] == '+' || text[i] == '-')) ++i;
  std::size_t digits = 0;
  for (; i < text.size() && is_digit(text[i]); ++i) ++digits;
  if (i < text.size() && text[i] == '.') {
    for (++i; i < text.size() && is_digit(text[i]); ++i) ++digits;
  }
  if (digits == 0) return false;
  if (i < text.size() && (text[i] == 'e' || text[i] == 'E')) {
    ++i;
    if (i < text.size() && (text[i] == '+' || text[i] == '-')) ++i;
    if (i == text.size()) return false;
    while (i < text.size() && is_digit(text[i])) ++i;
  }
  return i == text.size();
}

struct CodeRange {
  std::uint32_t from, to;
};
constexpr CodeRange zero_width[] = {{0x300, 0x36F},   {0x483, 0x489},   {0x591, 0x5BD},   {0x610, 0x61A},
                                    {0x64B, 0x65F},   {0x200B, 0x200F}, {0x202A, 0x202E}, {0x20D0, 0x20FF},
                                    {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}};
constexpr CodeRange double_width[] = {{0x1100, 0x115F},   {0x2E80, 0xA4CF},  {0xAC00, 0xD7A3}, {0xF900, 0xFAFF},
                                      {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},  {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F},
                                      {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD}};

template <std::size_t N>
bool is_in(const CodeRange (&ranges)[N], std::uint32_t code) {
  return std::any_of(std::begin(ranges), std::end(ranges),
                     [code](const CodeRange& r) { return code >= r.from && code <= r.to; });
}

}  // namespace

std::optional<double> parse_decimal(std::string_view text) {
  if (!is_decimal(text)) return std::nullopt;
  if (text.front() == '+') text.remove_prefix(1);
#if defined(__cpp_lib_to_chars)
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
#else
  // Emscripten's library has no from_chars for double; its strtod knows only the C locale.
  const double value = std::strtod(std::string(text).c_str(), nullptr);
#endif
  if (!std::isfinite(value)) return std::nullopt;
  return value;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

bool same_name(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return folded(x) == folded(y); });
}

std::string in_lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) c = folded(c);
  return lower;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = folded(a[i - 1]) == folded(b[j - 1]);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0U : 1U)});
      if (i > 1 && j > 1 && folded(a[i - 1]) == folded(b[j - 2]) && folded(a[i - 2]) == folded(b[j - 1])) {
        row[j] = std::min(row[j], before_last[j - 2] + 1);
      }
    }
    std::swap(before_last, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::optional<std::string_view> nearest_name(std::string_view name, std::span<const std::string_view> candidates) {
  std::optional<std::string_view> best;
  std::size_t best_distance = 2 + name.size() / 3;
  for (const auto candidate : candidates) {
    const std::size_t distance = edit_distance(name, candidate);
    if (distance < best_distance) {
      best_distance = distance;
      best = candidate;
    }
  }
  return best;
}

std::size_t display_width(std::string_view utf8) {
  std::size_t width = 0;
  for (std::size_t i = 0; i < utf8.size();) {
    const auto lead = static_cast<unsigned char>(utf8[i]);
    const std::size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    std::uint32_t code = length == 1 ? lead : lead & (0xFFU >> (length + 1));
    for (std::size_t k = 1; k < length && i + k < utf8.size(); ++k) {
      code = (code << 6) | (static_cast<unsigned char>(utf8[i + k]) & 0x3FU);
    }
    if (!is_in(zero_width, code)) width += is_in(double_width, code) ? 2U : 1U;
    i += length;
  }
  return width;
}

std::string fixed(double value, int decimals) {
  char buffer[352];  // a double has at most 309 digits before the point
  int n = std::snprintf(buffer, sizeof buffer, "%.*f", std::clamp(decimals, 0, 17), value);
  std::string text(buffer, static_cast<std::size_t>(n));
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
  return text;
}

}  // namespace outbye
