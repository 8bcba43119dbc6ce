// What the day looks like, as numbers ready to be scaled: made by the engine (formats/day_drawing), drawn by views/day
// and map/. Times are seconds since 1970 UTC, distances km of the ride, positions [longitude, latitude] as in GeoJSON,
// loops counted from 1. docs/schema/day-drawing-1.json says the same for programs.
export interface DayDrawing {
  version: 1;
  from_s: number; // what the chart shows
  to_s: number;
  length_km: number;
  time_zone_offsets: { from_s: number; offset_s: number }[]; // of the ride's zone, ascending; the first holds from the start
  venue: { name: string; position: [number, number] };
  loops: {
    name: string;
    from_km: number;
    to_km: number;
    line: [number, number][]; // simplified to about 5 m
    km_marks: { km: number; position: [number, number] }[];
    heights: { km: number; m: number }[]; // empty where none is known
  }[];
  points: {
    name: string;
    position: [number, number]; // where the horse is met
    parking: [number, number];
    is_closed: boolean;
    // the label of its meet if one is planned (with several horses: of the first that is met)
    passes: { label: string; loop: number; nth_in_loop: number; ride_km: number; position: [number, number] }[];
  }[];
  horses: {
    name: string;
    // p10, p50 and p90 of the time at ascending kilometres; gates and passes that are met appear as two knots of the
    // same kilometre: when it comes and when it leaves.
    knots: { km: number; p10_s: number; p50_s: number; p90_s: number }[];
    gates: { km: number; loop: number; in_s: number; accepted_s: number; out_s: number }[]; // medians; without the finish
  }[];
  cars: {
    name: string;
    spans: {
      kind: "drive" | "setup" | "wait" | "meet" | "pack" | "refill" | "rest" | "errand" | "free";
      from_s: number;
      to_s: number;
      from_km: number; // drives slope between the kilometres of the passes; others are level
      to_km: number;
      stop: number; // index into plan.cars[].stops; one past the last for the way home
    }[];
    drives: { stop: number; line: [number, number][] }[];
  }[];
  meets: {
    label: string;
    car: string;
    horse: string;
    stop: number;
    km: number;
    due_s: number;
    ready_s: number;
    leave_by_s: number | null; // latest departure from here that still makes the next meet
    chance_ready: number;
    odds: "all but sure" | "likely" | "even" | "unlikely"; // >= 95 %, >= 80 %, >= 50 %, below
  }[];
  dark: { from_s: number; to_s: number; kind: "twilight" | "night" }[];
  heat: { from_s: number; to_s: number; band: string }[]; // at the horse's median place; empty without weather
}
