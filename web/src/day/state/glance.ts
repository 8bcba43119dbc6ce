// The next thing in large words, as the engine says it, with how far off its time is by the phone's clock.
import { minutes, type Formats } from "../../format/formats";
import { dayPage as words } from "../../strings/en/day_page";
import type { DayAnswer } from "../engine/day_calls";

export type CarOnDay = DayAnswer["cars"][number];
export interface GlanceTime {
  kind: "then" | "due";
  title: string;
  at: string; // "11:42"
  countdown: string; // "in 18 min"
  isPast: boolean;
  about: string; // "between 11:51 and 12:07"
}
export interface Glance {
  where: string;
  words: string; // "Leave by 11:42 for CP6."
  beside: string[];
  times: GlanceTime[];
}

const shortly_s = 600; // from here on the seconds count

export function countdown(at: string, now: number, formats: Formats): { words: string; isPast: boolean } {
  const seconds = Math.round(Date.parse(at) / 1000 - now / 1000);
  const length = Math.abs(seconds) < shortly_s ? formats.stopwatch(Math.abs(seconds)) : formats.duration(minutes(Math.abs(seconds) / 60));
  return { words: seconds >= 0 ? words.now.inTime(length) : words.now.ago(length), isPast: seconds < 0 };
}

export function glanceOf(car: CarOnDay, now: number, formats: Formats): Glance {
  const next = car.next_action;
  const times: GlanceTime[] = [];
  if (next.at && next.at !== next.due?.p50) {
    const off = countdown(next.at, now, formats);
    times.push({ kind: "then", title: words.now.actions[next.kind], at: formats.time(next.at), countdown: off.words, isPast: off.isPast, about: "" });
  }
  if (next.due) {
    const off = countdown(next.due.p50, now, formats);
    const between = words.now.between(formats.time(next.due.p10), formats.time(next.due.p90));
    times.push({ kind: "due", title: words.now.due, at: formats.time(next.due.p50), countdown: off.words, isPast: off.isPast, about: next.meet ? `${between}, ${words.now.dueAt(next.meet)}` : between });
  }
  return {
    where: car.driving ? words.now.driving(car.driving_to ?? car.next ?? car.place) : words.now.standing(car.place),
    words: next.words,
    beside: next.beside,
    times,
  };
}
