// A loop of the course as a line that can be asked both ways: which place is at a kilometre, and which kilometre at a place.
// The line of a drawing is simplified and so a little short; the engine's marks at each whole kilometre put it right, and
// between two of them the kilometre runs evenly.
import { between, distance_m, nearestOnSegment, type Place } from "./ground";
import type { DayDrawing } from "../engine/day_drawing";

export type DrawnLoop = DayDrawing["loops"][number];
interface Corner {
  place: Place;
  km: number; // of the ride
}
export interface CourseLine {
  corners: Corner[]; // km ascends
  from_km: number;
  to_km: number;
}

export function courseLine(loop: DrawnLoop): CourseLine {
  // How far along the line each corner and each mark is, in metres of the line itself.
  const alongs = [0];
  for (let i = 1; i < loop.line.length; i++) alongs.push(alongs[i - 1]! + distance_m(loop.line[i - 1]!, loop.line[i]!));
  const known: { along: number; km: number }[] = [{ along: 0, km: loop.from_km }];
  let segment = 0;
  for (const mark of loop.km_marks) {
    const found = firstNear(loop.line, alongs, mark.position, segment, known.at(-1)!.along);
    if (!found) continue;
    segment = found.segment;
    known.push({ along: found.along, km: mark.km });
  }
  const whole = alongs.at(-1) ?? 0;
  if (whole > known.at(-1)!.along) known.push({ along: whole, km: loop.to_km });
  else known.at(-1)!.km = loop.to_km;
  let k = 0;
  const corners = loop.line.map((place, i): Corner => {
    const along = alongs[i]!;
    while (k + 2 < known.length && along > known[k + 1]!.along) k++;
    const from = known[k]!;
    const to = known[k + 1] ?? from;
    const share = to.along > from.along ? (along - from.along) / (to.along - from.along) : 0;
    return { place, km: from.km + share * (to.km - from.km) };
  });
  return { corners, from_km: loop.from_km, to_km: loop.to_km };
}

// A mark is looked for where it should come by: within two and a half kilometres of line behind the one before, so that on an
// out-and-back it is not found on the way home.
function firstNear(line: Place[], alongs: number[], place: Place, from: number, after: number) {
  let best: { segment: number; along: number; distance_m: number } | undefined;
  for (let i = from; i + 1 < line.length && alongs[i]! < after + 2500; i++) {
    const near = nearestOnSegment(place, line[i]!, line[i + 1]!);
    const along = alongs[i]! + near.share * (alongs[i + 1]! - alongs[i]!);
    // A kilometre of course is never shorter than 800 m of the simplified line, but for a wild one.
    if (along < after + 500 && after > 0) continue;
    if (!best || near.distance_m < best.distance_m - 1) best = { segment: i, along, distance_m: near.distance_m };
  }
  return best && best.distance_m < 60 ? best : undefined;
}

export function placeAt(line: CourseLine, km: number): Place {
  const { corners } = line;
  const after = corners.findIndex((corner) => corner.km >= km);
  if (after === -1) return corners.at(-1)!.place;
  if (after === 0) return corners[0]!.place;
  const a = corners[after - 1]!;
  const b = corners[after]!;
  return between(a.place, b.place, b.km > a.km ? (km - a.km) / (b.km - a.km) : 0);
}

// The nearest place of the line between two kilometres.
export function nearestOn(line: CourseLine, place: Place, from_km: number, to_km: number): { km: number; place: Place; distance_m: number } {
  let best = { km: from_km, place: placeAt(line, from_km), distance_m: Infinity };
  best.distance_m = distance_m(place, best.place);
  for (let i = 0; i + 1 < line.corners.length; i++) {
    const a = line.corners[i]!;
    const b = line.corners[i + 1]!;
    if (b.km < from_km || a.km > to_km) continue;
    const near = nearestOnSegment(place, a.place, b.place);
    const km = Math.min(to_km, Math.max(from_km, a.km + near.share * (b.km - a.km)));
    const at = placeAt(line, km);
    const distance = distance_m(place, at);
    if (distance < best.distance_m) best = { km, place: at, distance_m: distance };
  }
  return best;
}

// Places at each whole unit along a loop, counted from its start: `unit_km` is 1, or the length of a mile.
export function marksAlong(line: CourseLine, unit_km: number): { count: number; place: Place }[] {
  const marks: { count: number; place: Place }[] = [];
  for (let count = 1; count * unit_km < line.to_km - line.from_km - 0.05; count++) {
    marks.push({ count, place: placeAt(line, line.from_km + count * unit_km) });
  }
  return marks;
}
