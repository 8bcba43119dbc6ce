import { describe, expect, test } from "vitest";
import { formatsFor } from "../format/formats";
import { holderOf, usualOf } from "./ride_fields";
import { rangeOf, readTyped, textOf } from "./typed";

const metric = formatsFor({ locale: "en-GB", units: "metric", zone: "UTC" });
const imperial = formatsFor({ locale: "en-GB", units: "imperial", zone: "UTC" });
const valueOf = (path: string, text: string, formats = metric) => {
  const typed = readTyped(path, text, formats);
  return typed.ok ? typed.value : "not yet";
};

describe("what is typed in a field", () => {
  test("is a number with a comma or a point", () => {
    expect(valueOf("loops[0].speed_kmh", "12,5")).toBe(12.5);
    expect(valueOf("loops[0].speed_kmh", " 12.5 ")).toBe(12.5);
  });
  test.each(["1e3", "twelve", "12 km", "--1", "1.2.3"])("is no number as %j", (text) => {
    expect(valueOf("loops[0].speed_kmh", text)).toBe("not yet");
  });
  test("is outside its range at 0 where the range begins above it, and at 61", () => {
    expect(valueOf("loops[0].speed_kmh", "0")).toBe("not yet");
    expect(valueOf("loops[0].speed_kmh", "61")).toBe("not yet");
    expect(valueOf("loops[0].speed_kmh", "60")).toBe(60);
  });
  test("is left out when empty, unless an item is nothing without it", () => {
    expect(valueOf("cars[0].water_litres", "")).toBeUndefined();
    expect(valueOf("cars[0].name", "  ")).toBe("not yet");
  });
  test("comes in whole numbers where only those are known", () => {
    expect(valueOf("crew", "2.5")).toBe("not yet");
  });
  test("is in the reader's unit and kept in the file's", () => {
    expect(valueOf("cars[0].water_litres", "20", imperial)).toBe(90.9218);
    expect(valueOf("cars[0].boot.floor_length_mm", "40", imperial)).toBe(1016);
    expect(valueOf("weather[0].temperature_c", "50", imperial)).toBe(10);
    expect(valueOf("crewing.confidence", "80")).toBe(0.8);
  });
});

test.each(["cars[0].water_litres", "horses[0].mass_kg", "weather[0].wind_ms", "default_pace.speed_kmh"])(
  "what %s shows is read back as the same value, in both systems",
  (path) => {
    for (const formats of [metric, imperial])
      for (const value of [0.1, 7.25, 44.4]) {
        if (path === "horses[0].mass_kg" && value < 100) continue;
        expect(valueOf(path, textOf(path, value, formats), formats)).toBeCloseTo(value, 3);
      }
  },
);

test("a range is said in the reader's unit", () => {
  expect(rangeOf("loops[0].hold_min", metric)).toBe("0–1,440\u00a0min");
  expect(rangeOf("loops[0].speed_kmh", metric)).toBe("up to 60\u00a0km/h");
  expect(rangeOf("loops[0].speed_kmh", imperial)).toBe("up to 37.3\u00a0mph");
});
test("a loop that leaves its speed out has that of the ride, and else the usual one", () => {
  expect(usualOf({ default_pace: { speed_kmh: 9 } }, "loops[0].speed_kmh")).toBe(9);
  expect(usualOf({}, "loops[0].speed_kmh")).toBe(12);
});
test("a field deep in a list belongs to the nearest thing with a name", () => {
  expect(holderOf({ loops: [{ name: "Red", going: [{}] }] }, "loops[0].going[0].factor")).toBe("Red");
});
