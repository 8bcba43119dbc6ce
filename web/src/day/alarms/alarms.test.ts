import { describe, expect, it } from "vitest";
import type { DayAnswer } from "../engine/day_calls";
import { alarmsOf, pendingAlarms, soundingNow, type Alarm } from "./alarms";

const iso = (clock: string) => `2026-06-13T${clock}+01:00`;
const at = (clock: string) => Date.parse(iso(clock));
const answer = (now: string, ...alarms: [kind: string, clock: string][]): DayAnswer =>
  ({ now: iso(now), cars: [{ car: "Van", next_action: { alarms: alarms.map(([kind, clock]) => ({ kind, at: iso(clock), words: `${kind}!` })) } }] }) as unknown as DayAnswer;
const kinds = (alarms: Alarm[]) => alarms.map(({ kind }) => kind);

describe("alarms", () => {
  it("are the engine's, and one more before it is time to leave", () => {
    const all = alarmsOf(answer("07:00:00", ["leave by", "07:52:00"], ["due from", "07:49:00"]), "Van");
    expect(all.map(({ kind, at: time }) => [kind, time])).toEqual([["leave soon", at("07:47:00")], ["due from", at("07:49:00")], ["leave by", at("07:52:00")]]);
  });
  it("sound when their time has come, and once", () => {
    const all = alarmsOf(answer("07:00:00", ["ask again", "07:39:00"]), "Van");
    expect(kinds(soundingNow(all, [], at("07:38:59")))).toEqual([]);
    expect(kinds(soundingNow(all, [], at("07:39:00")))).toEqual(["ask again"]);
    expect(kinds(soundingNow(all, all, at("07:39:01")))).toEqual([]);
  });
  it("sound though an answer made at their very moment no longer has them", () => {
    const before = pendingAlarms([], answer("07:38:50", ["ask again", "07:39:00"]), "Van");
    const after = pendingAlarms(before, answer("07:39:00"), "Van");
    expect(kinds(soundingNow(after, [], at("07:39:00")))).toEqual(["ask again"]);
  });
  it("do not sound once an answer has taken them back", () => {
    const before = pendingAlarms([], answer("07:30:00", ["ask again", "07:39:00"]), "Van");
    expect(kinds(soundingNow(pendingAlarms(before, answer("07:35:00"), "Van"), [], at("07:39:00")))).toEqual([]);
  });
  it("do not sound again when a new answer moves them by a minute", () => {
    const first = alarmsOf(answer("07:30:00", ["ask again", "07:39:00"]), "Van");
    const moved = alarmsOf(answer("07:39:10", ["ask again", "07:40:10"]), "Van");
    expect(kinds(soundingNow(moved, first, at("07:41:00")))).toEqual([]);
  });
  it("do not sound for what was long past when the page was opened again", () => {
    expect(kinds(soundingNow(alarmsOf(answer("07:00:00", ["ask again", "07:39:00"]), "Van"), [], at("08:39:00")))).toEqual([]);
  });
});
