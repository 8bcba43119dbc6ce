// The files of data/rules, in the order of listing. Inside this folder.
#pragma once

#include <vector>

#include "formats/json_text/embedded_text.h"

namespace outbye {

std::vector<EmbeddedText> preset_texts();

}  // namespace outbye
