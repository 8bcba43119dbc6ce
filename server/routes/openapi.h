// docs/openapi.json as it was when the server was built.
#pragma once

#include <vector>

#include "formats/json_text/embedded_text.h"

namespace outbye {

std::vector<EmbeddedText> openapi_texts();  // one

}  // namespace outbye
