import { describe, expect, it } from "vitest";
import { bookOf } from "./book";
import { eventOf, type DayAct, type DayEvent } from "./events";

function log(...acts: DayAct[]): DayEvent[] {
  return acts.map((act, i) => eventOf(act, "anna", [i + 1, 0]));
}
const seen = (number: string, minute = 0): DayAct => ({ kind: "number_seen", at: `2026-06-13T10:0${minute}:00+00:00`, place: "Ash", number });
const right = (of: string, number: string): DayAct => ({ kind: "correct", of, entry: seen(number) as never });
const back = (of: string): DayAct => ({ kind: "withdraw", of });
const numbers = (events: DayEvent[]) => bookOf(events).map((it) => (it.withdrawnBy ? `(${it.entry.number})` : it.entry.number));

describe("the book", () => {
  it("shows of several corrections the last noted", () => expect(numbers(log(seen("17"), right("anna-1-0", "18"), right("anna-1-0", "19")))).toEqual(["19"]));
  it("shows what was taken back as taken back", () => expect(numbers(log(seen("17"), back("anna-1-0")))).toEqual(["(17)"]));
  it("brings back what was there when a correction is taken back", () =>
    expect(numbers(log(seen("17"), right("anna-1-0", "18"), back("anna-2-0")))).toEqual(["17"]));
  it("brings an entry back when its withdrawal is taken back", () =>
    expect(numbers(log(seen("17"), back("anna-1-0"), back("anna-2-0")))).toEqual(["17"]));
  it("lets a correction after a withdrawal count", () => expect(numbers(log(seen("17"), back("anna-1-0"), right("anna-1-0", "18")))).toEqual(["18"]));
  it("leaves aside what is said of an event that has not come", () => expect(numbers(log(seen("17"), back("ben-9-0")))).toEqual(["17"]));
  it("does not mind the order in which events came", () => {
    const events = log(seen("17", 3), seen("4", 1), right("anna-1-0", "18"), back("anna-3-0"), right("anna-2-0", "5"));
    expect(numbers([...events].reverse())).toEqual(numbers(events));
  });
  it("lists by the time at which things happened", () => expect(numbers(log(seen("2", 5), seen("1", 4)))).toEqual(["1", "2"]));
});
