// Plan A: a plan kept to compare with, by ride, while the page is open.
import type { PlanAnswer } from "../../engine/answers/plan";
import type { RideDocument } from "../../engine/answers/ride";
import type { DayDrawing } from "../../engine/day_drawing";
import type { RideState } from "../../state/ride_state.svelte";

export interface KeptPlan {
  document: RideDocument;
  plan: PlanAnswer;
  drawing: DayDrawing;
}

class Kept {
  a = $state.raw<KeptPlan>();
}
const byRide = new WeakMap<RideState, Kept>();

export function keptOf(ride: RideState): Kept {
  const kept = byRide.get(ride) ?? new Kept();
  byRide.set(ride, kept);
  return kept;
}
