import { describe, expect, it } from "vitest";
import type { DayAnswer, DayAsked, DayEngine, DayOpened, Outcome } from "../engine/day_calls";
import type { PageData } from "../engine/page_data";
import { Day } from "./day.svelte";
import { DayLog } from "./day_log.svelte";
import { quickEntries } from "./quick";

const page = {
  ride: "Small ride", time_zone: "Europe/London", venue: "East", horses: [{ name: "Brimstone", rider: "", number: "5" }],
  cars: [{ name: "Van", people: [] }], places: [], stops: [],
} as unknown as PageData;
const opened = { names: { clock: [{ from: "2026-03-29T01:00:00Z", offset_min: 60 }] } } as unknown as DayOpened;
const noon = Date.parse("2026-06-13T12:00:00+01:00");

function answerTo(asked: DayAsked, car: object = {}): DayAnswer {
  return {
    now: asked.now,
    cars: [{ car: "Van", place: "Ash", driving: false, here: "Ash loop 1", next_action: { alarms: [] }, ...car }],
    passes: [{ label: "Ash loop 1", gone: 0 }],
  } as unknown as DayAnswer;
}

// An engine whose answers are let go one by one.
class HeldEngine implements DayEngine {
  asked: DayAsked[] = [];
  car: object = {};
  private waiting: (() => void)[] = [];
  holds = false;
  open = () => Promise.resolve({ ok: true, value: opened } as Outcome<DayOpened>);
  answer = (asked: DayAsked) => {
    this.asked.push(asked);
    const answer = { ok: true, value: answerTo(asked, this.car) } as Outcome<DayAnswer>;
    return this.holds ? new Promise<Outcome<DayAnswer>>((resolve) => this.waiting.push(() => resolve(answer))) : Promise.resolve(answer);
  };
  rest = (asked: DayAsked) => this.answer(asked);
  close = () => {};
  letGo = () => this.waiting.splice(0).forEach((go) => go());
}

async function aDay(engine = new HeldEngine()) {
  const log = new DayLog(page.ride, undefined, () => noon, "anna");
  const day = new Day(page, log, engine);
  day.tick(noon);
  await day.open("{}");
  return { day, engine, log };
}
const soon = () => new Promise((resolve) => setTimeout(resolve, 0));

describe("the day", () => {
  it("is answered as soon as the ride is open", async () => {
    const { day, engine } = await aDay();
    expect([day.answered, engine.asked.length, engine.asked[0]!.now]).toEqual([0, 1, "2026-06-13T11:00:00+00:00"]);
  });
  it("is answered anew after an event, with its line", async () => {
    const { day, engine, log } = await aDay();
    const event = await log.enter({ kind: "number_seen", place: "Ash", number: "17" });
    await day.noted();
    expect([day.answered, engine.asked.at(-1)!.log.length]).toEqual([1, 1]);
    expect(engine.asked.at(-1)!.log[0]).toContain(event.id);
  });
  it("is asked for a moment that what was just noted is not later than", async () => {
    let now = noon;
    const log = new DayLog(page.ride, undefined, () => now, "anna");
    const engine = new HeldEngine();
    const day = new Day(page, log, engine);
    day.tick(now);
    await day.open("{}");
    now += 900; // before the next tick
    const event = await log.enter({ kind: "horse_in", place: "Ash" });
    await day.noted();
    expect("at" in event && event.at <= engine.asked.at(-1)!.now).toBe(true);
  });
  it("asks once more, with the newest log, for all that was noted while an answer was on its way", async () => {
    const { day, engine, log } = await aDay();
    engine.holds = true;
    for (const number of ["1", "2", "3"]) {
      await log.enter({ kind: "number_seen", place: "Ash", number });
      void day.noted();
    }
    expect(engine.asked.length).toBe(2);
    engine.letGo();
    await soon();
    engine.letGo();
    await soon();
    expect([engine.asked.length, engine.asked.at(-1)!.log.length, day.answered]).toEqual([3, 3, 3]);
  });
  it("is answered anew as time goes by, and when the phone's clock was put back", async () => {
    const { day, engine } = await aDay();
    day.tick(noon + 5000);
    expect(engine.asked.length).toBe(1);
    day.tick(noon + 21_000);
    await soon();
    day.tick(noon - 3_600_000);
    await soon();
    expect(engine.asked.map(({ now }) => now.slice(11, 19))).toEqual(["11:00:00", "11:00:21", "10:00:00"]);
  });
  it("keeps the last answer when the engine fails, and says what it says", async () => {
    const { day, engine } = await aDay();
    const before = day.answer;
    engine.answer = () => Promise.resolve({ ok: false, problems: [{ kind: "internal", where: "engine", what: "ended twice" }] });
    await day.ask();
    expect([day.answer === before, day.engineProblems[0]!.what]).toEqual([true, "ended twice"]);
  });
  it("rings once for an alarm, until it was seen", async () => {
    const engine = new HeldEngine();
    engine.car = { next_action: { alarms: [{ kind: "leave by", at: "2026-06-13T12:00:10+01:00", words: "Leave by 12:00 for Elm." }] } };
    const { day } = await aDay(engine);
    expect(day.tick(noon + 9000)).toEqual([]);
    expect(day.tick(noon + 10_000).map(({ kind }) => kind)).toEqual(["leave by"]);
    expect(day.tick(noon + 11_000)).toEqual([]);
    expect(day.ringing.length).toBe(1);
    day.silence();
    expect(day.ringing).toEqual([]);
  });
  it("notes where the car is again once it has left the place that was chosen", async () => {
    const { day } = await aDay();
    day.chosenPlace = "Elm";
    expect(day.place).toBe("Elm");
    await day.enter({ kind: "car_left", place: "Ash" });
    expect(day.place).toBe("Ash");
  });
  it("locks by speed, opens for the co-driver for this drive, and locks again on the next", async () => {
    const { day } = await aDay();
    day.settings = { ...day.settings, locksBySpeed: true };
    day.speed(12, noon);
    expect(day.isLocked).toBe(true);
    day.unlock();
    day.speed(12, noon + 5000);
    expect(day.isLocked).toBe(false);
    day.speed(0, noon + 60_000);
    day.speed(12, noon + 65_000);
    expect(day.isLocked).toBe(true);
  });
  it("offers what is likeliest: the horse in, and out once she was seen, and to park while on the road", async () => {
    const first = async (car: object, seen?: string) => {
      const { day } = await aDay();
      day.answer = { ...answerTo({ log: [], now: "" }, car), passes: [{ label: "Ash loop 1", gone: 0, seen }] } as unknown as DayAnswer;
      return quickEntries(day)[0]!.entry;
    };
    expect(await first({})).toEqual({ kind: "horse_in", place: "Ash" });
    expect(await first({}, "2026-06-13T11:59:00+01:00")).toEqual({ kind: "horse_out", place: "Ash" });
    expect(await first({ driving: true, driving_to: "Elm" })).toEqual({ kind: "car_at", place: "Elm" });
  });
});
