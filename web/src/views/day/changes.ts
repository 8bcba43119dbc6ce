// Changes by hand as edits of the ride: what is written where. Pure: from one document to paths and values.
import type { RideDocument } from "../../engine/answers/ride";
import type { DayDrawing } from "../../engine/day_drawing";

export type Wish = NonNullable<RideDocument["wishes"]>[number];

// One passing of one place by one horse, as wishes name it.
export interface PassName {
  place: string;
  loop: number;
  nth?: number;
  horse?: string; // only where the ride has several
}

export type Wanted = { kind: "free" } | { kind: "never" } | { kind: "must"; car?: string };

const isSameName = (a: string | undefined, b: string | undefined): boolean => a?.toLowerCase() === b?.toLowerCase();

const isAbout = (wish: Wish, pass: PassName): boolean =>
  isSameName(wish.crew_point, pass.place) &&
  (wish.loop === undefined || wish.loop === pass.loop) &&
  (wish.nth === undefined || pass.nth === undefined || wish.nth === pass.nth) &&
  (wish.horse === undefined || pass.horse === undefined || isSameName(wish.horse, pass.horse));

const isExactly = (wish: Wish, pass: PassName): boolean =>
  isAbout(wish, pass) && wish.loop !== undefined && (pass.nth === undefined || wish.nth !== undefined) && (pass.horse === undefined || wish.horse !== undefined);

const particularity = (wish: Wish): number =>
  Number(wish.loop !== undefined) + Number(wish.nth !== undefined) + Number(wish.horse !== undefined);

// What holds for a pass: the more particular wish wins, the later of equals, as in the engine.
export function wantedOf(wishes: Wish[] | undefined, pass: PassName): Wanted {
  const about = (wishes ?? []).filter((wish) => isAbout(wish, pass)).sort((a, b) => particularity(a) - particularity(b));
  const demand = about.findLast((wish) => wish.demand !== undefined)?.demand;
  const car = about.findLast((wish) => wish.car !== undefined)?.car;
  if (demand === "never") return { kind: "never" };
  if (demand === "must" || car !== undefined) return { kind: "must", ...(car === undefined ? {} : { car }) };
  return { kind: "free" };
}

// The wishes with that one: what else is wished for the pass (worth, stop, water) stays.
export function withWanted(wishes: Wish[] | undefined, pass: PassName, wanted: Wanted): Wish[] | undefined {
  const kept: Wish[] = [];
  let rest: Partial<Wish> = {};
  for (const wish of wishes ?? []) {
    if (isExactly(wish, pass)) {
      const { demand: _demand, car: _car, ...other } = wish;
      rest = { ...rest, ...other };
    } else {
      kept.push(wish);
    }
  }
  const general = wantedOf(kept, pass);
  const said: Partial<Wish> =
    wanted.kind === "must" ? { demand: "must", ...(wanted.car === undefined ? {} : { car: wanted.car }) }
    : wanted.kind === "never" ? { demand: "never" }
    : general.kind === "free" ? {}
    : { demand: "free" };
  const about = {
    crew_point: pass.place,
    loop: pass.loop,
    ...(pass.nth === undefined ? {} : { nth: pass.nth }),
    ...(pass.horse === undefined ? {} : { horse: pass.horse }),
  };
  const wish: Wish = { ...about, ...rest, ...said };
  const says = Object.keys(wish).some((key) => !["crew_point", "loop", "nth", "horse"].includes(key));
  const all = says ? [...kept, wish] : kept;
  return all.length > 0 ? all : undefined;
}

// "2026-06-13T07:00:00+01:00" so many minutes later, written as it was: with its offset, or on the clock of the ride.
export function laterTime(written: string, minutes: number): string {
  const match = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d)(:\d\d)?(?:\.\d+)?(.*)$/.exec(written.trim());
  if (!match) return written;
  const [, day, time, seconds, offset = ""] = match;
  const at = Date.parse(`${day}T${time}${seconds ?? ":00"}Z`) + minutes * 60_000;
  if (!Number.isFinite(at)) return written;
  return new Date(at).toISOString().slice(0, seconds === undefined ? 16 : 19) + offset;
}

