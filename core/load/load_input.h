// What is refused before any search.
#pragma once

#include "core/base/result.h"
#include "core/load/load_task.h"

namespace outbye {

Result<void> check_load_task(const LoadTask& task);

}  // namespace outbye
