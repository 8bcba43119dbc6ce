// Text in columns on a terminal: cut, padded and wrapped by what it takes on the screen, not by bytes.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace outbye {

constexpr std::size_t line_width = 80;

// The text without control characters (a name from a file must not move the cursor or change colours) and with every
// run of white space as one space. Bytes that are not UTF-8 become '?'.
std::string one_line(std::string_view utf8);

// At most `width` columns; what does not fit is cut and ends in '~'.
std::string cut_to(std::string_view utf8, std::size_t width);

// Exactly `width` columns: cut or padded with spaces behind (left) or in front (right).
std::string left(std::string_view utf8, std::size_t width);
std::string right(std::string_view utf8, std::size_t width);

// Words wrapped into lines of at most `width` columns, the first beginning with `first`, the others with as many
// spaces as `first` is wide. A word longer than a line is broken. Ends with a line end; nothing for an empty text.
std::string wrapped(std::string_view utf8, std::string_view first = "", std::size_t width = line_width);

}  // namespace outbye
