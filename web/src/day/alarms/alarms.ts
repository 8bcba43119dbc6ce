// Which of the engine's alarms are to sound now. An answer has those after its own moment; what fell due while it was made is
// kept from the answer before.
import type { DayAnswer } from "../engine/day_calls";

export type EngineAlarm = DayAnswer["cars"][number]["next_action"]["alarms"][number];
export type AlarmKind = EngineAlarm["kind"] | "leave soon";
export interface Alarm {
  kind: AlarmKind;
  at: number; // milliseconds since 1970
  words: string; // the engine's
}

export const soon_min = 5;
const stale_ms = 10 * 60_000; // what was due longer ago than this, while the page was away, no longer sounds
const same_ms = 2 * 60_000; // an answer made anew moves its times a little: one alarm of a kind within this is the same one

export function alarmsOf(answer: DayAnswer, car: string): Alarm[] {
  const mine = answer.cars.find((it) => it.car === car) ?? answer.cars[0];
  const alarms = (mine?.next_action.alarms ?? []).map(({ kind, at, words }): Alarm => ({ kind, at: Date.parse(at), words }));
  const soon = alarms.filter(({ kind }) => kind === "leave by").map((alarm): Alarm => ({ ...alarm, kind: "leave soon", at: alarm.at - soon_min * 60_000 }));
  return [...alarms, ...soon].sort((a, b) => a.at - b.at);
}

export function pendingAlarms(before: readonly Alarm[], answer: DayAnswer, car: string): Alarm[] {
  const now = Date.parse(answer.now);
  const coming = alarmsOf(answer, car).filter(({ at }) => at > now);
  return [...before.filter(({ at }) => at <= now && at > now - stale_ms), ...coming];
}

const isSame = (a: Alarm, b: Alarm) => a.kind === b.kind && Math.abs(a.at - b.at) < same_ms;

export function soundingNow(alarms: readonly Alarm[], sounded: readonly Alarm[], now: number): Alarm[] {
  return alarms.filter((alarm) => alarm.at <= now && alarm.at > now - stale_ms && !sounded.some((other) => isSame(alarm, other)));
}
