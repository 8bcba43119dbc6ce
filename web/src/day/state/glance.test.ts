import { describe, expect, it } from "vitest";
import { formatsFor } from "../../format/formats";
import { countdown, glanceOf, type CarOnDay } from "./glance";

const formats = formatsFor({ locale: "en-GB", units: "metric", zone: "Europe/London" });
const iso = (clock: string) => `2026-06-13T${clock}+01:00`;
const at = (clock: string) => Date.parse(iso(clock));
const plain = (text: string) => text.replaceAll("\u00a0", " ");
const car = (next: object): CarOnDay => ({ car: "Van", place: "Ash", driving: false, next_action: { kind: "leave", words: "Leave by 07:52 for Elm.", beside: [], ...next } }) as unknown as CarOnDay;

describe("how far off a time is", () => {
  it("is said in minutes, and at the end in seconds", () => {
    expect(plain(countdown(iso("07:52:00"), at("07:34:00"), formats).words)).toBe("in 18 min");
    expect(countdown(iso("07:52:00"), at("07:43:05"), formats).words).toBe("in 8:55");
  });
  it("is said as past once it is", () => expect(countdown(iso("07:52:00"), at("07:52:09"), formats)).toEqual({ words: "0:09 ago", isPast: true }));
  it("does not mind midnight", () => expect(plain(countdown("2026-06-14T00:10:00+01:00", at("23:50:00"), formats).words)).toBe("in 20 min"));
});

describe("the next thing", () => {
  it("is in the engine's words, with its time and the window in which she is due", () => {
    const glance = glanceOf(car({ at: iso("07:52:00"), meet: "Elm loop 1", due: { p10: iso("07:58:00"), p50: iso("08:02:00"), p90: iso("08:07:00") } }), at("07:34:00"), formats);
    expect(glance.words).toBe("Leave by 07:52 for Elm.");
    expect(glanceOf(car({ kind: "wait", at: iso("08:02:00"), due: { p10: iso("07:58:00"), p50: iso("08:02:00"), p90: iso("08:07:00") } }), at("07:34:00"), formats).times).toHaveLength(1);
    expect(glance.times.map((time) => [time.kind, time.at, plain(time.countdown)])).toEqual([["then", "07:52", "in 18 min"], ["due", "08:02", "in 28 min"]]);
  });
});
