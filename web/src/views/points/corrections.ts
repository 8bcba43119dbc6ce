// Corrections of passes in the ride file: crew_points[].passes.
export interface Correction {
  loop: number;
  nth?: number;
  km: number;
}

const isOf = (loop: number, nth: number) => (it: Correction): boolean => it.loop === loop && (it.nth ?? 1) === nth;

export function withCorrection(list: Correction[] | undefined, loop: number, nth: number, km: number): Correction[] {
  const others = (list ?? []).filter((it) => !isOf(loop, nth)(it));
  return [...others, nth === 1 ? { loop, km } : { loop, nth, km }].sort((a, b) => a.loop - b.loop || (a.nth ?? 1) - (b.nth ?? 1));
}

// Nothing when none is left, so that the field goes.
export function withoutCorrection(list: Correction[] | undefined, loop: number, nth: number): Correction[] | undefined {
  const others = (list ?? []).filter((it) => !isOf(loop, nth)(it));
  return others.length > 0 ? others : undefined;
}

export const correctionOf = (list: Correction[] | undefined, loop: number, nth: number): Correction | undefined =>
  list?.find(isOf(loop, nth));
