// What the engine can be asked on the day of the ride: formats/day_calls/day_calls.h is the other side, the same built natively
// and to WebAssembly. Instants are ISO 8601 with offset; nothing here is formatted for people, but for the sentences, which are
// the engine's.
import type { DayAnswer } from "../../engine/answers/day";
import type { PlanAnswer } from "../../engine/answers/plan";
import type { Outcome, Problem } from "../../engine/calls";

export type { DayAnswer } from "../../engine/answers/day";
export type { DayLogLine } from "../../engine/answers/day-log";
export type { PlanAnswer } from "../../engine/answers/plan";
export type { Outcome, Problem } from "../../engine/calls";

// The names by which log events and answers speak of things.
export interface DayNames {
  ride: string;
  start: string;
  time_zone: string; // as typed into the ride: "Europe/London"
  // Of the local time, for every instant of the ride and a year around it: from then on, minutes ahead of UTC.
  clock: { from: string; offset_min: number }[];
  venue: string; // start, finish and gates; also a name in `places`
  horses: { name: string; rider?: string; number?: string }[]; // log events name one only when there are more
  cars: { name: string; start: string }[];
  places: DayPlace[];
  passes: DayPass[]; // by horse, then in order of the ride; `label` as in answers
  helpers: string[];
}
export interface DayPlace {
  name: string;
  kind: "venue" | "crew point" | "refill" | "errand";
  position: { lat: number; lon: number }; // where the car stands
  is_closed?: boolean; // to crews
}
export interface DayPass {
  horse: string;
  label: string;
  kind: "pass" | "gate" | "finish";
  place: string;
  loop: number; // 1-based
  nth_in_loop?: number; // of a pass
  ride_km: number;
  met_by?: string; // the car, by the plan
}

export interface DayOpened {
  engine: string; // version of the engine that answers
  packed_by: string; // and of the one that packed the ride
  plan: PlanAnswer; // as `outbye plan --json` writes it: the plan that is on paper, never one searched anew
  names: DayNames;
  log_head: string; // first line of a new log of this ride, with its line end
}

// `log`: lines of the day log, with or without the head, in any order (docs/day.md). `now`: what happens later is left aside.
export interface DayAsked {
  log: string[];
  now: string;
}

export interface DayCalls {
  // `packed`: the packed ride (ride.json of the folder). The ride opened before is forgotten, also when this one is refused.
  open: { request: { packed: unknown }; reply: DayOpened };
  // As `outbye day --json`.
  answer: { request: DayAsked; reply: DayAnswer };
  // The same with `rest`, as `outbye day --rest --json`. Takes a second or more on a phone: `answer` never waits for it.
  rest: { request: DayAsked; reply: DayAnswer };
}
export type DayCallName = keyof DayCalls;

// A reply as the engine writes it, before it becomes an Outcome.
export type DayReply<T> = T | { problem: Problem };

// The engine as the page sees it. Every promise settles, with a value or with problems; none rejects.
export interface DayEngine {
  // `packed`: the text of ride.json. Kept, and given to the engine again when it had to be restarted.
  open(packed: string): Promise<Outcome<DayOpened>>;
  answer(asked: DayAsked): Promise<Outcome<DayAnswer>>;
  rest(asked: DayAsked): Promise<Outcome<DayAnswer>>;
  close(): void;
}
