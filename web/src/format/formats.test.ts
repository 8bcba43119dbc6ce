import { describe, expect, test } from "vitest";
import { celsius, formatsFor, kilograms, km, kmPerHour, litres, metres, metresPerSecond, minutes, numberIn } from "./formats";
import { millimetres } from "./units";
import { wallClock, type Zone } from "./zone";

// Spaces that do not break are written as such here.
const plain = (text: string) => text.replaceAll("\u00a0", "_");
const formats = (zone: Zone = "Europe/London", units: "metric" | "imperial" = "metric", locale = "en-GB") => formatsFor({ locale, units, zone });

describe("times", () => {
  test("are those of the clock at the ride", () => {
    expect(formats("Europe/London").time("2026-06-13T06:00:00Z")).toBe("07:00");
    expect(formats("America/Denver").time("2026-06-13T13:00:00+00:00")).toBe("07:00");
    expect(formats("+05:30").time(0)).toBe("05:30");
  });
  test("follow the offsets that the engine gives, from the second on which they hold", () => {
    // Clocks in Britain went back at 01:00 UTC on 25 October 2026.
    const change = Date.UTC(2026, 9, 25, 1) / 1000;
    const zone = [{ from_s: change - 86_400, offset_s: 3600 }, { from_s: change, offset_s: 0 }];
    expect(formats(zone).time(change - 1)).toBe("01:59");
    expect(formats(zone).time(change)).toBe("01:00");
    expect(formats("Europe/London").time(change - 1)).toBe("01:59");
    expect(formats("Europe/London").time(change)).toBe("01:00");
  });
  test("before the first known offset have that one", () => {
    expect(formats([{ from_s: 1000, offset_s: 3600 }]).time(0)).toBe("01:00");
  });
  test("carry their day when it is not the one they are read beside", () => {
    const show = formats();
    expect(plain(show.timeNear("2026-06-13T23:10:00Z", "2026-06-13T12:00:00Z"))).toBe("Sun_00:10");
    expect(show.timeNear("2026-06-13T22:50:00Z", "2026-06-13T12:00:00Z")).toBe("23:50");
  });
  test("of a range past midnight name the day of its end", () => {
    expect(plain(formats().range("2026-06-13T22:50:00Z", "2026-06-13T23:20:00Z"))).toBe("23:50 – Sun_00:20");
    expect(formats().range("2026-06-13T08:00:00Z", "2026-06-13T08:30:00Z")).toBe("09:00–09:30");
  });
  test("in a field are what the clock shows, with the offset taken away", () => {
    expect(wallClock("2026-06-13T07:00:00+01:00", "Europe/London")).toBe("2026-06-13T07:00");
    expect(wallClock("2026-06-13T07:00", "America/Denver")).toBe("2026-06-13T07:00");
    expect(wallClock("soon", "Europe/London")).toBe("");
  });
  test("of an unknown zone are those of UTC", () => {
    expect(formats("Nowhere/Land").time("2026-06-13T06:00:00Z")).toBe("06:00");
  });
  test("that cannot be read are no text", () => {
    expect(formats().time("soon")).toBe("");
  });
  test("in the evening are on a 24-hour clock in the United States too, as sheets and radios have them", () => {
    expect(formats("UTC", "imperial", "en-US").time("2026-06-13T18:05:00Z")).toBe("18:05");
  });
});

describe("durations", () => {
  const { duration, change } = formats();
  test.each([
    [85, "1_h_25_min"], [60, "1_h"], [4, "4_min"], [0, "0_min"], [0.3, "under a minute"], [119.7, "2_h"], [-3, "−3_min"],
  ])("of %d min are %s", (value, text) => expect(plain(duration(minutes(value)))).toBe(text));
  test.each([[4, "+4_min"], [-65, "−1_h_5_min"], [0.2, "0_min"]])("that changed by %d min are %s", (value, text) =>
    expect(plain(change(minutes(value)))).toBe(text),
  );
});

describe("measures", () => {
  const show = formats();
  const imperial = formats("UTC", "imperial");
  test("of length change to metres below a kilometre, without a gap between", () => {
    expect(plain(show.length(km(12.34)))).toBe("12.3_km");
    expect(plain(show.length(km(0.35)))).toBe("350_m");
    expect(plain(show.length(km(0.9996)))).toBe("1_km");
  });
  test("are those of their system", () => {
    expect(plain(imperial.length(km(16.09344)))).toBe("10_mi");
    expect(plain(imperial.height(metres(304.8)))).toBe("1,000_ft");
    expect(plain(imperial.temperature(celsius(37)))).toBe("99_°F");
    expect(plain(show.temperature(celsius(-0.4)))).toBe("0_°C");
    expect(plain(show.temperature(celsius(-3)))).toBe("−3_°C");
    expect(plain(imperial.speed(kmPerHour(16.09344)))).toBe("10_mph");
    expect(plain(imperial.wind(metresPerSecond(4.4704)))).toBe("10_mph");
    expect(plain(imperial.mass(kilograms(45.359237)))).toBe("100_lb");
    expect(plain(show.size(millimetres(985)))).toBe("98.5_cm");
    expect(plain(imperial.size(millimetres(254)))).toBe("10_in");
  });
  test("of volume tell the gallon of the reader", () => {
    expect(plain(imperial.volume(litres(4.54609)))).toBe("1_gal");
    expect(plain(formats("UTC", "imperial", "en-US").volume(litres(3.785411784)))).toBe("1_US gal");
    expect(plain(show.volume(litres(11.4)))).toBe("11.4_l");
  });
});

test("a chance between nothing and sure is never told as either", () => {
  const { percent } = formats();
  expect([0, 0.004, 0.5, 0.996, 1].map((share) => plain(percent(share)))).toEqual(["0_%", "<_1_%", "50_%", ">_99_%", "100_%"]);
});
test("odds have the engine's borders", () => {
  const { odds } = formats();
  expect([0.95, 0.9499, 0.8, 0.79, 0.5, 0.49].map(odds)).toEqual(["all but sure", "likely", "likely", "even", "even", "unlikely"]);
});
test("things are listed as people list them", () => {
  expect(formats().list(["ford", "gate", "barn"])).toBe("ford, gate and barn");
  expect(formats().list([])).toBe("");
});
test("numbers are written as the reader's country writes them, with a true minus", () => {
  expect(formats().number(-1234.56)).toBe("−1,234.6");
  expect(formatsFor({ locale: "de-DE", units: "metric", zone: "UTC" }).number(1234.56)).toBe("1.234,6");
  expect(formats().signed(0.02)).toBe("0");
  expect(formats().signed(2)).toBe("+2");
});
test.each([["12,5", 12.5], ["−3", -3], [".5", 0.5], ["1 000", 1000]])("%j is typed for %d", (text, value) => expect(numberIn(text)).toBe(value));
test.each(["", "1,000.5", "0x10", "Infinity", "1e9"])("%j is no number", (text) => expect(numberIn(text)).toBeUndefined());

test("a stopwatch shows minutes and seconds, also before zero", () => {
  expect([245, 59.6, -65].map((seconds) => formats().stopwatch(seconds))).toEqual(["4:05", "1:00", "\u22121:05"]);
});
