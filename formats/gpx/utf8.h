// Text that any XML reader accepts: well-formed UTF-8 without the characters that XML 1.0 forbids.
#pragma once

#include <string>
#include <string_view>

namespace outbye {

// Bytes that are not well-formed UTF-8 (Unicode 15, table 3-7) become U+FFFD; characters outside XML 1.0's Char
// production (most control characters, U+FFFE, U+FFFF) are left out. Valid text comes back unchanged.
std::string xml_text(std::string_view bytes);

bool is_utf8(std::string_view bytes);

}  // namespace outbye
