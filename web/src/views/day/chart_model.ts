// The time-distance chart as places on the paper: the drawing of the day, scaled. All the chart's arithmetic is here; Chart.svelte
// writes it down as SVG.
import type { DayDrawing } from "../../engine/day_drawing";
import { spreadOut } from "../../draw/labels";
import { bandPath, linePath, type Spot } from "../../draw/path";
import { kmAt, kmBetween, type CarSpan, type Meet } from "../../draw/readout";
import { scaleBetween, type Scale, type Span } from "../../draw/scale";
import { timeTicks } from "../../draw/ticks";

export interface ChartSize {
  width: number;
  height: number;
}
export interface Row {
  km: number;
  y: number;
  labelY: number;
  name: string;
  loop: number; // 1 is the first
  nth: number | undefined; // where a loop comes by more than once
  kind: "start" | "pass" | "gate" | "finish";
  isMet: boolean;
  isClosed: boolean;
  label: string | undefined; // of the pass or meet
}
export interface Bar {
  kind: CarSpan["kind"];
  x: number;
  y: number;
  width: number;
  height: number;
  slack_min: number | undefined; // of a wait wide enough to write it under
}
export interface MeetMark {
  meet: Meet;
  x: number;
  y: number;
  early: number; // of the window, at its row
  late: number;
}
export interface PassMark {
  label: string;
  x: number;
  y: number;
}
export interface HorseDrawn {
  name: string;
  index: number;
  band: string;
  edges: string[];
  middle: string;
  holds: { accepted: number; out: number; y: number; out_s: number; hasRoom: boolean }[]; // room to write when it is out
  nameAt: Spot;
}
export interface CarDrawn {
  name: string;
  index: number;
  drives: string[];
  stays: string[];
  bars: Bar[];
  late: Bar[]; // the horse is there before the crew is ready
  leaveBys: { x: number; y: number; label: string; at_s: number }[];
  nameAt: Spot | undefined;
}
export interface ChartModel {
  isNarrow: boolean;
  plot: { left: number; top: number; right: number; bottom: number };
  strip: { top: number; bottom: number };
  x: Scale;
  y: Scale;
  ticks: { at_s: number; x: number; isAtStart: boolean }[]; // at the start there is its flag
  rows: Row[]; // that are on show
  names: Row[]; // those with room for a name
  loops: { name: string; index: number; top: number; bottom: number }[];
  dark: { x: number; width: number; kind: "twilight" | "night" }[];
  heat: { x: number; width: number; band: string; hasRoom: boolean }[];
  horses: HorseDrawn[];
  cars: CarDrawn[];
  meets: MeetMark[];
  unmet: PassMark[];
  start: { x: number; at_s: number };
}

const narrow = 520;
const pitch = 15; // between names of rows
const carDrop = 9; // cars lie below the row, so that a hold is not hidden by who waits for it
const carPitch = 10;
const barHeight = 7;
const letter = 6.2; // a small letter is about so wide
const ends = 0.015; // of the day, kept free at both ends
export const leastShown_s = 1800;

// What the chart can show at most: the day of the plan, and that of the plan it is compared with.
export function wholeDay(drawing: DayDrawing, other?: DayDrawing): Span {
  const from = Math.min(drawing.from_s, other?.from_s ?? Infinity);
  const to = Math.max(drawing.to_s, other?.to_s ?? -Infinity);
  const room = ends * (to - from);
  return { from: from - room, to: to + room };
}

