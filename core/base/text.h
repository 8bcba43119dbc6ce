// Small text tools that the standard library of g++ 12 and Emscripten lacks or that depend on the locale.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace outbye {

// A decimal number, the whole text, no locale: "12.5", "-3e2". Refuses "", "1,5", "0x1", "nan", "inf", spaces.
std::optional<double> parse_decimal(std::string_view text);

// The text without spaces, tabs and line ends at both ends.
std::string_view trimmed(std::string_view text);

// Names as people type them: upper and lower case alike in ASCII.
bool same_name(std::string_view a, std::string_view b);
std::string in_lower_case(std::string_view text);

// Damerau-Levenshtein distance (optimal string alignment), bytes, case folded in ASCII.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The candidate nearest to `name`, if near enough to be a slip of the pen (distance <= 1 + length / 3).
std::optional<std::string_view> nearest_name(std::string_view name, std::span<const std::string_view> candidates);

// Columns that a UTF-8 text takes on a terminal: code points, combining marks 0, East Asian wide 2.
std::size_t display_width(std::string_view utf8);

// "12.3": fixed number of decimals, no locale, "-0.0" written as "0.0".
std::string fixed(double value, int decimals);

}  // namespace outbye
