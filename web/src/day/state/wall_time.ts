// A time as it is typed on the ride's own clock, and back to the log's, with its offset.
import { clockAt, offsetAt, secondsOf, type Zone } from "../../format/zone";
import { written } from "../log/events";

export function wallTime(at: string, zone: Zone): { date: string; time: string } {
  const text = clockAt(at, zone).toISOString();
  return { date: text.slice(0, 10), time: text.slice(11, 19) };
}

export const exactTime = (at: string, zone: Zone): string => wallTime(at, zone).time; // with its seconds

// "11:42", "11:42:07" and "1142". In the hour that a change of clocks repeats, the first of the two is meant; a time that the
// change leaves out is as long after the change as it says.
export function timeTyped(date: string, time: string, zone: Zone): string | undefined {
  const parts = /^(\d{1,2})[:.]?(\d\d)(?:[:.]?(\d\d))?$/.exec(time.trim());
  if (!parts || !/^\d{4}-\d\d-\d\d$/.test(date)) return undefined;
  const [hours, minutes, seconds] = [Number(parts[1]), Number(parts[2]), Number(parts[3] ?? 0)];
  if (hours > 23 || minutes > 59 || seconds > 59) return undefined;
  const wall = secondsOf(`${date}T00:00:00Z`) + hours * 3600 + minutes * 60 + seconds;
  if (!Number.isFinite(wall)) return undefined;
  const before = offsetAt(zone, wall - 86_400);
  const first = wall - before;
  return written(1000 * (offsetAt(zone, first) === before ? first : wall - offsetAt(zone, first)));
}
