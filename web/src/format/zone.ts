// Times on the clock of the ride. An instant is ISO 8601 with an offset, or seconds since 1970 UTC; the ride's zone is a list
// of offsets from the engine, or, before there is a plan, a name of a zone.
export type Instant = string | number;
export type ZoneOffsets = { from_s: number; offset_s: number }[];
export type Zone = ZoneOffsets | string;

export const secondsOf = (at: Instant): number => (typeof at === "number" ? at : Date.parse(at) / 1000);

export function offsetAt(zone: Zone, at_s: number): number {
  if (typeof zone === "string") return offsetOfName(zone, at_s);
  const last = zone.findLast(({ from_s }) => from_s <= at_s) ?? zone[0];
  return last?.offset_s ?? 0;
}

function offsetOfName(name: string, at_s: number): number {
  const fixed = /^([+-])(\d\d):?(\d\d)$/.exec(name);
  if (fixed) return (fixed[1] === "-" ? -1 : 1) * (Number(fixed[2]) * 3600 + Number(fixed[3]) * 60);
  try {
    const parts = new Intl.DateTimeFormat("en-GB", {
      timeZone: name, hourCycle: "h23", year: "numeric", month: "numeric", day: "numeric",
      hour: "numeric", minute: "numeric", second: "numeric",
    }).formatToParts(at_s * 1000);
    const part = (type: string) => Number(parts.find((it) => it.type === type)?.value ?? 0);
    const there = Date.UTC(part("year"), part("month") - 1, part("day"), part("hour"), part("minute"), part("second"));
    return there / 1000 - Math.floor(at_s);
  } catch {
    return 0; // no zone of that name: the engine says so beside the field
  }
}

// The clock at the ride as a Date whose UTC fields are what the clock shows.
export const clockAt = (at: Instant, zone: Zone): Date => {
  const at_s = secondsOf(at);
  return new Date((at_s + offsetAt(zone, at_s)) * 1000);
};

// The day there, counted, to tell whether two times fall on one.
export const dayAt = (at: Instant, zone: Zone): number => Math.floor(clockAt(at, zone).getTime() / 86_400_000);

// "2026-06-13T07:00" for a field: what the clock shows. A time written without offset is one already.
export function wallClock(written: string, zone: Zone): string {
  const bare = /^(\d{4}-\d\d-\d\dT\d\d:\d\d)(:\d\d)?$/.exec(written);
  if (bare) return bare[1]!;
  const at_s = secondsOf(written);
  return Number.isFinite(at_s) ? clockAt(at_s, zone).toISOString().slice(0, 16) : "";
}

// A time as it was written, whatever its offset, as seconds to be shown with the zone UTC: for a ride in a list, whose zone is
// not known there.
export const asWritten = (written: string): number => Date.parse(`${written.slice(0, 16)}:00Z`) / 1000;
