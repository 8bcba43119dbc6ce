// The day on the ground: the course by loop, with dashes and hue and the way it is ridden; marks of distance; the cars' drives.
import type { FeatureCollection } from "geojson";
import type { LayerSpecification, SourceSpecification } from "maplibre-gl";
import { dashOf } from "../draw/lines";
import { boldFont, steady, wide } from "./base_style";
import type { MapColours } from "./colours";
import { marksAlong } from "./course_line";
import { distance_m, type Place } from "./ground";
import type { DayMap } from "./marks";

// Dashes of draw/lines.ts are pixels of a line 3 pixels wide; the map's are line widths.
const dashesOf = (index: number): number[] | undefined => {
  const dashes = dashOf(index).split(" ").filter((it) => it !== "").map((it) => Number(it) / 3);
  return dashes.length > 0 ? dashes : undefined;
};
export const hueOnMap = (colours: MapColours, loop: number): string => colours.loops[loop % colours.loops.length]!;

const lineOf = (coordinates: [number, number][]) => ({ type: "LineString" as const, coordinates });

const farthest = (line: Place[], from: Place): Place =>
  line.reduce((far, place) => (distance_m(place, from) > distance_m(far, from) ? place : far), line[0] ?? from);

// `unit_km`: how long a mark is from the next: a kilometre, or a mile.
export function daySources(map: DayMap, unit_km: number, number: (value: number) => string): Record<string, SourceSpecification> {
  const course: FeatureCollection = {
    type: "FeatureCollection",
    features: map.loops.map((loop, i) => ({
      type: "Feature", properties: { loop: i, name: loop.name }, geometry: lineOf(loop.line),
    })),
  };
  const marks: FeatureCollection = {
    type: "FeatureCollection",
    features: map.loops.flatMap((loop, i) =>
      marksAlong(loop.course, unit_km).map(({ count, place }) => ({
        type: "Feature" as const,
        // Every tenth, fifth or single one is shown, the nearer the more.
        properties: { loop: i, text: number(count), rank: count % 10 === 0 ? 2 : count % 5 === 0 ? 1 : 0 },
        geometry: { type: "Point" as const, coordinates: place },
      })),
    ),
  };
  const drives: FeatureCollection = {
    type: "FeatureCollection",
    features: map.drives.map((drive) => ({
      type: "Feature", properties: { car: drive.car, to: drive.to ?? "" }, geometry: lineOf(drive.line),
    })),
  };
  // The name of a loop stands where it is farthest from the venue, and from the other loops with it.
  const names: FeatureCollection = {
    type: "FeatureCollection",
    features: map.loops.map((loop, i) => ({
      type: "Feature", properties: { loop: i, name: loop.name }, geometry: { type: "Point", coordinates: farthest(loop.line, map.points[0]!.place) },
    })),
  };
  return {
    names: { type: "geojson", data: names },
    course: { type: "geojson", data: course },
    marks: { type: "geojson", data: marks },
    drives: { type: "geojson", data: drives },
  };
}

