// One stop as an SVG drawing for the windscreen: who does what when. Time before the horse and time with it are drawn
// at the same scale, and the wait between them is left out.
#pragma once

#include <string>

#include "core/jobs/schedule_stop.h"

namespace outbye {

std::string stop_picture_svg(const CrewStop& stop, const StopSchedule& schedule, const std::string& title);

}  // namespace outbye
