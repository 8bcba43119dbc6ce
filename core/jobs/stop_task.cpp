#include "core/jobs/stop_task.h"

namespace outbye {

const char* step_name(RoutineStep step) {
  switch (step) {
    case RoutineStep::refill:
      return "refill";
    case RoutineStep::set_up:
      return "set up";
    case RoutineStep::stand:
      return "stand";
    case RoutineStep::serve:
      return "serve";
    case RoutineStep::clear:
      return "clear";
  }
  return "";
}

}  // namespace outbye
