#include "cli/text_layout.h"

#include <cstdint>

#include "core/base/text.h"

namespace outbye {
namespace {

// Bytes of the character at `i`, or 0 when it is not UTF-8.
std::size_t character_at(std::string_view text, std::size_t i) {
  const auto lead = static_cast<unsigned char>(text[i]);
  const std::size_t length = lead < 0x80                   ? 1
                             : lead >= 0xC2 && lead < 0xE0 ? 2
                             : lead >= 0xE0 && lead < 0xF0 ? 3
                             : lead >= 0xF0 && lead < 0xF5 ? 4
                                                           : 0;
  if (length == 0 || i + length > text.size()) return 0;
  for (std::size_t k = 1; k < length; ++k) {
    if ((static_cast<unsigned char>(text[i + k]) & 0xC0) != 0x80) return 0;
  }
  return length;
}

// Controls of C0 and C1, and the marks that turn the direction of writing.
bool is_control(std::string_view character) {
  const auto a = static_cast<unsigned char>(character[0]);
  if (character.size() == 1) return a < 0x20 || a == 0x7F;
  const auto b = static_cast<unsigned char>(character[1]);
  if (character.size() == 2) return a == 0xC2 && b < 0xA0;
  if (character.size() != 3 || a != 0xE2) return false;
  const auto c = static_cast<unsigned char>(character[2]);
  return (b == 0x80 && ((c >= 0xA8 && c <= 0xAE) || c == 0x8E || c == 0x8F)) || (b == 0x81 && c >= 0xA6 && c <= 0xA9);
}

}  // namespace

std::string one_line(std::string_view utf8) {
  std::string text;
  for (std::size_t i = 0; i < utf8.size();) {
    const std::size_t length = character_at(utf8, i);
    if (length == 0) {
      text += '?';
      ++i;
      continue;
    }
    const auto character = utf8.substr(i, length);
    i += length;
    if (is_control(character) || character == " ") {
      if (!text.empty() && text.back() != ' ') text += ' ';
    } else {
      text += character;
    }
  }
  if (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

std::string cut_to(std::string_view utf8, std::size_t width) {
  const std::string text = one_line(utf8);
  if (display_width(text) <= width) return text;
  if (width == 0) return "";
  std::string cut;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = character_at(text, i);
    const std::string longer = cut + text.substr(i, length);
    if (display_width(longer) > width - 1) break;
    cut = longer;
    i += length;
  }
  return cut + "~";
}

std::string left(std::string_view utf8, std::size_t width) {
  std::string text = cut_to(utf8, width);
  text.append(width - display_width(text), ' ');
  return text;
}

std::string right(std::string_view utf8, std::size_t width) {
  const std::string text = cut_to(utf8, width);
  return std::string(width - display_width(text), ' ') + text;
}

std::string wrapped(std::string_view utf8, std::string_view first, std::size_t width) {
  const std::string text = one_line(utf8);
  if (text.empty()) return "";
  const std::size_t indent = display_width(first);
  const std::size_t room = width > indent + 8 ? width - indent : 8;
  std::string lines(first);
  std::size_t used = 0;
  const auto new_line = [&] {
    lines += "\n" + std::string(indent, ' ');
    used = 0;
  };
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = text.find(' ', i);
    if (end == std::string::npos) end = text.size();
    std::string_view word = std::string_view(text).substr(i, end - i);
    i = end + 1;
    const std::size_t columns = display_width(word);
    if (used > 0 && used + 1 + columns > room) new_line();
    if (used > 0) {
      lines += ' ';
      ++used;
    }
    while (!word.empty()) {
      const std::size_t length = character_at(word, 0);
      const std::size_t of_character = display_width(word.substr(0, length));
      if (used + of_character > room) new_line();
      lines += word.substr(0, length);
      used += of_character;
      word.remove_prefix(length);
    }
  }
  return lines + "\n";
}

}  // namespace outbye
