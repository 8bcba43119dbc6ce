// The colours of the map, light and dark: quiet ground, so that the course and the crew stand out in full sun. Text on its
// ground has a contrast of 7, lines of roads and water are told apart by width and dashes too.
export interface MapColours {
  scheme: "light" | "dark";
  ground: string;
  wood: string;
  heath: string;
  grass: string;
  orchard: string;
  wetland: string;
  bare: string;
  builtUp: string;
  parking: string;
  water: string;
  stream: string;
  building: string;
  buildingEdge: string;
  roadEdge: string;
  motorway: string;
  mainRoad: string;
  road: string;
  track: string;
  bridleway: string;
  path: string;
  rail: string;
  text: string;
  textQuiet: string;
  textWater: string;
  halo: string;
  // What lies on it: the day.
  loops: string[];
  loopNames: string[]; // the same hues as text
  casing: string;
  drive: string;
  chosen: string;
  sign: string; // icons of the map itself
  signGround: string;
}

// Okabe and Ito's colours, as --hue-1 ... in look.css.
export const light: MapColours = {
  scheme: "light",
  ground: "#f7f4ec", wood: "#dbe5cf", heath: "#ebe6d3", grass: "#e8eddb", orchard: "#e2e9cf", wetland: "#dce7e2",
  bare: "#ebe7de", builtUp: "#ebe5d8", parking: "#e3dfd3", water: "#bcd6e0", stream: "#8db4c4", building: "#dbd3c4",
  buildingEdge: "#c9bfac", roadEdge: "#c4bca9", motorway: "#efd193", mainRoad: "#f6e6b8", road: "#ffffff",
  track: "#94805c", bridleway: "#6f7f4e", path: "#a39883", rail: "#8b8880", text: "#2b322f", textQuiet: "#565d57",
  textWater: "#2f5a70", halo: "#faf8f2", casing: "#fffefa", drive: "#1d2522", chosen: "#1b55c4", sign: "#4c5751",
  signGround: "#fffefa",
  loops: ["#0072b2", "#d55e00", "#009e73", "#cc79a7", "#e69f00", "#56b4e9", "#000000"],
  loopNames: ["#004c78", "#873c00", "#005e45", "#7d3159", "#6b4900", "#0b4d73", "#000000"],
};
export const dark: MapColours = {
  scheme: "dark",
  ground: "#171d1e", wood: "#1c2a22", heath: "#22241d", grass: "#1c2520", orchard: "#20281c", wetland: "#1a2729",
  bare: "#23262a", builtUp: "#22272a", parking: "#2a2f30", water: "#17313e", stream: "#2c5365", building: "#2b3030",
  buildingEdge: "#3a4040", roadEdge: "#0f1314", motorway: "#6f5f39", mainRoad: "#5a5340", road: "#454c4b",
  track: "#8a7a58", bridleway: "#7f9160", path: "#6d6a5e", rail: "#6a6f6d", text: "#e3dfd3", textQuiet: "#b4b9b0",
  textWater: "#9cc3d6", halo: "#14191a", casing: "#0d1112", drive: "#ece8dd", chosen: "#9cc0ff", sign: "#b4b9b0",
  signGround: "#1b2223",
  loops: ["#56a8e0", "#f08040", "#2fc79a", "#e09cc3", "#f0b840", "#7cc8f4", "#ece8dd"],
  loopNames: ["#8cc8f0", "#ffa877", "#6fe0bd", "#f0bcda", "#f7cf7a", "#a9daf8", "#ece8dd"],
};
