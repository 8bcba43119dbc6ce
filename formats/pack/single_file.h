// One HTML file with everything in it: opens from a phone's files, asks no server for anything.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "formats/pack/packed_files.h"

namespace outbye {

// The names of elements are in web/src/day/engine/page_data.ts.
struct SingleFileData {
  std::string page;         // JSON, with files as data: addresses
  std::string ride;         // JSON, the packed ride
  std::string engine;       // JavaScript, outbye_day.js
  std::string engine_wasm;  // outbye_day.wasm
};

// The page of `page_files` ("index.html" and what it names) with its scripts, styles and pictures put into it, and the
// data before the end of its body. Links to a manifest, to preloaded modules and to icons for the home screen go; a
// content policy is put in that lets it load nothing from anywhere. Errors: bad_input at "index.html" for a file that
// it names and that is not there, and for scripts that import others: the page must be built as one.
Result<std::string> single_file(const std::vector<PackedFile>& page_files, const SingleFileData& data);

// For the inside of <script>: neither an end of it nor a comment's beginning is left, and it means the same.
std::string script_safe(std::string script);
std::string json_safe(std::string json);

}  // namespace outbye