export function chartModel(drawing: DayDrawing, size: ChartSize, part: Span, offsetAt: (at_s: number) => number, selected?: string): ChartModel {
  const isNarrow = size.width < narrow;
  const strip = { top: 2, bottom: drawing.heat.length > 0 ? 22 : 2 };
  const plot = { left: isNarrow ? 96 : 186, top: strip.bottom + 4, right: size.width - 8, bottom: size.height - 46 };
  const x = scaleBetween(part, { from: plot.left, to: plot.right });
  const shown = kmBetween(drawing, part.from, part.to);
  const least = Math.max(shown.to - shown.from, 3);
  const middle = (shown.from + shown.to) / 2;
  const y = scaleBetween({ from: middle - least / 2, to: middle + least / 2 }, { from: plot.bottom - 30, to: plot.top + 18 });
  const rows = rowsOf(drawing, y).filter((row) => row.y >= plot.top && row.y <= plot.bottom);
  const clampX = (at: number) => Math.min(Math.max(at, plot.left), plot.right);
  const boxes = <T extends { from_s: number; to_s: number }>(spans: T[]) =>
    spans
      .map((span) => ({ span, x: clampX(x.at(span.from_s)), width: clampX(x.at(span.to_s)) - clampX(x.at(span.from_s)) }))
      .filter(({ width }) => width > 0);
  return {
    isNarrow,
    plot,
    strip,
    x,
    y,
    ticks: timeTicks(part, plot.right - plot.left, isNarrow ? 46 : 58, offsetAt)
      .map((at_s) => ({ at_s, x: x.at(at_s), isAtStart: Math.abs(x.at(at_s) - x.at(startOf(drawing))) < 34 }))
      .filter((tick) => tick.x > plot.left + 14 && tick.x < plot.right - 12),
    rows,
    names: named(rows, plot, selected),
    loops: drawing.loops
      .map((loop, index) => ({
        name: loop.name,
        index,
        top: Math.max(y.at(loop.to_km), plot.top),
        bottom: Math.min(index === 0 ? plot.bottom : y.at(loop.from_km), plot.bottom),
      }))
      .filter((loop) => loop.bottom > loop.top),
    dark: boxes(drawing.dark).map(({ span, ...box }) => ({ ...box, kind: span.kind })),
    heat: boxes(drawing.heat).map(({ span, ...box }) => ({ ...box, band: span.band, hasRoom: span.band.length * letter + 12 < box.width })),
    horses: drawing.horses.map((horse, index) => horseDrawn(horse, index, x, y)),
    cars: drawing.cars.map((car, index) => carDrawn(car, index, drawing, x, y)),
    meets: drawing.meets.map((meet) => {
      const window = windowOf(drawing, meet);
      return { meet, x: x.at(meet.due_s), y: y.at(meet.km), early: x.at(window.from), late: x.at(window.to) };
    }),
    unmet: unmetMarks(drawing, x, y),
    start: { x: x.at(startOf(drawing)), at_s: startOf(drawing) },
  };
}

export const startOf = (drawing: DayDrawing): number => drawing.horses[0]?.knots[0]?.p50_s ?? drawing.from_s;

function rowsOf(drawing: DayDrawing, y: Scale): Row[] {
  const met = new Set(drawing.meets.map((meet) => Math.round(meet.km * 1000)));
  const metLabel = (km: number) => drawing.meets.find((meet) => Math.abs(meet.km - km) < 0.0005)?.label;
  const row = (km: number, name: string, kind: Row["kind"], loop: number): Row => ({
    km, name, kind, loop, nth: undefined, y: y.at(km), labelY: y.at(km), isMet: met.has(Math.round(km * 1000)), isClosed: false,
    label: kind === "start" ? undefined : metLabel(km),
  });
  const rows: Row[] = [row(0, drawing.venue.name, "start", 1)];
  drawing.loops.forEach((loop, index) => {
    const isLast = index === drawing.loops.length - 1;
    rows.push(row(loop.to_km, drawing.venue.name, isLast ? "finish" : "gate", index + 1));
  });
  for (const point of drawing.points) {
    for (const pass of point.passes) {
      const isRepeated = point.passes.some((other) => other !== pass && other.loop === pass.loop);
      rows.push({
        ...row(pass.ride_km, point.name, "pass", pass.loop),
        nth: isRepeated ? pass.nth_in_loop : undefined,
        isClosed: point.is_closed,
        label: metLabel(pass.ride_km) ?? pass.label,
      });
    }
  }
  return rows.sort((a, b) => b.km - a.km);
}

// Names where there is room: first those of passes that nobody meets go, then others; never those of gates.
function named(rows: Row[], plot: ChartModel["plot"], selected: string | undefined): Row[] {
  const weight = (row: Row) => (row.label !== undefined && row.label === selected ? 4 : row.kind !== "pass" ? 3 : row.isMet ? 2 : 1);
  const most = Math.floor((plot.bottom - plot.top) / pitch);
  const kept = rows
    .map((row, index) => ({ row, index }))
    .sort((a, b) => weight(b.row) - weight(a.row) || a.index - b.index)
    .slice(0, most)
    .sort((a, b) => a.index - b.index)
    .map(({ row }) => row);
  const places = spreadOut(kept.map((row) => row.y), pitch, plot.top + 6, plot.bottom - 4);
  return kept.map((row, index) => ({ ...row, labelY: places[index]! }));
}

function horseDrawn(horse: DayDrawing["horses"][number], index: number, x: Scale, y: Scale): HorseDrawn {
  const line = (quantile: "p10_s" | "p50_s" | "p90_s"): Spot[] => horse.knots.map((knot) => ({ x: x.at(knot[quantile]), y: y.at(knot.km) }));
  const [early, middle, late] = [line("p10_s"), line("p50_s"), line("p90_s")];
  return {
    name: horse.name,
    index,
    band: bandPath(early, late),
    edges: [linePath(early), linePath(late)],
    middle: linePath(middle),
    holds: horse.gates.map((gate) => ({ accepted: x.at(gate.accepted_s), out: x.at(gate.out_s), y: y.at(gate.km), out_s: gate.out_s, hasRoom: x.at(gate.out_s) - x.at(gate.in_s) > 66 })),
    nameAt: middle.at(-1) ?? { x: 0, y: 0 },
  };
}

