// What the page knows of the ride's fields beyond their ranges: in which measure people think of them, and what holds when one
// is left out (docs/ride-file.md). A field whose default comes from another one names it.
import { rideLimits, type Limits } from "../engine/answers/ride_limits";
import type { Measure } from "../format/units";
import { valueAt } from "./path";

export interface FieldFacts {
  measure?: Measure;
  usual?: number | string | boolean;
  usualFrom?: string; // a path that it is taken from
  kind?: "time" | "long" | "percent";
}

const pace: Record<string, FieldFacts> = {
  speed_kmh: { measure: "kmh", usual: 12 },
  speed_is: { usual: "average" },
  heat_factor: { usual: 1 },
  recovery_min: { measure: "min", usual: 6 },
  recovery_log_sd: { usual: 0.35 },
  hold_min: { measure: "min", usual: 40 },
};
const inside = (holder: string, fields: Record<string, FieldFacts>): [string, FieldFacts][] =>
  Object.entries(fields).map(([name, facts]) => [`${holder}.${name}`, facts]);
const going: Record<string, FieldFacts> = { from_km: { measure: "km" }, to_km: { measure: "km" } };
const open: Record<string, FieldFacts> = { from: { kind: "time" }, to: { kind: "time" } };
const box = (...sides: string[]): Record<string, FieldFacts> =>
  Object.fromEntries(sides.map((side) => [side, { measure: "mm" }]));

