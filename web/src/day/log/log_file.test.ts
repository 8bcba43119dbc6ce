import { describe, expect, it } from "vitest";
import { deviceName, eventIn, eventOf, lineOf, written } from "./events";
import { logText, readLog } from "./log_file";

const seen = eventOf({ kind: "number_seen", at: written(Date.parse("2026-06-13T10:26:30.400+01:00")), place: "Ash", number: "17" }, "anna-abcd", [1000, 2]);

describe("an event", () => {
  it("has its time with the offset, in whole seconds", () => expect(seen).toMatchObject({ at: "2026-06-13T09:26:30+00:00" }));
  it("has an id of device and hybrid time", () => expect(seen.id).toBe("anna-abcd-1000-2"));
  it("is read back from its line", () => expect(eventIn(lineOf(seen))).toEqual(seen));
  it("is not read from a torn line", () => expect(eventIn(lineOf(seen).slice(0, -9))).toBeUndefined());
});

describe("the name of a device", () => {
  it("is what the log allows, whatever its owner is called", () => {
    for (const owner of ["Anna", "Jürgen Öhm", "", "李", "a".repeat(90)]) {
      expect(deviceName(owner, Math.random)).toMatch(/^[A-Za-z0-9._:-]{1,64}$/);
    }
  });
});

describe("a log file", () => {
  const text = logText("Small ride", [lineOf(seen)]);
  it("is read back as it was written", () => {
    expect(readLog(text)).toEqual({ ok: true, ride: "Small ride", events: [{ event: seen, line: lineOf(seen) }], unread: [] });
  });
  it("that was cut off keeps the torn line and says so", () => {
    const half = readLog(text + lineOf(seen).slice(0, 40));
    expect(half).toMatchObject({ ok: true, events: [{ event: seen }], unread: [{ line: lineOf(seen).slice(0, 40), torn: true }] });
  });
  it("keeps a line in the middle that is no event", () => {
    const odd = readLog(logText("Small ride", ["hello", lineOf(seen)]));
    expect(odd).toMatchObject({ ok: true, events: [{ event: seen }], unread: [{ line: "hello", torn: false }] });
  });
  it("may have the heads of several", () => expect(readLog(text + text)).toMatchObject({ ok: true, unread: [] }));
  it("is told from another file, an empty one and one of a newer version", () => {
    expect(readLog("<gpx/>\n")).toEqual({ ok: false, why: "no log" });
    expect(readLog("")).toEqual({ ok: false, why: "empty" });
    expect(readLog('{"format":"outbye day log","version":2}\n')).toEqual({ ok: false, why: "newer version" });
  });
});
