import { validateStyleMin } from "@maplibre/maplibre-gl-style-spec";
import { expect, test } from "vitest";
import type { RideDocument } from "../engine/answers/ride";
import type { DayDrawing } from "../engine/day_drawing";
import { ground, groundNames, groundSource, paper } from "./base_style";
import { dark, light, type MapColours } from "./colours";
import { chosenLayers, dayLines, dayNames, daySources } from "./day_style";
import { dayMap } from "./marks";

const loop = (name: string, from_km: number) => ({
  name, from_km, to_km: from_km + 10, line: [[0, 50], [0, 50.045], [0, 50]] as [number, number][], km_marks: [], heights: [],
});
const drawing = {
  version: 1, from_s: 0, to_s: 1, length_km: 80, time_zone_offsets: [], venue: { name: "Field", position: [0, 50] },
  loops: Array.from({ length: 8 }, (_, i) => loop(`Loop ${i}`, 10 * i)),
  points: [], horses: [], meets: [], dark: [], heat: [],
  cars: Array.from({ length: 5 }, (_, i) => ({ name: `Car ${i}`, spans: [], drives: [{ stop: 0, line: [[0, 50], [0, 50.04]] }] })),
} as unknown as DayDrawing;

function styleOf(colours: MapColours) {
  const map = dayMap(drawing, {} as RideDocument);
  return {
    version: 8 as const,
    sources: {
      [groundSource]: { type: "vector" as const, tiles: ["http://localhost/{z}/{x}/{y}"], minzoom: 8, maxzoom: 14 },
      ...daySources(map, 1, String),
    },
    layers: [paper(colours), ...ground(colours), ...dayLines(map, colours), ...groundNames(colours), ...dayNames(map, colours)],
  };
}

test.each([["light", light], ["dark", dark]])("the %s style holds by the style specification", (_, colours) => {
  expect(validateStyleMin(styleOf(colours)).map(({ message }) => message)).toEqual([]);
});

test("no layer stands twice, and the style asks for no font and no picture from anywhere", () => {
  const style = styleOf(light);
  const ids = style.layers.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  expect(Object.keys(style)).not.toContain("glyphs");
  expect(Object.keys(style)).not.toContain("sprite");
  for (const layer of chosenLayers) expect(ids).toContain(layer);
});

// Relative luminance and contrast: WCAG 2.2.
function luminance(colour: string): number {
  const part = (at: number) => {
    const v = parseInt(colour.slice(at, at + 2), 16) / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5);
}
const contrast = (a: string, b: string): number => {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (high + 0.05) / (low + 0.05);
};

test.each([["light", light], ["dark", dark]])("names of the %s map have a contrast of 7, quiet ones of 4.5, on every ground", (_, colours) => {
  for (const ground of [colours.ground, colours.wood, colours.heath, colours.grass, colours.builtUp, colours.wetland]) {
    expect(contrast(colours.text, ground)).toBeGreaterThan(7);
    for (const name of colours.loopNames) expect(contrast(name, ground)).toBeGreaterThan(5.5);
    expect(contrast(colours.textQuiet, ground)).toBeGreaterThan(4.5);
    expect(contrast(colours.textWater, ground)).toBeGreaterThan(4.5);
  }
});

test.each([["light", light], ["dark", dark]])("each loop of the %s map stands out from the edge it is laid on", (_, colours) => {
  for (const hue of colours.loops) expect(contrast(hue, colours.casing)).toBeGreaterThan(1.9);
});
