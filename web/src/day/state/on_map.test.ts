import { describe, expect, it } from "vitest";
import type { PageMap } from "../engine/page_data";
import { onMap } from "./on_map";

const map = (west: number): PageMap =>
  ({ width: 200, height: 100, projection: { left: 10, top: 5, west, north: 55, x_per_degree: 1000, y_per_degree: 2000 } }) as PageMap;

describe("a position on a map", () => {
  it("is counted from the upper left corner", () => expect(onMap(map(-2), { lat: 54.98, lon: -1.9 })).toMatchObject({ x: expect.closeTo(110), y: expect.closeTo(45) }));
  it("is nothing outside", () => expect(onMap(map(-2), { lat: 54.98, lon: 3 })).toBeUndefined());
  it("is found across the antimeridian", () => expect(onMap(map(179.95), { lat: 55, lon: -179.95 })?.x).toBeCloseTo(110));
});
