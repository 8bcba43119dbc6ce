// What a packed ride shows beside the engine's answers: page.json (docs/pack.md, docs/schema/page-1.json). Written by
// `outbye pack` with the plan, and not changed by the day: where the engine's answer says otherwise, that one is newer.
// Positions are [latitude, longitude] in degrees, WGS84. Times are ISO 8601 with offset. Texts are in plain words, not HTML.

export type LatLon = [number, number];

// "photos/1.jpg" within the folder, and in a single file a data: address. An <img> takes either; to hand a data: address to
// the phone's own viewer, make a Blob of it first.
export type FileAddress = string;

export interface PageWindow {
  p10: string;
  p50: string;
  p90: string;
}

export interface PageData {
  format: "outbye page";
  version: 1;
  ride: string; // its name
  key: string; // of the ride, whatever its plan: packing it anew keeps the key, so the phone finds its log again
  plan: string; // the mark of this plan, as on its sheets of paper: who holds which
  made: string; // when it was packed
  made_by: string; // "outbye 0.1.0"
  start: string;
  time_zone: string; // "Europe/London"
  venue: string; // name of the place of start, gates and finish
  course_km: number;
  horses: { name: string; rider: string; number: string }[];
  cars: { name: string; people: string[] }[]; // names of those who ride in it; empty: nobody was named
  maps: PageMap[]; // the first is of the whole area, the others of one place each
  map_credit: string; // to be shown with the maps; empty without roads
  places: PagePlace[]; // the venue first, then the crew points
  stops: PageStop[]; // where a car meets a horse, in order of time
  kit: PageKit;
  sheets: { name: string; words: string; file: FileAddress; bytes: number }[]; // PDF
  calendar: FileAddress; // iCalendar with alarms, for the phone's own calendar
  digest: string; // the day as a message
  cautions: string[]; // shown with every plan
  notes: string[]; // what was taken for granted and what is odd, in sentences
}

// x = left + (longitude - west) * x_per_degree and y = top + (north - latitude) * y_per_degree, in the units of the
// picture's viewBox "0 0 width height"; longitudes differ by less than 180 degrees (add or take 360).
export interface PageMap {
  place: string | null; // null: the whole area
  title: string; // what it shows, for who cannot see it
  width: number;
  height: number;
  svg: string; // a whole document for an <img> (as Blob or data: address); no scripts, nothing from elsewhere
  bounds: { south: number; west: number; north: number; east: number }; // of the picture; west > east across the antimeridian
  projection: { left: number; top: number; west: number; north: number; x_per_degree: number; y_per_degree: number };
}

export interface PagePlace {
  name: string;
  is_venue: boolean;
  position: LatLon; // where the horse is met
  parking: LatLon | null; // where the car stands, if elsewhere
  is_closed: boolean; // crews are not allowed
  has_water: boolean; // a tap to refill from
  open: { from: string; to: string }[]; // empty: all day
  note: string;
  approach: string;
  recce: string;
  allowed: string[];
  hazards: { what: string; position: LatLon | null }[]; // null: at the place
  photos: { file: FileAddress; alt: string }[];
  codes: string[]; // to tell others where it is: coordinates, and the national grid where there is one
  geo: string; // "geo:54.52000,-2.31000": opens the phone's own map
  passes: { loop: number; along_km: number; horse: string; due: PageWindow }[]; // by the plan, along_km from the loop's start
}

export interface PageStop {
  label: string; // "Ford loop 1", as the engine calls it
  car: string;
  horse: string;
  place: string;
  kind: "pass" | "gate" | "finish";
  arrive: string; // of the car, by the plan
  due: PageWindow; // the horse, by the plan
  get_out: PageThing[]; // first what is reached first
  cards: PageCard[]; // one a helper, then the rider's; empty: the people there cannot do it, see notes
  if_early: string[]; // what changes when the horse comes early
  without: { helper: string; words: string[] }[]; // what changes when this one is missing
  notes: string[]; // what the rules ask, warnings
}

export interface PageThing {
  name: string;
  contents: string[]; // of a crate: what of it is needed here, "2 x Slosh bottle"
  where: string; // "boot, step 4: left, against the seat-back, on the floor"; "" when the load is not known
  moved_first: string[]; // what must be moved to reach it
}

export interface PageCard {
  who: string; // the helper, or "rider"
  lines: { from_s: number; to_s: number; task: string; with: string[]; caution: string }[]; // seconds after the car has stopped; the rider's after serving begins
  cautions: string[];
}

export interface PageKit {
  mass_kg: number;
  groups: { name: string; things: PageKitThing[] }[];
  amounts: { name: string; value: number; unit: string; steps: string[]; cautions: string[] }[]; // water, ice, feed, fuel
  notes: string[];
}

export interface PageKitThing {
  id: string;
  name: string;
  count: number;
  is_packed: boolean;
  needed: string[]; // "pass", "gate", "finish", "emergency", "not on the road"
  where: string[]; // one a piece that is loaded
  contents: string[];
  contents_note: string;
}

// files.json: everything of the folder but itself, for the service worker to keep. `mark` differs when any file does.
export interface PackedFiles {
  format: "outbye packed files";
  version: 1;
  mark: string;
  files: { file: string; bytes: number; sha256: string }[];
}

// What `outbye pack` adds to the built page: page.json, ride.json, files.json, manifest.webmanifest, icons/icon-192.png,
// icons/icon-512.png, icons/maskable-512.png, icons/touch-180.png, outbye_day.js, outbye_day.wasm, photos/*, sheets/*.pdf, day.ics.
// A single file has no manifest, icons or service worker; its data is in these elements instead:
export const single_file_ids = {
  page: "outbye-page", // <script type="application/json">: PageData
  ride: "outbye-ride", // <script type="application/json">: the packed ride
  wasm: "outbye-wasm", // <script type="application/octet-stream;base64">: outbye_day.wasm
  engine: "outbye-engine", // <script type="text/plain">: outbye_day.js
} as const;
