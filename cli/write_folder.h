// A folder of files of ours, written whole or not at all.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "formats/file_io/file_io.h"
#include "formats/pack/packed_files.h"

namespace outbye {

// Nothing when the folder may be written: it is not there (but the folder it is to be in is), it is empty, or, with
// Existing::replace, it is a packed ride. Asked before long work.
Result<void> check_folder(const std::string& path, Existing existing);

// Made beside the target and put in its place in one step. What a packed ride that was there held of its own
// (files.json lists it) goes; any other file in it stays. Errors: bad_input as above, and where a file that is not a
// packed ride's has the name of one to be written; cancelled when the disk refuses. After an error all is as it was.
Result<void> write_whole_folder(const std::string& path, const std::vector<PackedFile>& files, Existing existing);

}  // namespace outbye
