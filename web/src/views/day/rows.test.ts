import { describe, expect, it } from "vitest";
import type { PlanAnswer } from "../../engine/answers/plan";
import type { DayDrawing } from "../../engine/day_drawing";
import { compared, rowsOf, unmetOf } from "./rows";

const window = { p10: "2026-06-13T07:28:00+01:00", p50: "2026-06-13T07:30:00+01:00", p90: "2026-06-13T07:35:00+01:00" };
const drive = { length_km: 2, at_limits_min: 3, planned_min: 4 };
const times = { depart: "2026-06-13T07:10:00+01:00", arrive: "2026-06-13T07:14:00+01:00", ready: "2026-06-13T07:18:00+01:00", leave: "2026-06-13T07:40:00+01:00" };
const ford = { label: "Ford loop 1", kind: "pass" as const, loop: 1, nth_in_loop: 1, ride_km: 6 };
const finish = { label: "finish", kind: "finish" as const, loop: 2, ride_km: 30 };
const pass = { horse: "Juno", loop: 1, loop_km: 6, ride_km: 6, due: window, out: window };

// A van that meets the first pass and the finish, with an errand between; the pass at the tor is left out.
function small(change: (plan: PlanAnswer) => void = () => {}): PlanAnswer {
  const plan = {
    ride: { horses: [{ name: "Juno" }] },
    cars: [
      {
        name: "Van",
        driven_km: 12,
        driving_min: 20,
        stops: [
          { kind: "meet", place: "Ford", meet: ford, drive, ...times, due: window, chance_ready: 0.9, leave_by: "2026-06-13T07:45:00+01:00", next_meet: finish },
          { kind: "meet", place: "Venue", meet: finish, drive, ...times, depart: "2026-06-13T07:50:00+01:00", due: window, chance_ready: 0.7 },
        ],
        errands: [{ name: "Ice", drive, ...times, start: times.arrive, latest_start: times.leave, after_stop: 0 }],
      },
    ],
    passes: [
      { ...pass, kind: "pass", name: "Ford", nth_in_loop: 1, is_met: true, met_by: "Van" },
      { ...pass, kind: "pass", name: "Tor", nth_in_loop: 1, ride_km: 13, is_met: false },
      { ...pass, kind: "finish", name: "Venue", loop: 2, ride_km: 30, is_met: true, met_by: "Van" },
    ],
  } as unknown as PlanAnswer;
  change(plan);
  return plan;
}
const drawing = {
  points: [
    { name: "Ford", is_closed: false, passes: [{ label: "Ford loop 1", loop: 1, nth_in_loop: 1 }] },
    { name: "Tor", is_closed: true, passes: [{ label: "Tor loop 1", loop: 1, nth_in_loop: 1 }] },
  ],
} as unknown as DayDrawing;

describe("the rows of a car", () => {
  const [van] = rowsOf(small());
  it("are its stops in order, with errands where they are run", () => {
    expect(van!.rows.map((row) => (row.kind === "stop" ? row.label : row.errand.name))).toEqual(["Ford loop 1", "Ice", "finish"]);
  });
  it("have the latest departure of the drive into the meet, and say when the plan leaves later", () => {
    const stops = van!.rows.filter((row) => row.kind === "stop");
    expect(stops.map((row) => row.leaveBy)).toEqual([undefined, "2026-06-13T07:45:00+01:00"]);
    expect(stops.map((row) => row.isLate)).toEqual([false, true]);
    expect(stops[1]!.from).toBe("Ford");
  });
  it("name each pass as wishes do, with its horse only where there are several", () => {
    expect(van!.rows[0]).toMatchObject({ name: { place: "Ford", loop: 1, nth: 1 } });
    const [other] = rowsOf(small((plan) => plan.ride.horses.push({ name: "Ceres" })));
    expect(other!.rows[0]).toMatchObject({ name: { place: "Ford", loop: 1, nth: 1, horse: "Juno" } });
  });
});

it("a pass that nobody meets is listed apart, closed or not", () => {
  expect(unmetOf(small(), drawing)).toMatchObject([{ label: "Tor loop 1", isClosed: true, name: { place: "Tor", loop: 1, nth: 1 } }]);
});

it("two plans are compared meet by meet in order of the ride, also those that only one has", () => {
  const without = small((plan) => plan.cars[0]!.stops.shift());
  const rows = compared(small(), without);
  expect(rows.map((row) => row.label)).toEqual(["Ford loop 1", "finish"]);
  expect(rows[0]!.b).toBeUndefined();
  expect(rows[1]!.a!.car).toBe("Van");
});
