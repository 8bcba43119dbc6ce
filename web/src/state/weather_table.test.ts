import { expect, test } from "vitest";
import { hourAfter, weatherIn } from "./weather_table";

const start = "2026-06-13T07:00";

test("columns without headings are in the order of the table", () => {
  expect(weatherIn("07:00\t14,5\t85\t2", start).hours).toEqual([
    { time: "2026-06-13T07:00", temperature_c: 14.5, humidity_pct: 85, wind_ms: 2 },
  ]);
});
test("headings may come in any order, with kilometres an hour and degrees Fahrenheit", () => {
  const { hours } = weatherIn("Humidity,Wind (km/h),Time,Temperature °F\n80,18,08:00,50", start);
  expect(hours).toEqual([{ time: "2026-06-13T08:00", temperature_c: 10, humidity_pct: 80, wind_ms: 5 }]);
});
test("a file as Outbye writes it is read, its comments left out", () => {
  const text = "# forecast\ntime,temperature_c,humidity_pct,wind_kmh,cloud_pct\n06:00,14,92,3.6,30\n";
  expect(weatherIn(text, start).hours).toEqual([
    { time: "2026-06-13T06:00", temperature_c: 14, humidity_pct: 92, wind_ms: 1, cloud_pct: 30 },
  ]);
});
test("times after midnight are on the next day", () => {
  const { hours } = weatherIn("23:00;12;90\n00:00;11;92\n01:00;11;93", start);
  expect(hours.map(({ time }) => time)).toEqual(["2026-06-13T23:00", "2026-06-14T00:00", "2026-06-14T01:00"]);
});
test("a row that cannot be read is named, and the others are taken", () => {
  const { hours, slips } = weatherIn("07:00;12;90\n08:00;warm;90\n09:00;13;88", start);
  expect(hours).toHaveLength(2);
  expect(slips).toEqual([{ row: 2, text: "warm" }]);
});
test("a row without humidity is named whole", () => {
  expect(weatherIn("07:00;12", start).slips).toEqual([{ row: 1, text: "07:00 12" }]);
});
test("the hour after 23:30 is on the next day, and keeps its offset", () => {
  const last = { time: "2026-06-13T23:30:00+01:00", temperature_c: 12, humidity_pct: 80 };
  expect(hourAfter([last], start)).toEqual({ ...last, time: "2026-06-14T00:30:00+01:00" });
});
