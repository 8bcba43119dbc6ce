// What is refused before a pace is used: each message says where and what to do.
#pragma once

#include "core/base/result.h"
#include "core/course/course.h"
#include "core/pace/pace.h"

namespace outbye {

// Errors: bad_input for a value out of its range or a list that does not match the course; impossible for a loop that
// would take longer than two days.
Result<void> check_pace(const Course& course, const HorsePace& pace);

}  // namespace outbye
