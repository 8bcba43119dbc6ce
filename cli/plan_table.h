// The plan as a crew reads it at the kitchen table: 80 columns, plain words.
#pragma once

#include <string>
#include <vector>

#include "cli/console.h"
#include "engine/use_cases.h"
#include "formats/time_zone/long_date.h"

namespace outbye {

struct PlanTableOptions {
  bool turns{};  // a driver's list of turns under every drive
};

std::string plan_table(const RidePlan& plan, const std::vector<WhatIfAnswer>& what_ifs, const PlanTableOptions& options,
                       const Style& style);

// "UTC+01:00"
std::string offset_words(Instant at, const Clock& clock);
// "07:28 07:20-07:37": median, then the window in which 8 of 10 simulated days fall.
std::string window_words(const Window& window, const Clock& clock);

// Sections that `outbye check` and `outbye new` print too.
std::string list_section(const std::string& title, const std::vector<std::string>& sentences, const Style& style);
std::string warnings_section(const Warnings& warnings, const Style& style);

}  // namespace outbye
