// The sheets of paper of a ride, for the planning page and for programs.
#pragma once

#include <string>

#include "server/engine_calls/engine_calls.h"

namespace outbye {

// As PDF. The request has `sheet` ("crew-book"), and perhaps `paper` ("a4"), `mark` (what the plan is called on it) and
// `ride`. Errors: those of the ride and its files; bad_input for a sheet or paper that there is not, and for a sheet
// that this paper has no room for.
Answer<std::string> sheet_of_ride(EngineCalls& engine, const RideQuestion& question);

}  // namespace outbye
