// The day while the page is open: the clock, the engine's last answer, the log, and who holds this phone. What follows from
// the log is the engine's answer and nothing else.
import { formatsFor, type Formats } from "../../format/formats";
import type { Zone } from "../../format/zone";
import type { Problem } from "../../engine/calls";
import { pendingAlarms, soundingNow, type Alarm } from "../alarms/alarms";
import type { DayAnswer, DayEngine, DayNames, DayOpened } from "../engine/day_calls";
import type { PageData } from "../engine/page_data";
import { written } from "../log/events";
import type { Photo } from "../keep/event_store";
import type { DayLog } from "./day_log.svelte";
import type { NewEntry } from "./keeping";
import { moved, still, type Movement } from "./movement";

export type Part = "now" | "note" | "book" | "ground" | "settings";
// What is opened under "Note".
export type Open = "place" | "number" | "drink" | "electrolyte" | "feed" | "bottle" | "pulse" | "stock" | "word" | "watch" | "gate" | "text";
export type Scheme = "auto" | "light" | "dark" | "sun";
export interface Settings {
  who: string;
  car: string;
  scheme: Scheme;
  alarms: boolean;
  awake: boolean;
  locksBySpeed: boolean;
}
export const firstSettings: Settings = { who: "", car: "", scheme: "auto", alarms: true, awake: false, locksBySpeed: false };

const answerEvery_ms = 20_000;
const restAfter_ms = 2500;

export class Day {
  readonly page!: PageData;
  readonly log!: DayLog;
  private readonly engine!: DayEngine;

  now = $state(0); // milliseconds since 1970, of the phone's clock; set by the page once a second
  part = $state<Part>("now");
  openNote = $state<Open>();
  settings = $state<Settings>({ ...firstSettings });
  opened = $state.raw<DayOpened>();
  answer = $state.raw<DayAnswer>();
  answered = $state(-1); // how many lines of the log the answer rests on
  rest = $state.raw<DayAnswer["rest"]>();
  engineProblems = $state.raw<Problem[]>([]);
  isOpening = $state(true);
  hasNewPlan = $state(false);

  chosenPlace = $state<string>(); // by hand, until the car is noted elsewhere
  movement = $state.raw<Movement>(still);
  drivingByHand = $state(false);
  unlockedByHand = $state(false); // by the co-driver, for as long as this drive lasts
  isLocked = $derived((this.drivingByHand || (this.settings.locksBySpeed && this.movement.isMoving)) && !this.unlockedByHand);

  alarms = $state.raw<Alarm[]>([]); // to come, and what fell due while the last answer was made
  sounded = $state.raw<Alarm[]>([]);
  ringing = $state.raw<Alarm[]>([]); // until somebody has seen them

  names: DayNames | undefined = $derived(this.opened?.names);
  // The ride's clock: its offsets from the engine, and before it answers the zone by its name.
  zone: Zone = $derived(
    this.names ? this.names.clock.map(({ from, offset_min }) => ({ from_s: Date.parse(from) / 1000, offset_s: offset_min * 60 })) : this.page.time_zone,
  );
  formats: Formats = $derived(formatsFor({ locale: "en-GB", units: "metric", zone: this.zone }));
  cars: string[] = $derived(this.page.cars.map(({ name }) => name));
  car: string = $derived(this.cars.includes(this.settings.car) ? this.settings.car : (this.cars[0] ?? ""));
  mine = $derived(this.answer?.cars.find((it) => it.car === this.car) ?? this.answer?.cars[0]);
  place: string = $derived(this.chosenPlace ?? (this.mine?.driving ? (this.mine.driving_to ?? this.mine.place) : this.mine?.place) ?? this.page.venue);
  horse: string | undefined = $derived(this.page.horses[0]?.name);

  private asking = false;
  private askAgain = false;
  private askedAt = 0;
  private restTimer: ReturnType<typeof setTimeout> | undefined;


  constructor(page: PageData, log: DayLog, engine: DayEngine) {
    this.page = page;
    this.log = log;
    this.engine = engine;
  }

  async open(ride: string): Promise<void> {
    const opened = await this.engine.open(ride);
    this.isOpening = false;
    if (!opened.ok) {
      this.engineProblems = opened.problems;
      return;
    }
    this.opened = opened.value;
    await this.ask();
    this.askRestSoon();
  }

  // Once a second.
  tick(now: number): Alarm[] {
    this.now = now;
    // A clock that was put back must not stop the asking.
    if (this.opened && Math.abs(now - this.askedAt) >= answerEvery_ms) void this.ask();
    if (!this.settings.alarms) return [];
    const sounding = soundingNow(this.alarms, this.sounded, now);
    if (sounding.length > 0) {
      this.sounded = [...this.sounded, ...sounding];
      this.ringing = [...this.ringing, ...sounding];
    }
    return sounding;
  }

  // The newest log and time; while an answer is on its way the next is asked right after it.
  async ask(): Promise<void> {
    if (!this.opened) return;
    if (this.asking) {
      this.askAgain = true;
      return;
    }
    this.asking = true;
    do {
      this.askAgain = false;
      this.askedAt = this.now;
      const lines = this.log.lines;
      const answer = await this.engine.answer({ log: [...lines], now: written(this.now) });
      if (answer.ok) {
        this.answer = answer.value;
        this.answered = lines.length;
        this.alarms = pendingAlarms(this.alarms, answer.value, this.car);
        this.engineProblems = [];
      } else {
        this.engineProblems = answer.problems;
      }
    } while (this.askAgain);
    this.asking = false;
  }

  async enter(entry: NewEntry, photo?: Photo): Promise<void> {
    await this.log.enter(entry, photo);
    // From here on things happen where the car is, not where somebody chose before.
    if (entry.kind === "car_at" || entry.kind === "car_left") this.chosenPlace = undefined;
    await this.noted();
  }
  // After something was noted, put right or taken in.
  async noted(): Promise<void> {
    this.now = this.log.clock(); // what was noted since the last tick is not in the future
    await this.ask();
    this.askRestSoon();
  }

  private askRestSoon(): void {
    clearTimeout(this.restTimer);
    this.restTimer = setTimeout(() => void this.askRest(), restAfter_ms);
  }
  private async askRest(): Promise<void> {
    const answer = await this.engine.rest({ log: [...this.log.lines], now: written(this.now) });
    if (answer.ok) this.rest = answer.value.rest;
  }

  speed(mps: number | null, at: number): void {
    const before = this.movement;
    this.movement = moved(before, mps, at);
    if (!before.isMoving && this.movement.isMoving) this.unlockedByHand = false; // a new drive
  }
  setDriving(isDriving: boolean): void {
    this.drivingByHand = isDriving;
    this.unlockedByHand = false;
  }
  unlock(): void {
    this.drivingByHand = false;
    this.unlockedByHand = true;
  }
  silence(): void {
    this.ringing = [];
  }
}
