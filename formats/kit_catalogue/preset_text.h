// The files of data/kit: the catalogue alone. Inside this folder.
#pragma once

#include <vector>

#include "formats/json_text/embedded_text.h"

namespace outbye {

std::vector<EmbeddedText> preset_kit_texts();

}  // namespace outbye
