// Lines about stops that several exports write. Internal to formats/exports.
#pragma once

#include <string>
#include <vector>

#include "engine/use_cases.h"
#include "formats/exports/exports.h"

namespace outbye {

// "03 Ford, loop 1": programs sort by name.
std::string numbered(std::size_t number, const std::string& name);
// "Juno (41) due 07:30 (07:28-07:33); leave 06:55, by 07:05; there 07:01, ready 07:05; odds 93 %. Later: ..."
std::string stop_line(const RidePlan& plan, const CarDay& day, std::size_t stop);
// "4.2 km, 6 min"
std::string drive_line(const TimedStop& stop);
// What a plan is, and what it is not.
std::string export_words(const RidePlan& plan);
// Crew points where none of the chosen cars stops.
std::vector<const CrewPoint*> points_without_stop(const RidePlan& plan, const ExportChoice& choice);

}  // namespace outbye
