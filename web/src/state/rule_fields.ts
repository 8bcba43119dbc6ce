// The rules that an event may set (docs/rules.md): each is a plain value or one with where it was said.
import type { Limits } from "../engine/answers/ride_limits";
import type { Measure } from "../format/units";

export interface RuleFacts extends Limits {
  name: string;
  measure?: Measure;
}
const minutes = { type: "number", minimum: 0, maximum: 10080, measure: "min" } as const;
const yes = { type: "boolean" } as const;

export const gateRules: RuleFacts[] = [
  { name: "pulse_limit_bpm", type: "number", minimum: 20, maximum: 250 },
  { name: "present_within_min", ...minutes },
  { name: "hold_min", ...minutes },
  { name: "hold_from", type: "choice", choices: ["in-time", "arrival"] },
  { name: "attempts", type: "integer", minimum: 1, maximum: 100 },
  { name: "present_again_within_min", ...minutes },
  { name: "present_after_min", ...minutes },
  { name: "clock_stops", type: "choice", choices: ["line", "in-time"] },
  { name: "pulse_must_be_below", ...yes },
  { name: "present_at_once", ...yes },
];
export const ownRules: RuleFacts[] = [
  { name: "min_speed_kmh", type: "number", exclusiveMinimum: 0, maximum: 60, measure: "kmh" },
  { name: "max_speed_kmh", type: "number", exclusiveMinimum: 0, maximum: 60, measure: "kmh" },
  { name: "time_limit_min", ...minutes },
  { name: "min_time_min", ...minutes },
  { name: "min_rider_weight_kg", type: "number", minimum: 0, maximum: 200, measure: "kg" },
  { name: "crew_at_gate", type: "integer", minimum: 0, maximum: 100 },
  { name: "people_at_inspection", type: "integer", minimum: 0, maximum: 100 },
  { name: "crew_needed_from_km", type: "number", minimum: 0, maximum: 1000, measure: "km" },
  { name: "crew_anywhere", ...yes },
  { name: "dark_as_scheduled", ...yes },
];

export interface RuleValue {
  value?: unknown;
  source?: string;
}
export function ruleIn(written: unknown): RuleValue {
  if (written === undefined || written === null) return {};
  if (typeof written === "object" && "value" in written) return written as RuleValue;
  return { value: written };
}
export const ruleOf = ({ value, source }: RuleValue): unknown =>
  value === undefined ? undefined : source ? { value, source } : value;
