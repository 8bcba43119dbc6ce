// What a file that was given is, by its bytes; its name says nothing.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "server/answer/trouble.h"

namespace outbye {

// "course", "map", "elevation", "weather", "drive_times", "rules", "kit" or "photo" from the first bytes (up to 4096
// are looked at) and the size. Errors: bad_input with what it looks like, and what is taken.
Answer<std::string> file_kind(std::string_view start, std::uint64_t size, const std::string& name);

// "image/jpeg" and the like; "application/octet-stream" for what a browser should not show.
std::string media_type(std::string_view start);

// A name that may stand in a ride file and be asked for: 1 to 120 bytes without slashes, control characters, or dots at
// the front. Errors: bad_input.
Answer<void> check_file_name(const std::string& name);

}  // namespace outbye
