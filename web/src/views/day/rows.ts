// The day as a list: what each car does in order, and the passes that nobody meets. Joins the plan with its drawing; no sums.
import type { PlanAnswer, Stop } from "../../engine/answers/plan";
import type { DayDrawing } from "../../engine/day_drawing";
import type { PassName } from "./changes";

export type Pass = PlanAnswer["passes"][number];
export type Errand = NonNullable<PlanAnswer["cars"][number]["errands"]>[number];

export interface StopRow {
  kind: "stop";
  key: string;
  stop: Stop;
  index: number; // of the stop in the day of its car
  label: string | undefined; // of its meet
  from: string; // where the car comes from
  leaveBy: string | undefined; // latest departure from there that still makes this meet
  isLate: boolean; // the plan leaves later than that on the median day
  pass: Pass | undefined;
  name: PassName | undefined;
}
export interface ErrandRow {
  kind: "errand";
  key: string;
  errand: Errand;
}
export interface CarRows {
  name: string;
  index: number;
  km: number;
  driving_min: number;
  back: string | undefined;
  rows: (StopRow | ErrandRow)[];
}
export interface UnmetRow {
  key: string;
  label: string;
  pass: Pass;
  name: PassName;
  isClosed: boolean;
}

const hasSeveral = (plan: PlanAnswer): boolean => plan.ride.horses.length > 1;

export function nameOf(plan: PlanAnswer, pass: { place: string; loop: number; nth?: number | undefined; horse?: string | undefined }): PassName {
  return {
    place: pass.place,
    loop: pass.loop,
    ...(pass.nth === undefined ? {} : { nth: pass.nth }),
    ...(hasSeveral(plan) && pass.horse !== undefined ? { horse: pass.horse } : {}),
  };
}

export function rowsOf(plan: PlanAnswer): CarRows[] {
  return plan.cars.map((car, index) => {
    const rows: CarRows["rows"] = [];
    const errandsAfter = (stop: number | undefined): void => {
      for (const errand of car.errands ?? []) {
        if (errand.after_stop === stop) rows.push({ kind: "errand", key: `errand ${errand.name} ${errand.start}`, errand });
      }
    };
    errandsAfter(undefined);
    car.stops.forEach((stop, i) => {
      const before = car.stops[i - 1];
      const { meet } = stop;
      const pass = meet
        ? plan.passes.find(
            (it) =>
              it.kind === meet.kind &&
              (meet.kind === "finish" || it.loop === meet.loop) &&
              it.nth_in_loop === meet.nth_in_loop &&
              (meet.horse === undefined || it.horse === meet.horse) &&
              it.name === stop.place,
          )
        : undefined;
      const leaveBy = meet && before?.next_meet?.label === meet.label ? before.leave_by : undefined;
      rows.push({
        kind: "stop",
        key: `${meet?.label ?? stop.kind} ${i}`,
        stop,
        index: i,
        label: meet?.label,
        from: before?.place ?? "",
        leaveBy,
        isLate: leaveBy !== undefined && Date.parse(stop.depart) > Date.parse(leaveBy),
        pass,
        name: pass ? nameOf(plan, { place: pass.name, loop: pass.loop, nth: pass.nth_in_loop, horse: pass.horse }) : undefined,
      });
      errandsAfter(i);
    });
    return { name: car.name, index, km: car.driven_km, driving_min: car.driving_min, back: car.back, rows };
  });
}

export function unmetOf(plan: PlanAnswer, drawing: DayDrawing): UnmetRow[] {
  const rows: UnmetRow[] = [];
  for (const pass of plan.passes) {
    if (pass.met_by !== undefined) continue;
    const point = drawing.points.find((it) => it.name === pass.name);
    const there = point?.passes.find((it) => it.loop === pass.loop && it.nth_in_loop === pass.nth_in_loop);
    if (pass.kind === "pass" && !there) continue;
    const label = there?.label ?? (pass.kind === "gate" ? `gate loop ${pass.loop}` : "finish");
    rows.push({
      key: `${pass.horse} ${pass.kind} ${pass.name} ${pass.loop} ${pass.nth_in_loop ?? 0}`,
      label,
      pass,
      name: nameOf(plan, { place: pass.name, loop: pass.loop, nth: pass.nth_in_loop, horse: pass.horse }),
      isClosed: pass.kind === "pass" && (point?.is_closed ?? false),
    });
  }
  return rows;
}

// A meet, with its car, by label.
export function meetOf(plan: PlanAnswer, label: string | undefined): { stop: Stop; car: string } | undefined {
  for (const car of plan.cars) {
    const stop = car.stops.find((it) => it.meet?.label === label);
    if (stop && label !== undefined) return { stop, car: car.name };
  }
  return undefined;
}

export interface ComparedRow {
  label: string;
  ride_km: number;
  a: { stop: Stop; car: string } | undefined;
  b: { stop: Stop; car: string } | undefined;
}

// Every meet of either plan, in order of the ride.
export function compared(a: PlanAnswer, b: PlanAnswer): ComparedRow[] {
  const rows = new Map<string, ComparedRow>();
  for (const plan of [a, b]) {
    for (const stop of plan.cars.flatMap((car) => car.stops)) {
      if (!stop.meet) continue;
      const { label, ride_km } = stop.meet;
      rows.set(label, { label, ride_km, a: meetOf(a, label), b: meetOf(b, label) });
    }
  }
  return [...rows.values()].sort((one, other) => one.ride_km - other.ride_km || one.label.localeCompare(other.label));
}
