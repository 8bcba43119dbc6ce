// A plan for other programs: maps, calendars, spreadsheets, messages. GPX is formats/plan_gpx. Values in, bytes out;
// the same plan gives the same bytes.
#pragma once

#include <optional>
#include <string>

#include "core/live/day_log.h"
#include "engine/use_cases.h"

namespace outbye {

// `only_car`: nothing for all cars. `with_course`: the loops as well.
struct ExportChoice {
  std::optional<CarId> only_car;
  bool with_course{true};
};

// KML 2.2 (OGC 07-147r2): meets, refills and crew points not met as placemarks, drives and loops as lines.
std::string plan_kml(const RidePlan& plan, const ExportChoice& choice);

// GeoJSON (RFC 7946): the same as features with their times as properties. Lines are cut at the antimeridian.
std::string plan_geojson(const RidePlan& plan, const ExportChoice& choice);

// CSV (RFC 4180: CRLF, quotes doubled), UTF-8, a header and a row for each stop of each car and for each pass that no
// car meets, by time. Times ISO 8601 with offset. Text that a spreadsheet would take for a formula gets an apostrophe.
std::string plan_csv(const RidePlan& plan, const ExportChoice& choice);

// CSV of the log of the day: a row an entry as it stands after all corrections, by when it happened, then those that
// were withdrawn; `state` says which. Times ISO 8601 with the offset of `clock`. The same rules for text.
std::string log_csv(const DayLog& log, const Clock& clock);

// iCalendar (RFC 5545), times in UTC: an event for each drive, with an alarm at its leave-by, and for each stop.
// `made` stamps the events. The same plan keeps its UIDs, so a calendar that is read again replaces them.
std::string plan_calendar(const RidePlan& plan, const ExportChoice& choice, Instant made);

// The day in under 1,200 characters, to send as a message: who is due where, when to leave, by when. What does not fit
// is left out step by step, and said.
std::string plan_digest(const RidePlan& plan, const ExportChoice& choice);

}  // namespace outbye
