// All that the map shows, as one list that the map, the sketch and the words beside them are made from. Joins the drawing of the
// day with what the ride file says of its places.
import type { RideDocument } from "../engine/answers/ride";
import type { DayDrawing } from "../engine/day_drawing";
import type { Odds } from "../format/formats";
import { courseLine, placeAt, type CourseLine } from "./course_line";
import { distance_m, type Place } from "./ground";

export interface MarkedPass {
  label: string; // names it everywhere: the map, the chart, the lists
  point: number; // in DayMap.points
  loop: number; // 1 is the first
  nth: number; // within the loop
  ride_km: number;
  loop_km: number;
  place: Place;
  due_s: number | undefined; // the median, of the horse that is met, else of the first
  meet: { car: string; odds: Odds; chance: number } | undefined; // the least likely, where several horses are met
}
export interface MarkedPoint {
  name: string;
  place: Place;
  parking: Place | undefined; // where it is not where the horse is met
  isClosed: boolean;
  isVenue: boolean;
  hasWater: boolean;
  passes: MarkedPass[];
}
export type SpotKind = "hazard" | "water" | "fuel" | "trough" | "errand";
export interface MarkedSpot {
  kind: SpotKind;
  key: string;
  name: string;
  place: Place;
  at: string | undefined; // the crew point that it belongs to
}
export interface MarkedLoop {
  name: string;
  from_km: number;
  to_km: number;
  line: Place[];
  course: CourseLine;
}
export interface MarkedDrive {
  car: number;
  stop: number;
  line: Place[];
  to: string | undefined; // label of the meet that it leads to
}
export interface DayMap {
  points: MarkedPoint[]; // the venue first
  passes: MarkedPass[]; // along the ride, the gates among them
  spots: MarkedSpot[];
  loops: MarkedLoop[];
  cars: string[];
  drives: MarkedDrive[];
}

const sameName = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();
const placeOf = (position: { lat: number; lon: number }): Place => [position.lon, position.lat];
const apart_m = 15; // nearer, a car stands where the horse is met
const nearKm = 0.0015; // kilometres of a drawing are whole metres

export function dayMap(drawing: DayDrawing, document: RideDocument): DayMap {
  const loops = drawing.loops.map((loop): MarkedLoop => ({
    name: loop.name,
    from_km: loop.from_km,
    to_km: loop.to_km,
    line: loop.line,
    course: courseLine(loop),
  }));
  const passAt = (label: string, point: number, loop: number, nth: number, ride_km: number, place: Place): MarkedPass => {
    const meets = drawing.meets.filter((meet) => meet.label === label);
    const meet = meets.reduce<(typeof meets)[number] | undefined>(
      (least, it) => (!least || it.chance_ready < least.chance_ready ? it : least),
      undefined,
    );
    const knot = drawing.horses[0]?.knots.find((it) => Math.abs(it.km - ride_km) < nearKm);
    return {
      label, point, loop, nth, ride_km,
      loop_km: ride_km - (drawing.loops[loop - 1]?.from_km ?? 0),
      place,
      due_s: meet?.due_s ?? knot?.p50_s,
      meet: meet && { car: meet.car, odds: meet.odds, chance: meet.chance_ready },
    };
  };

  const inDocument = (name: string) => document.crew_points?.find((it) => sameName(it.name, name));
  // What a hand has just corrected is shown at once; the engine's answer follows.
  const corrected = (pass: MarkedPass, name: string): MarkedPass => {
    const correction = inDocument(name)?.passes?.find((it) => it.loop === pass.loop && (it.nth ?? 1) === pass.nth);
    const loop = loops[pass.loop - 1];
    if (!correction || !loop || Math.abs(correction.km - pass.loop_km) < nearKm) return pass;
    const ride_km = Math.min(loop.to_km, loop.from_km + correction.km);
    return { ...pass, ride_km, loop_km: ride_km - loop.from_km, place: placeAt(loop.course, ride_km) };
  };
  const points = drawing.points.map((point, i): MarkedPoint => ({
    name: point.name,
    place: point.position,
    parking: distance_m(point.position, point.parking) > apart_m ? point.parking : undefined,
    isClosed: point.is_closed,
    isVenue: false,
    hasWater: inDocument(point.name)?.has_water ?? false,
    passes: point.passes.map((pass) =>
      corrected(passAt(pass.label, i + 1, pass.loop, pass.nth_in_loop, pass.ride_km, pass.position), point.name),
    ),
  }));
  // Gates and the finish are met at the venue, where each loop ends.
  const gates = drawing.loops.map((loop, i) => {
    const label = i + 1 === drawing.loops.length ? "finish" : `gate loop ${i + 1}`;
    return passAt(label, 0, i + 1, 1, loop.to_km, drawing.venue.position);
  });
  points.unshift({
    name: drawing.venue.name, place: drawing.venue.position, parking: undefined,
    isClosed: false, isVenue: true, hasWater: false, passes: gates,
  });

  return {
    points,
    passes: points.flatMap((point) => point.passes).sort((a, b) => a.ride_km - b.ride_km || a.point - b.point),
    spots: spotsOf(drawing, document, loops),
    loops,
    cars: drawing.cars.map((car) => car.name),
    drives: drawing.cars.flatMap((car, i) =>
      car.drives.map((drive): MarkedDrive => ({
        car: i,
        stop: drive.stop,
        line: drive.line,
        to: drawing.meets.find((meet) => meet.car === car.name && meet.stop === drive.stop)?.label,
      })),
    ),
  };
}

function spotsOf(drawing: DayDrawing, document: RideDocument, loops: MarkedLoop[]): MarkedSpot[] {
  const spots: MarkedSpot[] = [];
  document.crew_points?.forEach((point, p) => {
    const drawn = drawing.points.find((it) => sameName(it.name, point.name));
    point.hazards?.forEach((hazard, h) => {
      const place = hazard.position ? placeOf(hazard.position) : drawn?.position;
      if (place) spots.push({ kind: "hazard", key: `hazard ${p} ${h}`, name: hazard.what, place, at: point.name });
    });
  });
  document.refills?.forEach((refill, i) => {
    const kind = refill.water ? "water" : "fuel";
    spots.push({ kind, key: `refill ${i}`, name: refill.name, place: placeOf(refill.position), at: undefined });
  });
  document.errands?.forEach((errand, i) =>
    spots.push({ kind: "errand", key: `errand ${i}`, name: errand.name, place: placeOf(errand.position), at: undefined }),
  );
  document.waters?.forEach((water, i) => {
    const loop = loops[water.loop - 1];
    if (!loop) return;
    const place = placeAt(loop.course, loop.from_km + water.km);
    spots.push({ kind: "trough", key: `water ${i}`, name: water.name ?? "", place, at: undefined });
  });
  return spots;
}

// Every place that should be on show at first.
export const placesOf = (map: DayMap): Place[] => [
  ...map.loops.flatMap((loop) => loop.line),
  ...map.points.map((point) => point.place),
];

// The pass before or after one, along the ride; from none, the first or the last.
export function nextPass(map: DayMap, label: string | undefined, step: 1 | -1): MarkedPass | undefined {
  const at = map.passes.findIndex((pass) => pass.label === label);
  if (at === -1) return map.passes.at(step === 1 ? 0 : -1);
  return map.passes[at + step];
}

// What a point shows when it is pressed: the next of its passes, in turn.
export function passOnPress(point: MarkedPoint, selected: string | undefined): MarkedPass | undefined {
  const at = point.passes.findIndex((pass) => pass.label === selected);
  return point.passes[(at + 1) % Math.max(point.passes.length, 1)];
}
