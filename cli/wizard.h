// `outbye new` step by step: a question, a sensible default in brackets, asked again when the answer cannot be used.
#pragma once

#include "cli/console.h"
#include "core/base/result.h"
#include "formats/new_ride/new_ride.h"

namespace outbye {

// Reads answers from standard input, a line each. Errors: cancelled when the user says no at the end, bad_input when
// the input ends before the questions do.
Result<NewRideAnswers> ask_for_ride(NewRideAnswers answers, Instant now, Console& console);

}  // namespace outbye
