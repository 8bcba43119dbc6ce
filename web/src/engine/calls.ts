// The one typed table of what the engine can be asked. The page asks the local server today (server_calls.ts); a worker
// with the WebAssembly engine answers the same table. Instants are ISO 8601 with offset, lengths and times carry
// their unit in the field's name; nothing here is formatted for people: that is format/.
import type { CheckAnswer } from "./answers/check";
import type { HeatAnswer } from "./answers/heat";
import type { JobsAnswer } from "./answers/jobs";
import type { KitAnswer } from "./answers/kit";
import type { LoadAnswer } from "./answers/load";
import type { PlanAnswer } from "./answers/plan";
import type { RideDocument } from "./answers/ride";
import type { DayDrawing } from "./day_drawing";

// What a person would put right, and where: a field of the ride ("loops[0].speed_kmh"), a file, or a place.
// "away" and "slow" are said by the page itself: no answer came at all, or none in time.
export interface Problem {
  kind:
    | "bad_input"
    | "not_found"
    | "impossible"
    | "cancelled"
    | "conflict"
    | "too_large"
    | "storage"
    | "internal"
    | "away"
    | "slow";
  where: string;
  what: string;
}
export type Outcome<T> = { ok: true; value: T } | { ok: false; problems: Problem[] };

// A ride as it is asked about: the stored one, or `ride` in its place with nothing saved. Files are the stored ride's.
export interface Asked {
  ride_id: string;
  ride?: RideDocument;
}

export interface EngineCalls {
  // Course, passes and roads, without a plan.
  checkRide: { request: Asked; reply: CheckAnswer };
  // The plan and all that is drawn of it. With `before`, also what changed from the plan of that ride document.
  planRide: { request: Asked & { before?: RideDocument }; reply: { plan: PlanAnswer; drawing: DayDrawing; changes?: PlanChanges } };
  heatOfRide: { request: Asked; reply: HeatAnswer };
  kitOfRide: { request: Asked; reply: KitAnswer };
  // `pictures`: SVG text by name: steps-CAR and layers-CAR.
  loadOfRide: { request: Asked; reply: { load: LoadAnswer; pictures: Record<string, string> } };
  jobsOfRide: { request: Asked & { at?: string }; reply: { jobs: JobsAnswer; pictures: Record<string, string> } };
  // The pages of one sheet of paper as they will be printed, each a picture (SVG text). The PDF of the same: RideStore.sheet().
  sheetOfRide: { request: Asked & { sheet: SheetName; paper: PaperName; mark?: string }; reply: SheetAnswer };
  // A first ride document from the files given so far and five answers, with every assumption in `assumptions`.
  draftRide: { request: { ride_id: string; answers: DraftAnswers }; reply: { ride: RideDocument; notes: string[] } };
  // Catalogues to choose from: rule books with their levels, countries, time zones, skills, kit.
  choices: { request: Record<string, never>; reply: Choices };
}

export const sheetNames = ["crew-book", "rider-card", "kit-list", "boot-plan", "spotter"] as const;
export type SheetName = (typeof sheetNames)[number];
export const paperNames = ["a4", "letter", "a5", "pocket"] as const;
export type PaperName = (typeof paperNames)[number];
export interface SheetAnswer {
  sheet: SheetName;
  paper: PaperName;
  title: string;
  width_mm: number;
  height_mm: number;
  pages: { headings: string[]; svg: string }[];
  notes: { where: string; what: string }[]; // what could not be worked out and is not on it
}

export interface DraftAnswers {
  name: string;
  start: string; // "2026-06-13T07:00": wall clock at the venue
  speed_kmh: number; // average, or one a loop in `speeds_kmh`
  speeds_kmh?: number[];
  helpers: string[];
  cars: string[];
  horse: { name: string; rider?: string; number?: string };
}

export interface Choices {
  rule_books: { id: string; name: string; levels: string[] }[];
  skills: string[];
  time_zones: string[];
  countries: string[];
}

// Sentences are the engine's; numbers are for the page to show beside them.
export interface PlanChanges {
  worth_change_points: number;
  sentences: string[];
  meets_gained: string[]; // labels, as in plan.cars[].stops[].meet.label
  meets_lost: string[];
  chances: { label: string; before: number; after: number }[]; // those that moved by 5 % or more
  driven_change_km: number;
}

export type Call = <K extends keyof EngineCalls>(
  name: K,
  request: EngineCalls[K]["request"],
  signal?: AbortSignal,
) => Promise<Outcome<EngineCalls[K]["reply"]>>;
