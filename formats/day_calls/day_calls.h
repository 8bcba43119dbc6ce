// What the page of the day asks the engine, as JSON in and JSON out: the same door natively (tests) and in WebAssembly.
// web/src/day/engine/day_calls.ts has the types of each request and reply.
//   open    {"packed": the packed ride}                -> the plan, names, the head of a new log
//   answer  {"log": [line, ...], "now": ISO 8601}       -> as `outbye day --json`
//   rest    likewise                                   -> as `outbye day --rest --json`
// What goes wrong is {"problem": {"kind": ..., "where": ..., "what": ...}}, kinds as in web/src/engine/calls.ts.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/day.h"

namespace outbye {

// The ride that is open, and what is worked out of it once.
struct DaySession {
  struct Open {
    RidePlan plan;
    DayModel model;
  };
  std::optional<Open> ride;
};

// Never throws, never refuses to answer.
std::string day_call(DaySession& session, std::string_view name, std::string_view request);

}  // namespace outbye
