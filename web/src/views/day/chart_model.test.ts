import { describe, expect, it } from "vitest";
import type { DayDrawing } from "../../engine/day_drawing";
import { chartModel, nearest, neighbour, startOf, wholeDay } from "./chart_model";

const drawing: DayDrawing = {
  version: 1,
  from_s: 36000,
  to_s: 50000,
  length_km: 20,
  time_zone_offsets: [{ from_s: 0, offset_s: 3600 }],
  venue: { name: "Venue", position: [0, 50] },
  loops: [
    { name: "Red", from_km: 0, to_km: 10, line: [], km_marks: [], heights: [] },
    { name: "Blue", from_km: 10, to_km: 20, line: [], km_marks: [], heights: [] },
  ],
  points: [
    {
      name: "Ford", position: [0, 50], parking: [0, 50], is_closed: false,
      passes: [
        { label: "Ford loop 1", loop: 1, nth_in_loop: 1, ride_km: 4, position: [0, 50] },
        { label: "Ford loop 2", loop: 2, nth_in_loop: 1, ride_km: 14, position: [0, 50] },
      ],
    },
  ],
  horses: [
    {
      name: "Juno",
      knots: [
        { km: 0, p10_s: 37000, p50_s: 37000, p90_s: 37000 },
        { km: 4, p10_s: 38000, p50_s: 38200, p90_s: 38500 },
        { km: 10, p10_s: 40000, p50_s: 40400, p90_s: 41000 },
        { km: 10, p10_s: 42000, p50_s: 42600, p90_s: 43500 },
        { km: 14, p10_s: 43000, p50_s: 44000, p90_s: 45500 },
        { km: 20, p10_s: 45500, p50_s: 46500, p90_s: 48500 },
      ],
      gates: [{ km: 10, loop: 1, in_s: 40400, accepted_s: 40700, out_s: 42600 }],
    },
  ],
  cars: [
    {
      name: "Van",
      spans: [
        { kind: "drive", from_s: 36500, to_s: 36900, from_km: 0, to_km: 4, stop: 0 },
        { kind: "setup", from_s: 36900, to_s: 37100, from_km: 4, to_km: 4, stop: 0 },
        { kind: "wait", from_s: 37100, to_s: 38200, from_km: 4, to_km: 4, stop: 0 },
        { kind: "meet", from_s: 38200, to_s: 38400, from_km: 4, to_km: 4, stop: 0 },
        { kind: "pack", from_s: 38400, to_s: 38600, from_km: 4, to_km: 4, stop: 0 },
      ],
      drives: [],
    },
  ],
  meets: [
    { label: "Ford loop 1", car: "Van", horse: "Juno", stop: 0, km: 4, due_s: 38200, ready_s: 37100, leave_by_s: 40000, chance_ready: 0.97, odds: "all but sure" },
    { label: "gate loop 1", car: "Van", horse: "Juno", stop: 1, km: 10, due_s: 40400, ready_s: 40500, leave_by_s: null, chance_ready: 0.4, odds: "unlikely" },
  ],
  dark: [],
  heat: [{ from_s: 36000, to_s: 50000, band: "comfortable" }],
};
const size = { width: 900, height: 600 };
const model = (part = wholeDay(drawing), width = 900) => chartModel(drawing, { ...size, width }, part, () => 3600);

describe("the chart", () => {
  it("puts later to the right and farther up", () => {
    const { x, y } = model();
    expect(x.at(40000)).toBeGreaterThan(x.at(39000));
    expect(y.at(15)).toBeLessThan(y.at(5));
  });
  it("keeps everything of the whole day inside the plot, wide and narrow", () => {
    for (const width of [320, 390, 900, 1600]) {
      const { plot, meets, rows } = model(undefined, width);
      for (const mark of meets) {
        expect(mark.x).toBeGreaterThan(plot.left);
        expect(mark.x).toBeLessThan(plot.right);
      }
      for (const row of rows) expect(row.y > plot.top && row.y < plot.bottom).toBe(true);
      expect(rows.length).toBe(5);
    }
  });
  it("shows a part of the day as large as the plot, distance and all", () => {
    const { y, rows, plot } = model({ from: 37000, to: 39000 });
    expect(rows.map((row) => row.km)).toEqual([4, 0]);
    expect(y.at(0)).toBeLessThan(plot.bottom);
    expect(y.at(10)).toBeLessThan(plot.top);
  });
  it("marks a meet at its median time, with its window about it", () => {
    const [mark] = model().meets;
    expect(mark!.early).toBeLessThan(mark!.x);
    expect(mark!.late).toBeGreaterThan(mark!.x);
  });
  it("marks a pass that nobody meets apart", () => {
    expect(model().unmet.map((mark) => mark.label)).toEqual(["Ford loop 2"]);
  });
  it("draws the bars of a car end to end, below its row", () => {
    const [van] = model().cars;
    const bars = van!.bars;
    for (let i = 1; i < bars.length; ++i) expect(bars[i]!.x).toBeCloseTo(bars[i - 1]!.x + bars[i - 1]!.width, 6);
    expect(bars[0]!.y + bars[0]!.height / 2).toBeGreaterThan(model().meets[0]!.y);
    expect(bars.find((bar) => bar.kind === "wait")!.slack_min).toBe(18);
  });
  it("marks a horse that comes before the crew is ready", () => {
    const [van] = model().cars;
    expect(van!.late).toHaveLength(1);
    expect(van!.late[0]!.width).toBeGreaterThan(0);
  });
});

describe("picking", () => {
  it("takes the nearest meet or pass within reach", () => {
    const drawn = model();
    const { x, y } = drawn.meets[1]!;
    expect(nearest(drawn, { x: x + 5, y: y - 4 })).toBe("gate loop 1");
    expect(nearest(drawn, { x: drawn.unmet[0]!.x, y: drawn.unmet[0]!.y })).toBe("Ford loop 2");
    expect(nearest(drawn, { x: x + 200, y: y + 200 })).toBeUndefined();
  });
  it("goes from meet to meet in time and stays at the last", () => {
    expect(neighbour(drawing, undefined, 1)).toBe("Ford loop 1");
    expect(neighbour(drawing, "Ford loop 1", 1)).toBe("gate loop 1");
    expect(neighbour(drawing, "gate loop 1", 1)).toBe("gate loop 1");
    expect(neighbour(drawing, "gate loop 1", -1)).toBe("Ford loop 1");
  });
});

it("the whole day holds that of the plan it is compared with", () => {
  const whole = wholeDay(drawing, { ...drawing, from_s: 30000, to_s: 60000 });
  expect(whole.from).toBeLessThan(30000);
  expect(whole.to).toBeGreaterThan(60000);
  expect(startOf(drawing)).toBe(37000);
});