// The fields that say how fast the loops are ridden, where they stand in this ride.
export interface SpeedField {
  path: string;
  loop: string | undefined; // nothing: of every loop
  index: number;
  horse: string | undefined; // of one horse alone
  kmh: number;
}
const usual_kmh = 12; // docs/ride-file.md

export function speedFields(document: RideDocument, loops: DayDrawing["loops"]): SpeedField[] {
  const every = document.default_pace?.speed_kmh ?? usual_kmh;
  const horses = document.horses ?? [];
  const own = horses.flatMap((horse, h) =>
    (horse.speeds_kmh ?? []).map((kmh, index) => ({
      path: `horses[${h}].speeds_kmh[${index}]`,
      loop: loops[index]?.name,
      index,
      horse: horses.length > 1 ? horse.name : undefined,
      kmh,
    })),
  );
  const all = horses.length > 0 && horses.every((horse) => horse.speeds_kmh !== undefined);
  if (all) return own;
  const shared =
    document.loops && document.loops.length > 0
      ? document.loops.map((loop, index) => ({
          path: `loops[${index}].speed_kmh`,
          loop: loops[index]?.name ?? loop.name,
          index,
          horse: undefined,
          kmh: loop.speed_kmh ?? every,
        }))
      : [{ path: "default_pace.speed_kmh", loop: undefined, index: 0, horse: undefined, kmh: every }];
  return [...shared, ...own];
}

// Closing one point where the ride takes all waypoints means naming them all.
export function withClosed(document: RideDocument, points: DayDrawing["points"], name: string, isClosed: boolean): NonNullable<RideDocument["crew_points"]> {
  const list: NonNullable<RideDocument["crew_points"]> =
    document.crew_points && document.crew_points.length > 0 ? document.crew_points : points.map((point) => ({ name: point.name }));
  return list.map((point) => {
    if (!isSameName(point.name, name)) return point;
    const { closed: _closed, ...open } = point;
    return isClosed ? { ...open, closed: true } : open;
  });
}

function freeName(taken: string[], word: string): string {
  let number = taken.length + 1;
  while (taken.some((name) => isSameName(name, `${word} ${number}`))) ++number;
  return `${word} ${number}`;
}

// Another car like the first.
export function withCar(cars: RideDocument["cars"], there: string[], word: string): NonNullable<RideDocument["cars"]> {
  const list: NonNullable<RideDocument["cars"]> = cars && cars.length > 0 ? cars : there.map((name) => ({ name }));
  const { boot: _boot, name: _name, ...like } = list[0] ?? { name: "" };
  return [...list, { ...like, name: freeName(list.map((car) => car.name), word) }];
}

// Without a car nothing may still name it.
export function withoutCar(document: RideDocument, index: number): Record<string, unknown> {
  const name = document.cars?.[index]?.name;
  const cars = document.cars?.filter((_, i) => i !== index);
  const wishes = document.wishes
    ?.map((wish) => {
      if (!isSameName(wish.car, name)) return wish;
      const { car: _car, demand: _demand, ...rest } = wish;
      return rest;
    })
    .filter((wish) => Object.keys(wish).some((key) => !["crew_point", "loop", "nth", "horse"].includes(key)));
  const helpers = document.helpers?.map((helper) => {
    if (!isSameName(helper.car, name)) return helper;
    const { car: _car, ...rest } = helper;
    return rest;
  });
  return {
    cars,
    ...(document.wishes ? { wishes: wishes && wishes.length > 0 ? wishes : undefined } : {}),
    ...(document.helpers ? { helpers } : {}),
  };
}

export function withHelper(helpers: RideDocument["helpers"], word: string): NonNullable<RideDocument["helpers"]> {
  const list = helpers ?? [];
  return [...list, { name: freeName(list.map((helper) => helper.name), word) }];
}

// Every field in which two documents differ at the top: to take a kept one back as one step.
export function fieldsOf(kept: RideDocument, now: RideDocument): Record<string, unknown> {
  const names = [...new Set([...Object.keys(kept), ...Object.keys(now)])] as (keyof RideDocument)[];
  return Object.fromEntries(names.filter((name) => kept[name] !== now[name]).map((name) => [name, kept[name]]));
}
