// Whether the car moves, by the speed that the phone's positions give; a switch by hand says so too. Walking pace does not
// count, and it takes some seconds of standing before it counts as standing: a stop at a junction is still driving.
export const driving_mps = 4; // about 14 km/h: faster than a person runs with a bucket
export const stood_ms = 45_000;

export interface Movement {
  isMoving: boolean;
  lastFast: number | undefined; // when it was last fast enough
}
export const still: Movement = { isMoving: false, lastFast: undefined };

export function moved(before: Movement, speed_mps: number | null, at: number): Movement {
  if (speed_mps !== null && speed_mps >= driving_mps) return { isMoving: true, lastFast: at };
  if (!before.isMoving || before.lastFast === undefined) return before;
  return at - before.lastFast >= stood_ms ? still : before;
}
