// The style of the ground: what formats/map_tiles puts into its layers, drawn quietly. The names of layers and classes are
// listed in formats/map_tiles/README.md.
import type {
  DataDrivenPropertyValueSpecification, ExpressionSpecification, FilterSpecification, LayerSpecification,
} from "maplibre-gl";
import type { MapColours } from "./colours";

type Number = DataDrivenPropertyValueSpecification<number>;
export const plainFont = ["system-ui"];
// The browser draws the letters itself: no font is fetched. A name that no font has, so that the next one is taken in bold or
// italic.
export const boldFont = ["Outbye Bold", "system-ui"];
export const italicFont = ["Outbye Italic", "Georgia", "serif"];

const source = "ground";
const kind: ExpressionSpecification = ["get", "class"];
const isOneOf = (...names: string[]): FilterSpecification => ["in", kind, ["literal", names]] as ExpressionSpecification;
const both = (...filters: FilterSpecification[]): FilterSpecification => ["all", ...filters] as ExpressionSpecification;
// A width in pixels by zoom, growing as the ground does.
const wide = (...stops: [zoom: number, pixels: number][]): Number =>
  ["interpolate", ["exponential", 1.5], ["zoom"], ...stops.flat()] as ExpressionSpecification;
const steady = (...stops: [zoom: number, value: number][]): Number =>
  ["interpolate", ["linear"], ["zoom"], ...stops.flat()] as ExpressionSpecification;

// "Pike 978", or what there is of it.
const peakName = [
  "concat", ["coalesce", ["get", "name"], ""], ["case", ["has", "metres"], ["concat", " ", ["to-string", ["get", "metres"]]], ""],
] as unknown as ExpressionSpecification;

const land = (colours: MapColours): LayerSpecification[] => {
  const classes: [string, string][] = [
    ["built_up", colours.builtUp], ["grass", colours.grass], ["heath", colours.heath], ["bare", colours.bare],
    ["wetland", colours.wetland], ["orchard", colours.orchard], ["wood", colours.wood], ["parking", colours.parking],
  ];
  return classes.map(([name, colour]): LayerSpecification => ({
    id: `land-${name}`, type: "fill", source, "source-layer": "land", filter: isOneOf(name),
    paint: { "fill-color": colour, "fill-antialias": name !== "wood" },
  }));
};

const water = (colours: MapColours): LayerSpecification[] => [
  {
    id: "water", type: "fill", source, "source-layer": "water",
    paint: { "fill-color": colours.water, "fill-outline-color": colours.stream },
  },
  {
    id: "waterways", type: "line", source, "source-layer": "waterways",
    layout: { "line-cap": "round", "line-join": "round" },
    paint: {
      "line-color": ["match", kind, "river", colours.water, "canal", colours.water, colours.stream],
      "line-width": [
        "interpolate", ["exponential", 1.5], ["zoom"],
        8, ["match", kind, "river", 1.2, "canal", 1, 0.5],
        14, ["match", kind, "river", 5, "canal", 4, "stream", 1.6, 1],
        18, ["match", kind, "river", 24, "canal", 16, "stream", 6, 3],
      ],
    },
  },
];

// Roads that a car takes, from the least to the greatest, each with an edge. Widths at zooms 8, 12, 14 and 18.
interface RoadLook {
  names: string[];
  fill: (colours: MapColours) => string;
  widths: [number, number, number, number];
}
const roads: RoadLook[] = [
  { names: ["service"], fill: (c) => c.road, widths: [0, 0.4, 1.6, 9] },
  { names: ["minor"], fill: (c) => c.road, widths: [0, 1.2, 3.2, 16] },
  { names: ["tertiary"], fill: (c) => c.road, widths: [0.4, 2, 4.4, 19] },
  { names: ["secondary"], fill: (c) => c.mainRoad, widths: [0.6, 2.6, 5, 21] },
  { names: ["primary"], fill: (c) => c.mainRoad, widths: [1, 3.2, 6, 24] },
  { names: ["trunk"], fill: (c) => c.motorway, widths: [1.2, 3.6, 6.5, 26] },
  { names: ["motorway"], fill: (c) => c.motorway, widths: [1.4, 4, 7.5, 30] },
];
const widthOf = ([a, b, c, d]: RoadLook["widths"], edge: number): Number =>
  wide([8, a + edge / 2], [12, b + edge], [14, c + edge * 1.2], [18, d + edge * 1.6]);

