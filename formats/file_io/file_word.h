// Words for names of files.
#pragma once

#include <string>
#include <string_view>

namespace outbye {

// Letters and digits of ASCII in lower case, anything between them as one hyphen: "Blue van" -> "blue-van". At most
// `most` bytes; may be empty.
std::string file_word(std::string_view text, std::size_t most = 60);

}  // namespace outbye
