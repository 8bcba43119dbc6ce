// Names that the server gives.
#pragma once

#include <string>

namespace outbye {

// A new name that nobody can guess or has had: the letter of its kind and 20 letters and digits.
std::string fresh_id(char kind);

}  // namespace outbye
