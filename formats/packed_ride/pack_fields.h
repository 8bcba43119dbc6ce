// The fields of everything in a packed ride. Internal to formats/packed_ride.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "core/kit/choose_kit.h"
#include "engine/decided_plan.h"
#include "formats/packed_ride/pack_values.h"

namespace outbye {

constexpr std::array<std::string_view, 3> words_of(PlannedStop::Kind) { return {"meet", "refill", "rest"}; }
constexpr std::array<std::string_view, 6> words_of(LeftOutErrand::Reason) {
  return {"worthless", "no way", "too far", "closed", "crowded out", "out of range"};
}
constexpr std::array<std::string_view, 11> words_of(Turn::Kind) {
  return {"start",       "ahead",        "left", "right",      "sharp left", "sharp right",
          "slight left", "slight right", "back", "roundabout", "arrive"};
}

constexpr std::array<std::string_view, 5> words_of(KitNeed) {
  return {"pass", "gate", "finish", "emergency", "not on the road"};
}

template <class A>
void fields(A& a, Warning& w) {
  a("where", w.where);
  a("what", w.what);
}
template <class A>
void fields(A& a, Position& p) {
  a("lat", p.latitude);
  a("lon", p.longitude);
}
template <class A>
void fields(A& a, Drive& d) {
  a("s", d.time);
  a("m", d.length);
}
template <class A>
void fields(A& a, Window& w) {
  a("p10", w.p10);
  a("p50", w.p50);
  a("p90", w.p90);
}
template <class A>
void fields(A& a, OffsetChange& c) {
  a("from", c.from);
  a("offset_min", c.offset);
}
template <class A>
void fields(A& a, Clock& c) {
  a("zone", c.zone);
  a("changes", c.changes);
}

template <class A>
void fields(A& a, PassCorrection& c) {
  a("loop", c.loop);
  a("nth_in_loop", c.nth_in_loop);
  a("along", c.along);
}
template <class A>
void fields(A& a, CrewPoint& p) {
  a("name", p.name);
  a("position", p.position);
  a("note", p.note);
  a("corrections", p.corrections);
}
template <class A>
void fields(A& a, Pass& p) {
  a("loop", p.loop);
  a("crew_point", p.crew_point);
  a("along", p.along);
  a("ride_along", p.ride_along);
  a("distance", p.distance);
  a("position", p.position);
  a("nth_in_loop", p.nth_in_loop);
  a("found_along", p.found_along);
}

// A line in columns: half the size of points with named fields.
struct PackedLine {
  std::vector<double> lat, lon;
};
template <class A>
void fields(A& a, PackedLine& l) {
  a("lat", l.lat);
  a("lon", l.lon);
}
// Profile, length and climb follow from the points.
struct PackedLoop {
  std::string name;
  PackedLine line;
  std::vector<Metres> along;
  std::vector<std::optional<Metres>> elevation;
};
template <class A>
void fields(A& a, PackedLoop& l) {
  a("name", l.name);
  fields(a, l.line);
  a("along", l.along);
  a("elevation", l.elevation);
}
struct PackedCourse {
  std::vector<PackedLoop> loops;
  std::vector<CrewPoint> crew_points;
  std::vector<Pass> passes;
  Warnings warnings;
  Position venue;
  std::vector<std::string> assumptions;
};
template <class A>
void fields(A& a, PackedCourse& c) {
  a("loops", c.loops);
  a("crew_points", c.crew_points);
  a("passes", c.passes);
  a("warnings", c.warnings);
  a("venue", c.venue);
  a("assumptions", c.assumptions);
}

// How a place is joined to the roads is of use only beside them.
template <class A>
void fields(A& a, PlaceReport& p) {
  a("name", p.name);
  a("position", p.position);
  a("snap_distance", p.snap_distance);
  a("road", p.road);
  a("unreachable", p.unreachable);
}

template <class A>
void fields(A& a, PlannedStop& s) {
  a("kind", s.kind);
  a("option", s.option);
  a("refill", s.refill);
}
template <class A>
void fields(A& a, TimedStop& s) {
  fields(a, s.stop);
  a("place", s.place);
  a("drive", s.drive);
  a("drive_planned", s.drive_planned);
  a("depart", s.depart);
  a("arrive", s.arrive);
  a("ready", s.ready);
  a("leave", s.leave);
  a("due", s.due);
  a("slack", s.slack);
  a("chance_ready", s.chance_ready);
  a("chance_there", s.chance_there);
  a("leave_by", s.leave_by);
  a("next_meet", s.next_meet);
  a("fallback", s.fallback);
  a("worth", s.worth);
}
template <class A>
void fields(A& a, CarDay& d) {
  a("car", d.car);
  a("stops", d.stops);
  a("driven", d.driven);
  a("driving", d.driving);
  a("home", d.home);
  a("back", d.back);
}
template <class A>
void fields(A& a, PlanValue& v) {
  a("worth", v.worth);
  a("standard_error", v.standard_error);
  a("upper_bound", v.upper_bound);
  a("upper_bound_error", v.upper_bound_error);
  a("gap", v.gap);
  a("fixed_worth", v.fixed_worth);
  a("fixed_bound", v.fixed_bound);
  a("is_fixed_exact", v.is_fixed_exact);
  a("what_is_exact", v.what_is_exact);
}
template <class A>
void fields(A& a, CrewPlan& p) {
  a("days", p.days);
  a("value", p.value);
  a("weakest", p.weakest);
  a("warnings", p.warnings);
}

template <class A>
void fields(A& a, ErrandStop& s) {
  a("errand", s.errand);
  a("after_stop", s.after_stop);
  a("drive", s.drive);
  a("depart", s.depart);
  a("arrive", s.arrive);
  a("start", s.start);
  a("leave", s.leave);
  a("latest_start", s.latest_start);
}
template <class A>
void fields(A& a, LaterStop& s) {
  a("stop", s.stop);
  a("depart", s.depart);
  a("arrive", s.arrive);
  a("latest_arrive", s.latest_arrive);
}
template <class A>
void fields(A& a, CarErrands& e) {
  a("car", e.car);
  a("stops", e.stops);
  a("later", e.later);
  a("worth", e.worth);
  a("upper_bound", e.upper_bound);
  a("is_proven", e.is_proven);
}
template <class A>
void fields(A& a, LeftOutErrand& e) {
  a("errand", e.errand);
  a("reason", e.reason);
  a("short_by", e.short_by);
  a("why", e.why);
}
template <class A>
void fields(A& a, ErrandPlan& p) {
  a("cars", p.cars);
  a("left_out", p.left_out);
  a("worth", p.worth);
  a("upper_bound", p.upper_bound);
  a("is_proven", p.is_proven);
  a("what_is_exact", p.what_is_exact);
}

// What to get out at a stop; nothing is loaded anew on the day.
template <class A>
void fields(A& a, KitEntry& e) {
  a("name", e.item.name);
  a("count", e.count);
  a("needed", e.item.needed);
}

template <class A>
void fields(A& a, Turn& t) {
  a("kind", t.kind);
  a("road", t.road);
  a("length", t.length);
  a("time", t.time);
  a("position", t.position);
  a("exit", t.exit);
}
template <class A>
void fields(A& a, Route& r) {
  a("drive", r.drive);
  a("geometry", r.geometry);
  a("turns", r.turns);
  a("notes", r.notes);
}

}  // namespace outbye
