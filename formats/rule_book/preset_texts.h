// The files of data/rules as they were when the library was built (see CMakeLists.txt). Inside this folder.
#pragma once

#include <string_view>
#include <vector>

namespace outbye {

struct PresetText {
  std::string_view file;  // "british.json"
  std::string_view text;
};
std::vector<PresetText> preset_texts();

}  // namespace outbye