export const dayLines = (map: DayMap, colours: MapColours): LayerSpecification[] => {
  const width = wide([8, 2], [12, 3.2], [16, 6]);
  const layers: LayerSpecification[] = [];
  // Loops that share a track lie side by side.
  const apart = (i: number) => (i - (map.loops.length - 1) / 2) * 4;
  const offset = (i: number) => steady([10, apart(i) / 2], [13, apart(i)], [16, apart(i) * 1.4]);
  map.loops.forEach((_, i) => {
    const filter = ["==", ["get", "loop"], i] as never;
    layers.push({
      id: `course-edge-${i}`, type: "line", source: "course", filter,
      layout: { "line-join": "round", "line-cap": "round" },
      paint: { "line-color": colours.casing, "line-width": wide([8, 4], [12, 6], [16, 9.5]), "line-offset": offset(i), "line-opacity": 0.9 },
    });
  });
  map.loops.forEach((_, i) => {
    const dashes = dashesOf(i);
    layers.push({
      id: `course-${i}`, type: "line", source: "course", filter: ["==", ["get", "loop"], i],
      layout: { "line-join": "round", "line-cap": "butt" },
      paint: {
        "line-color": hueOnMap(colours, i), "line-width": width, "line-offset": offset(i),
        ...(dashes ? { "line-dasharray": dashes } : {}),
      },
    });
  });
  map.cars.forEach((_, i) => {
    const filter = ["==", ["get", "car"], i] as never;
    const dashes = [[3, 2.5], [0.6, 2], [6, 2, 0.6, 2], [9, 3]][i % 4]!;
    layers.push(
      {
        id: `drive-edge-${i}`, type: "line", source: "drives", filter, layout: { "line-join": "round" },
        paint: { "line-color": colours.casing, "line-width": wide([8, 2.5], [14, 4.5]), "line-opacity": 0.75 },
      },
      {
        id: `drive-${i}`, type: "line", source: "drives", filter, layout: { "line-join": "round" },
        paint: { "line-color": colours.drive, "line-width": wide([8, 1], [14, 2]), "line-dasharray": dashes },
      },
    );
  });
  // The drive to the chosen meet, from which the eye finds the rest.
  layers.push(
    {
      id: "chosen-edge", type: "line", source: "drives", filter: ["==", ["get", "to"], "-"],
      layout: { "line-join": "round", "line-cap": "round" },
      paint: { "line-color": colours.casing, "line-width": wide([8, 6], [14, 9]) },
    },
    {
      id: "chosen", type: "line", source: "drives", filter: ["==", ["get", "to"], "-"],
      layout: { "line-join": "round", "line-cap": "round" },
      paint: { "line-color": colours.chosen, "line-width": wide([8, 3], [14, 5]) },
    },
    {
      id: "chosen-way", type: "symbol", source: "drives", filter: ["==", ["get", "to"], "-"], minzoom: 10,
      layout: {
        "symbol-placement": "line", "symbol-spacing": 90, "icon-image": `arrow-${colours.drive}`, "icon-size": 1.1,
        "icon-allow-overlap": true, "icon-ignore-placement": true,
      },
    },
  );
  map.loops.forEach((_, i) => {
    layers.push({
      id: `course-way-${i}`, type: "symbol", source: "course", filter: ["==", ["get", "loop"], i], minzoom: 10.5,
      layout: {
        "symbol-placement": "line", "symbol-spacing": 130, "icon-image": `arrow-${hueOnMap(colours, i)}`,
        "icon-size": steady([10, 0.8], [15, 1.25]), "icon-offset": [0, apart(i)], "icon-allow-overlap": true, "icon-ignore-placement": true,
      },
    });
  });
  return layers;
};

export const dayNames = (map: DayMap, colours: MapColours): LayerSpecification[] => [
  ...map.loops.map((_, i): LayerSpecification => ({
    id: `course-name-${i}`, type: "symbol", source: "names", filter: ["==", ["get", "loop"], i],
    layout: {
      "text-field": ["get", "name"], "text-font": boldFont, "text-size": 13.5, "text-radial-offset": 0.7, "text-padding": 2,
      "text-variable-anchor": ["bottom", "top", "left", "right"], "text-justify": "auto",
    },
    paint: { "text-color": loopText(colours, i), "text-halo-color": colours.halo, "text-halo-width": 2.4 },
  })),
  ...([[2, 9, 12.5], [1, 11.5, 24], [2, 12.5, 24], [0, 13.2, 24]] as const).map(
    ([rank, minzoom, maxzoom], i): LayerSpecification => ({
      id: `marks-${i}`, type: "symbol", source: "marks", minzoom, maxzoom, filter: ["==", ["get", "rank"], rank],
      layout: {
        "icon-image": ["concat", `distance-${colours.scheme}-`, ["to-string", ["%", ["get", "loop"], colours.loops.length]]],
        "icon-padding": 0, "text-field": ["get", "text"], "text-font": boldFont, "text-size": 10.5, "text-padding": 0,
      },
      paint: { "text-color": colours.text },
    }),
  ),
];

// The hue, made as dark (or light) as text must be.
const loopText = (colours: MapColours, loop: number): string => colours.loopNames[loop % colours.loopNames.length]!;

// The layers whose filter follows what is chosen.
export const chosenLayers = ["chosen-edge", "chosen", "chosen-way"];
export const chosenFilter = (label: string | undefined): never => ["==", ["get", "to"], label ?? "-"] as never;
