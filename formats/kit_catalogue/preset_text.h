// The file of data/kit as it was when the library was built, in pieces (see CMakeLists.txt). Inside this folder.
#pragma once

#include <string_view>
#include <vector>

namespace outbye {

std::vector<std::string_view> preset_kit_text();

}  // namespace outbye