const roadLines = (colours: MapColours): LayerSpecification[] => {
  const level: ExpressionSpecification = ["coalesce", ["get", "level"], 0];
  const one = (look: RoadLook, part: "edge" | "fill", filter: FilterSpecification, id: string): LayerSpecification => ({
    id: `road-${part}-${look.names[0]}${id}`, type: "line", source, "source-layer": "roads",
    filter: both(isOneOf(...look.names), filter),
    layout: { "line-cap": part === "edge" && id === "-bridge" ? "butt" : "round", "line-join": "round" },
    paint: {
      "line-color": part === "edge" ? colours.roadEdge : look.fill(colours),
      "line-width": widthOf(look.widths, part === "edge" ? 1.4 : 0),
      "line-opacity": id === "-tunnel" ? 0.35 : ["case", ["==", ["get", "private"], 1], 0.55, 1],
    },
  });
  const level_ = (test: FilterSpecification, id: string) => [
    ...roads.map((look) => one(look, "edge", test, id)),
    ...roads.map((look) => one(look, "fill", test, id)),
  ];
  return [
    ...level_(["==", level, -1], "-tunnel"),
    ...level_(["==", level, 0], ""),
    ...ways(colours),
    ...level_(["==", level, 1], "-bridge"),
  ];
};

// What is ridden and walked, and rails.
const ways = (colours: MapColours): LayerSpecification[] => {
  const line = (name: string, colour: string, widths: Number, dashes: number[] | undefined): LayerSpecification => ({
    id: `way-${name}`, type: "line", source, "source-layer": "roads", filter: isOneOf(name),
    layout: { "line-cap": "butt", "line-join": "round" },
    paint: {
      "line-color": colour, "line-width": widths,
      "line-opacity": ["case", ["==", ["get", "private"], 1], 0.55, 1],
      ...(dashes ? { "line-dasharray": dashes } : {}),
    },
  });
  return [
    line("path", colours.path, wide([13, 0.8], [15, 1.4], [18, 3]), [1, 1.6]),
    line("bridleway", colours.bridleway, wide([12, 0.9], [14, 1.6], [18, 4]), [4, 1.6]),
    line("track", colours.track, wide([12, 0.9], [14, 1.6], [18, 5]), [6, 1.2]),
    {
      id: "rails", type: "line", source, "source-layer": "railways",
      paint: { "line-color": colours.rail, "line-width": wide([10, 0.8], [14, 1.4], [18, 3]) },
    },
    {
      id: "rail-ties", type: "line", source, "source-layer": "railways", minzoom: 13, filter: isOneOf("rail"),
      paint: { "line-color": colours.rail, "line-width": wide([13, 3.5], [18, 9]), "line-dasharray": [0.25, 2.4] },
    },
  ];
};

const buildings = (colours: MapColours): LayerSpecification => ({
  id: "buildings", type: "fill", source, "source-layer": "buildings", minzoom: 14,
  paint: { "fill-color": colours.building, "fill-outline-color": colours.buildingEdge, "fill-opacity": steady([14, 0], [14.6, 1]) },
});

