import { expect, it } from "vitest";
import { curve } from "./curve";

const point = (minute: number, here: number) => ({ until: `2026-06-13T10:0${minute}:00+01:00`, here, ready: 1 - here });

it("runs from left to right, and higher odds are higher up", () => {
  const frame = { left: 0, right: 100, top: 0, bottom: 50 };
  expect(curve([point(0, 0), point(1, 0.5), point(2, 1)], "here", frame)).toBe("M0.0 50.0L50.0 25.0L100.0 0.0");
});