function carDrawn(car: DayDrawing["cars"][number], index: number, drawing: DayDrawing, x: Scale, y: Scale): CarDrawn {
  const drop = carDrop + index * carPitch;
  const level = (km: number) => y.at(km) + drop;
  const drawn: CarDrawn = { name: car.name, index, drives: [], stays: [], bars: [], late: [], leaveBys: [], nameAt: undefined };
  let before: CarSpan | undefined;
  for (const span of car.spans) {
    const from = { x: x.at(span.from_s), y: level(span.from_km) };
    const to = { x: x.at(span.to_s), y: level(span.to_km) };
    if (before && before.to_km !== span.from_km) drawn.stays.push(linePath([{ x: from.x, y: level(before.to_km) }, from]));
    if (span.kind === "drive") {
      drawn.drives.push(linePath([from, to]));
      drawn.nameAt ??= { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
    } else if (span.kind === "free") {
      drawn.stays.push(linePath([from, to]));
    } else {
      const width = Math.max(to.x - from.x, 1);
      const slack_min = span.kind === "wait" && width > 44 ? Math.round((span.to_s - span.from_s) / 60) : undefined;
      drawn.bars.push({ kind: span.kind, x: from.x, y: from.y - barHeight / 2, width, height: barHeight, slack_min });
    }
    before = span;
  }
  for (const meet of drawing.meets) {
    if (meet.car !== car.name) continue;
    const y0 = level(meet.km);
    if (meet.leave_by_s !== null) drawn.leaveBys.push({ x: x.at(meet.leave_by_s), y: y0, label: meet.label, at_s: meet.leave_by_s });
    if (meet.ready_s > meet.due_s) {
      const from = x.at(meet.due_s);
      drawn.late.push({ kind: "setup", x: from, y: y0 - barHeight / 2 - 2, width: x.at(meet.ready_s) - from, height: barHeight + 4, slack_min: undefined });
    }
  }
  return drawn;
}

function windowOf(drawing: DayDrawing, meet: Meet): Span {
  const horse = drawing.horses.find((it) => it.name === meet.horse) ?? drawing.horses[0];
  const knot = horse?.knots.find((it) => Math.abs(it.km - meet.km) < 0.0005);
  return knot ? { from: knot.p10_s, to: knot.p90_s } : { from: meet.due_s, to: meet.due_s };
}

// Passes that nobody meets lie on the median line of the first horse.
function unmetMarks(drawing: DayDrawing, x: Scale, y: Scale): PassMark[] {
  const met = new Set(drawing.meets.map((meet) => meet.label));
  const horse = drawing.horses[0];
  return drawing.points
    .flatMap((point) => point.passes)
    .filter((pass) => !met.has(pass.label))
    .flatMap((pass) => {
      const knot = horse?.knots.find((it) => Math.abs(it.km - pass.ride_km) < 0.0005);
      return knot ? [{ label: pass.label, x: x.at(knot.p50_s), y: y.at(pass.ride_km) }] : [];
    });
}

// The meet or pass nearest to a place, if within reach.
export function nearest(model: ChartModel, spot: Spot, reach = 28): string | undefined {
  let best: { label: string; far: number } | undefined;
  for (const { label, x, y } of [...model.meets.map(({ meet, ...at }) => ({ label: meet.label, ...at })), ...model.unmet]) {
    const far = Math.hypot(x - spot.x, y - spot.y);
    if (far <= reach && (best === undefined || far < best.far)) best = { label, far };
  }
  return best?.label;
}

// The next meet in time, or the one before.
export function neighbour(drawing: DayDrawing, label: string | undefined, by: 1 | -1): string | undefined {
  const meets = drawing.meets.toSorted((a, b) => a.due_s - b.due_s);
  const index = meets.findIndex((meet) => meet.label === label);
  if (index < 0) return (by > 0 ? meets[0] : meets.at(-1))?.label;
  return meets[index + by]?.label ?? label;
}

// Dots on the median lines at a time.
export function horseDots(drawing: DayDrawing, model: ChartModel, at_s: number): Spot[] {
  return drawing.horses.flatMap((horse) => {
    const km = kmAt(horse, at_s, "p50_s");
    return km === undefined ? [] : [{ x: model.x.at(at_s), y: model.y.at(km) }];
  });
}

