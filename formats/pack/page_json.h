// page.json: what a phone shows of a packed ride beside the engine's answers. Fields: docs/pack.md; types for the page:
// web/src/day/engine/page_data.ts.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/roads/road_graph.h"
#include "engine/use_cases.h"
#include "formats/json_text/json_text.h"
#include "formats/paper/paper.h"

namespace outbye {

constexpr int page_json_version = 1;

// A file that goes along: its name within the folder, or a data: address that holds it.
struct PageSheet {
  std::string name;   // "crew-book"
  std::string words;  // "Crew book"
  std::string file;
  std::size_t bytes{};
};

// Where a photo of the ride file is found on the phone; empty: it is not there, and is left out.
using PhotoAddress = std::function<std::string(const std::string& file)>;

struct PageSources {
  const RidePlan& plan;
  const PaperParts& parts;   // jobs, kit and load; what is missing is left out and said in `notes`
  const RoadGraph* roads{};  // behind the maps; may be null
  std::vector<PageSheet> sheets;
  std::string calendar;  // address of the calendar
  PhotoAddress photo;
  std::vector<std::string> notes;  // more of them, in sentences
};

Json page_json(const PageSources& from, Instant made);

// The same for a ride however it is planned: from its name, its venue's name, its day and its horses. 16 hexadecimal
// digits.
std::string ride_key(const Ride& ride);

}  // namespace outbye
