// A plan as JSON, version 1: docs/plan-json.md and docs/schema/plan-1.json.
#pragma once

#include <string>
#include <vector>

#include "engine/use_cases.h"
#include "formats/json_text/json_text.h"

namespace outbye {

constexpr int plan_json_version = 1;

Json plan_json(const RidePlan& plan, const std::vector<WhatIfAnswer>& what_ifs);
std::string write_plan_json(const RidePlan& plan, const std::vector<WhatIfAnswer>& what_ifs);

// Parts that other answers share. Windows: {"p10": ..., "p50": ..., "p90": ...}, ISO 8601 with offset.
Json json_of(const Window& window, const Clock& clock);
Json json_of(const Position& position);
Json json_of(const Warnings& warnings);
// Course with loops and passes, as `outbye check --json` writes it.
Json json_of(const Course& course);

// To `decimals`, and 12 rather than 12.0.
Json rounded(double value, int decimals);

}  // namespace outbye