// Names. Those of places stand over the course, as a reader looks for them first.
export const groundNames = (colours: MapColours): LayerSpecification[] => {
  const halo = { "text-halo-color": colours.halo, "text-halo-width": 1.4, "text-halo-blur": 0.4 };
  const place = (names: string[], minzoom: number, sizes: Number, font: string[], colour: string): LayerSpecification => ({
    id: `place-${names[0]}`, type: "symbol", source, "source-layer": "places", minzoom, filter: isOneOf(...names),
    layout: {
      "text-field": ["get", "name"], "text-font": font, "text-size": sizes, "text-max-width": 7, "text-padding": 4,
    },
    paint: { "text-color": colour, ...halo },
  });
  return [
    {
      id: "name-water", type: "symbol", source, "source-layer": "waterways", minzoom: 13, filter: isOneOf("river", "canal", "stream"),
      layout: {
        "symbol-placement": "line", "text-field": ["get", "name"], "text-font": italicFont, "text-size": 12,
        "symbol-spacing": 400, "text-max-angle": 30,
      },
      paint: { "text-color": colours.textWater, ...halo },
    },
    {
      id: "name-lake", type: "symbol", source, "source-layer": "water", minzoom: 12,
      layout: { "text-field": ["get", "name"], "text-font": italicFont, "text-size": 12, "text-max-width": 6 },
      paint: { "text-color": colours.textWater, ...halo },
    },
    {
      id: "name-road", type: "symbol", source, "source-layer": "roads", minzoom: 14,
      filter: isOneOf("trunk", "primary", "secondary", "tertiary", "minor"),
      layout: {
        "symbol-placement": "line", "text-field": ["coalesce", ["get", "name"], ["get", "ref"]], "text-font": plainFont,
        "text-size": 11.5, "symbol-spacing": 350, "text-max-angle": 30,
      },
      paint: { "text-color": colours.textQuiet, ...halo },
    },
    {
      id: "ref-road", type: "symbol", source, "source-layer": "roads", minzoom: 10,
      filter: both(isOneOf("motorway", "trunk", "primary", "secondary"), ["has", "ref"]),
      layout: {
        "symbol-placement": "line", "text-field": ["get", "ref"], "text-font": boldFont, "text-size": 10.5,
        "text-rotation-alignment": "viewport", "symbol-spacing": 300,
      },
      paint: { "text-color": colours.textQuiet, ...halo, "text-halo-width": 2 },
    },
    ...([["peak", 11], ["fuel", 12], ["parking", 13], ["water", 13], ["trough", 13], ["ford", 13.5], ["cattle grid", 14]] as const).map(
      ([name, minzoom]): LayerSpecification => ({
      id: `sign-${name}`, type: "symbol", source, "source-layer": "points", minzoom,
      filter: isOneOf(name),
      layout: {
        "icon-image": ["concat", `sign-${colours.scheme}-`, kind], "icon-size": steady([11, 0.75], [15, 1]),
        "text-field": name === "peak" ? peakName : ["step", ["zoom"], "", 15, ["coalesce", ["get", "name"], ""]],
        "text-font": plainFont, "text-size": 11, "text-offset": [0, 0.9], "text-anchor": "top", "text-optional": true, "text-max-width": 7,
      },
      paint: { "text-color": colours.textQuiet, ...halo },
    })),
    place(["locality", "farm"], 13.5, 11, italicFont, colours.textQuiet),
    place(["hamlet", "suburb"], 12, steady([12, 11], [15, 13]), plainFont, colours.textQuiet),
    place(["village"], 10, steady([10, 11], [14, 15]), plainFont, colours.text),
    place(["town"], 8, steady([8, 12], [14, 18]), boldFont, colours.text),
    place(["city"], 8, steady([8, 14], [14, 22]), boldFont, colours.text),
  ];
};

export const ground = (colours: MapColours): LayerSpecification[] => [
  ...land(colours), ...water(colours), buildings(colours), ...roadLines(colours),
];
export const paper = (colours: MapColours): LayerSpecification => ({
  id: "paper", type: "background", paint: { "background-color": colours.ground },
});
export { source as groundSource, steady, wide };
