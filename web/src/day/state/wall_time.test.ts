import { describe, expect, it } from "vitest";
import { timeTyped, wallTime } from "./wall_time";

const london = "Europe/London";
describe("a time typed on the clock of the ride", () => {
  it("is read back as it was shown", () => {
    const { date, time } = wallTime("2026-06-13T10:42:07+01:00", london);
    expect([date, time, timeTyped(date, time, london)]).toEqual(["2026-06-13", "10:42:07", "2026-06-13T09:42:07+00:00"]);
  });
  it("may lack its seconds and its colon", () => {
    expect([timeTyped("2026-06-13", "9:05", london), timeTyped("2026-06-13", "0905", london)]).toEqual(Array(2).fill("2026-06-13T08:05:00+00:00"));
  });
  it("is on the right side of midnight", () => expect(timeTyped("2026-06-14", "00:15", london)).toBe("2026-06-13T23:15:00+00:00"));
  it("is on either side of a change of clocks what the clock shows", () => {
    expect(timeTyped("2026-10-25", "00:30", london)).toBe("2026-10-24T23:30:00+00:00");
    expect(timeTyped("2026-10-25", "03:00", london)).toBe("2026-10-25T03:00:00+00:00");
    expect(timeTyped("2026-03-29", "03:00", london)).toBe("2026-03-29T02:00:00+00:00");
  });
  it("is the first of the two in the hour that comes twice", () => expect(timeTyped("2026-10-25", "01:30", london)).toBe("2026-10-25T00:30:00+00:00"));
  it("is nothing when it is no time", () => {
    for (const text of ["25:00", "9:60", "soon", ""]) expect(timeTyped("2026-06-13", text, london)).toBeUndefined();
  });
});