export const rideFields: Record<string, FieldFacts> = Object.fromEntries([
  ...inside("default_pace", pace),
  ...Object.entries(pace).map(([name, facts]): [string, FieldFacts] => [
    `loops[].${name}`,
    { ...facts, usualFrom: `default_pace.${name}` },
  ]),
  ...inside("default_pace.going[]", going),
  ...inside("loops[].going[]", going),
  ["loops[].reversed", { usual: false }],
  ["start", { kind: "time" }],
  ["time_zone", { usual: "UTC" }],
  ["country", { usual: "GB" }],
  ["venue.name", { usual: "Venue" }],
  ["crew", { usual: 2 }],
  ...inside("crew_points[]", {
    note: { kind: "long" },
    approach: { kind: "long" },
    recce: { kind: "long" },
    closed: { usual: false },
    has_water: { usual: false },
    setup_min: { measure: "min", usual: 4, usualFrom: "setup_min" },
    pack_min: { measure: "min", usual: 3, usualFrom: "pack_min" },
  }),
  ...inside("crew_points[].open[]", open),
  ...inside("wishes[]", { stop_min: { measure: "min" }, water_litres: { measure: "litres" } }),
  ...inside("horses[]", {
    start_after_min: { measure: "min", usual: 0 },
    mass_kg: { measure: "kg", usual: 450 },
    rider_weight_kg: { measure: "kg" },
    acclimatised: { usual: false },
    novice: { usual: false },
    sweat_factor: { usual: 1 },
  }),
  ...inside("horses[].likes[]", { litres: { measure: "litres" }, electrolyte_g: { measure: "g" }, from_loop: { usual: 1 } }),
  ...inside("horses[].intakes[]", {
    drank_litres: { measure: "litres" },
    salt_g: { measure: "g" },
    potassium_chloride_g: { measure: "g" },
  }),
  ["horses[].speeds_kmh[]", { measure: "kmh" }],
  ...inside("cars[]", {
    ready_from: { kind: "time" },
    back_by: { kind: "time" },
    water_litres: { measure: "litres", usual: 0 },
    fuel_range_km: { measure: "km", usual: 0 },
    fuel_reserve: { kind: "percent", usual: 0.25 },
    longest_driving_min: { measure: "min", usual: 120 },
    break_min: { measure: "min", usual: 15 },
  }),
  ...inside("cars[].boot", {
    ...box("floor_length_mm", "floor_width_mm", "height_mm", "cover_height_mm", "lip_above_ground_mm", "floor_above_ground_mm"),
    seats_folded: { usual: false },
    guard: { usual: false },
    payload_kg: { measure: "kg" },
    people: { usual: 1 },
  }),
  ...inside("cars[].boot.arches", box("from_seat_back_mm", "length_mm", "width_mm", "height_mm")),
  ...inside("cars[].boot.lip", box("length_mm", "height_mm")),
  ...inside("cars[].boot.roof_box", { ...box("length_mm", "width_mm", "height_mm"), payload_kg: { measure: "kg" } }),
  ...inside("helpers[]", { share: { usual: 1 } }),
  ["emergency.note", { kind: "long" }],
  ["emergency.places[].kind", { usual: "hospital" }],
  ...inside("refills[]", { duration_min: { measure: "min", usual: 10 } }),
  ...inside("refills[].open[]", open),
  ...inside("errands[]", { duration_min: { measure: "min", usual: 10 }, worth: { usual: 0.5 } }),
  ...inside("errands[].open[]", open),
  ["waters[].km", { measure: "km" }],
  ...inside("weather[]", {
    time: { kind: "time" },
    temperature_c: { measure: "c" },
    humidity_pct: { measure: "pct" },
    wind_ms: { measure: "ms" },
    radiation_wm2: { measure: "wm2" },
    cloud_pct: { measure: "pct" },
    pressure_hpa: { measure: "hpa" },
    rain_mm: { measure: "rain" },
  }),
  ["heat.slows", { usual: true }],
  ["heat.urban", { usual: false }],
  ["heat.sum_counts_from_c", { measure: "c", usual: 20 }],
  ...inside("care", {
    sweat_range: { kind: "percent", usual: 0.3 },
    sweat_standing: { kind: "percent", usual: 0.3 },
    wbgt_if_unknown_c: { measure: "c", usual: 24 },
    offer_at_pass_litres: { measure: "litres", usual: 11.4 },
    offer_at_gate_litres: { measure: "litres", usual: 18.5 },
    cold_water_c: { measure: "c", usual: 10 },
    carried_water_c: { measure: "c", usual: 18 },
  }),
  ["worth_of_water", { usual: 0.25 }],
  ["stop_min", { measure: "min", usual: 3 }],
  ["stop_log_sd", { usual: 0.35 }],
  ["start_delay_min", { measure: "min", usual: 0 }],
  ["start_delay_log_sd", { usual: 0 }],
  ["setup_min", { measure: "min", usual: 4 }],
  ["pack_min", { measure: "min", usual: 3 }],
  ["water_per_meet_litres", { measure: "litres", usual: 0 }],
  ["gate_worth", { usual: 3 }],
  ["finish_worth", { usual: 2 }],
  ...inside("spread", {
    ride: { usual: 0.08 },
    loop: { usual: 0.041 },
    within: { usual: 0.06 },
    within_length_km: { measure: "km", usual: 6 },
  }),
  ...inside("crewing", {
    part_worth: { kind: "percent", usual: 0.4 },
    confidence: { kind: "percent", usual: 0.8 },
    give_up: { kind: "percent", usual: 0.3 },
    longest_wait_min: { measure: "min", usual: 40 },
    water_interval_km: { measure: "km", usual: 10 },
    gap_penalty_per_km: { usual: 0.05 },
    drive_allowance: { usual: 1.1 },
    drive_log_sd: { usual: 0.1 },
  }),
  ...inside("course", {
    pass_distance_m: { measure: "m", usual: 150 },
    pass_separation_m: { measure: "m", usual: 300 },
    refuse_gap_m: { measure: "m", usual: 1000 },
    warn_gap_m: { measure: "m", usual: 250 },
    far_crew_point_m: { measure: "m", usual: 2000 },
    climb_threshold_m: { measure: "m", usual: 5 },
    profile_step_m: { measure: "m", usual: 25 },
    smoothing_m: { measure: "m", usual: 100 },
  }),
  ["snap_limit_m", { measure: "m", usual: 250 }],
  ["ferries", { usual: false }],
  ["simulated_days", { usual: 4096 }],
  ["seed", { usual: 1 }],
] as [string, FieldFacts][]);

export const patternOf = (path: string): string => path.replace(/\[\d+\]/g, "[]");
export const factsOf = (path: string): FieldFacts => rideFields[patternOf(path)] ?? {};
export const limitsOf = (path: string): Limits => rideLimits[patternOf(path)] ?? { type: "string" };

// What holds when the field is left out, in this document.
export function usualOf(document: unknown, path: string): number | string | boolean | undefined {
  const facts = factsOf(path);
  const from = facts.usualFrom ? valueAt(document, facts.usualFrom) : undefined;
  return (from as number | string | boolean | undefined) ?? facts.usual;
}

// The thing that the field belongs to, by name: "Red loop" for loops[0].speed_kmh.
export function holderOf(document: unknown, path: string): string | undefined {
  const item = /^(.*\[\d+\])\./.exec(path)?.[1];
  if (!item) return undefined;
  const name = valueAt(document, `${item}.name`) ?? valueAt(document, `${item}.crew_point`);
  return typeof name === "string" && name !== "" ? name : holderOf(document, item);
}
