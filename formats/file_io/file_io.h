// Whole files: read, and written whole or not at all.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace outbye {

// The bytes of a file. Errors: not_found (with the nearest name in that folder), bad_input for a folder, a file that
// may not be read, or one larger than `limit` bytes.
Result<std::string> read_whole_file(const std::string& path, std::uintmax_t limit = std::uintmax_t{4} << 30);

enum class Existing { keep, replace };

// Nothing when a new file may be written at `path`: the folder is there and, with Existing::keep, no file is.
// Asked before long work, so that a plan is not made in vain.
Result<void> check_writable(const std::string& path, Existing existing);

// Into a new file beside the target, flushed, then put in its place in one step: never half a file. A device or pipe
// is written straight. Errors: bad_input when the target exists (Existing::keep), is a folder, or has no folder to be
// in; cancelled when the disk refuses (full, read-only): not the user's data at fault.
Result<void> write_whole_file(const std::string& path, std::string_view bytes, Existing existing);

}  // namespace outbye
