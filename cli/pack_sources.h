// What goes into a packed ride from this machine's files: the built page, the engine, the ride's photos.
#pragma once

#include <string>
#include <vector>

#include "engine/ride.h"
#include "formats/pack/pack.h"

namespace outbye {

// `given`: --page or --engine; empty: beside the program, or as the sources have it.
Result<std::vector<PackedFile>> read_built_page(const std::string& given);

struct BuiltEngine {
  std::string script;  // outbye_day.js
  std::string wasm;
};
Result<BuiltEngine> read_built_engine(const std::string& given);

// Each once, in order; what is not there is said in `notes`.
std::vector<PackedPhoto> read_photos(const Ride& ride, const std::string& ride_file, std::vector<std::string>& notes);

}  // namespace outbye
