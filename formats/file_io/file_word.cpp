#include "formats/file_io/file_word.h"

#include "core/base/text.h"

namespace outbye {

std::string file_word(std::string_view text, std::size_t most) {
  std::string word;
  for (const char c : in_lower_case(text)) {
    const bool is_plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (is_plain) {
      word += c;
    } else if (!word.empty() && word.back() != '-') {
      word += '-';
    }
  }
  word = word.substr(0, most);
  while (!word.empty() && word.back() == '-') word.pop_back();
  return word;
}

}  // namespace outbye
