// A file under data as it was when the library was built: see cmake/embed.cmake.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace outbye {

struct EmbeddedText {
  EmbeddedText(std::string_view name, std::initializer_list<std::string_view> pieces) : file(name) {
    for (const auto piece : pieces) text += piece;
  }
  std::string file;  // "british.json"
  std::string text;
};

}  // namespace outbye
