// What is where at one time, read off a drawing of the day.
import type { DayDrawing } from "../engine/day_drawing";

export type Horse = DayDrawing["horses"][number];
export type Car = DayDrawing["cars"][number];
export type CarSpan = Car["spans"][number];
export type Meet = DayDrawing["meets"][number];
export type Quantile = "p10_s" | "p50_s" | "p90_s";

export interface HorseThere {
  name: string;
  km: number; // on the median day
  least_km: number; // on a slow day: of ten, one is slower
  most_km: number; // on a quick day
  gate: number | undefined; // the loop whose gate holds it
}

// Where a horse is whose times are one of the three quantiles; nothing before it starts and after it is in.
export function kmAt(horse: Horse, at_s: number, quantile: Quantile): number | undefined {
  const { knots } = horse;
  const after = knots.findIndex((knot) => knot[quantile] >= at_s);
  if (after < 0) return undefined;
  const knot = knots[after]!;
  const before = knots[after - 1];
  if (!before) return knot[quantile] === at_s ? knot.km : undefined;
  const span = knot[quantile] - before[quantile];
  return before.km + (span > 0 ? (at_s - before[quantile]) / span : 1) * (knot.km - before.km);
}

export function horseAt(horse: Horse, at_s: number): HorseThere | undefined {
  const km = kmAt(horse, at_s, "p50_s");
  if (km === undefined) return undefined;
  const first = horse.knots[0]!.km;
  const last = horse.knots.at(-1)!.km;
  const hasStarted = at_s >= horse.knots[0]!.p90_s;
  return {
    name: horse.name,
    km,
    least_km: kmAt(horse, at_s, "p90_s") ?? (hasStarted ? last : first),
    most_km: kmAt(horse, at_s, "p10_s") ?? last,
    gate: horse.gates.find((gate) => at_s >= gate.in_s && at_s <= gate.out_s)?.loop,
  };
}

export const spanAt = (car: Car, at_s: number): CarSpan | undefined =>
  car.spans.find((span) => at_s >= span.from_s && at_s < span.to_s);

export const darkAt = (drawing: DayDrawing, at_s: number): DayDrawing["dark"][number] | undefined =>
  drawing.dark.find((span) => at_s >= span.from_s && at_s < span.to_s);
export const heatAt = (drawing: DayDrawing, at_s: number): DayDrawing["heat"][number] | undefined =>
  drawing.heat.find((span) => at_s >= span.from_s && at_s < span.to_s);

// The kilometres that the horses are at between two times, so that a part of the day fills the chart.
export function kmBetween(drawing: DayDrawing, from_s: number, to_s: number): { from: number; to: number } {
  const at: number[] = [];
  for (const horse of drawing.horses) {
    for (const knot of horse.knots) {
      if (knot.p90_s >= from_s && knot.p10_s <= to_s) at.push(knot.km);
    }
    for (const [time, quantile] of [
      [from_s, "p90_s"],
      [from_s, "p50_s"],
      [to_s, "p50_s"],
      [to_s, "p10_s"],
    ] as const) {
      const km = kmAt(horse, time, quantile);
      if (km !== undefined) at.push(km);
    }
  }
  if (at.length === 0) return { from: 0, to: drawing.length_km };
  return { from: Math.min(...at), to: Math.max(...at) };
}
