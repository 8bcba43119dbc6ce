// A packed ride as files: a folder for a web server, or one HTML file. Nothing is read or written.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/roads/road_graph.h"
#include "engine/use_cases.h"
#include "formats/pack/packed_files.h"
#include "formats/paper/paper.h"

namespace outbye {

struct PackedPhoto {
  std::string file;  // as the ride file names it
  std::string bytes;
};

struct PackSources {
  const RidePlan& plan;
  const PaperParts& parts;      // jobs, kit and load
  const RoadGraph* roads{};     // behind the maps; may be null
  std::string packed_ride;      // formats/packed_ride
  std::vector<PackedFile> web;  // the built page, with index.html
  std::string engine;           // outbye_day.js
  std::string engine_wasm;      // outbye_day.wasm
  std::vector<SheetFile> sheets;
  std::vector<PackedPhoto> photos;  // those of the ride that are there
  std::vector<std::string> notes;   // for the page, in sentences
};

// By name, files.json among them: docs/pack.md. Errors: bad_input without index.html; cancelled for icons.
Result<std::vector<PackedFile>> packed_folder(const PackSources& from, Instant made);

// Errors: those of single_file().
Result<std::string> packed_page(const PackSources& from, Instant made);

}  // namespace outbye
