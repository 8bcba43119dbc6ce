// The fields of a ride that somebody assumed and that a person may know better, in the order of how much they matter. The list
// is the same before and after one is set, so that it does not jump while it is worked through.
import type { RideDocument } from "../engine/answers/ride";
import { usualOf } from "./ride_fields";
import { isSame } from "./differences";
import { valueAt } from "./path";

export function assumedPaths(document: RideDocument): string[] {
  const loops = document.loops?.map((_, index) => `loops[${index}].hold_min`) ?? [];
  return [
    "default_pace.speed_is",
    ...(loops.length > 0 ? loops.slice(0, -1) : ["default_pace.hold_min"]),
    "default_pace.recovery_min",
    "stop_min",
    "setup_min",
    "pack_min",
    "water_per_meet_litres",
    "crewing.water_interval_km",
    "crewing.longest_wait_min",
    "crewing.drive_allowance",
    ...(document.horses ?? []).flatMap((_, index) => [`horses[${index}].mass_kg`]),
    ...(document.cars ?? []).flatMap((_, index) => [`cars[${index}].water_litres`, `cars[${index}].fuel_range_km`]),
    "time_zone",
    "country",
  ];
}

// Left out, as it usually is, or as it was drafted: nobody has said otherwise.
export const isAssumed = (document: RideDocument, path: string, drafted: Record<string, unknown>): boolean => {
  const value = valueAt(document, path);
  return value === undefined || isSame(value, usualOf(document, path)) || isSame(value, drafted[path]);
};
