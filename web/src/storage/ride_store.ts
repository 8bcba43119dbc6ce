// Rides as they are stored by the local server: docs/web-api.md.
import type { RideDocument } from "../engine/answers/ride";
import type { Outcome, PaperName, Problem, SheetName } from "../engine/calls";

export interface RideInList {
  id: string;
  name: string;
  start: string | null;
  revision: number;
  changed_at: string;
  is_removed: boolean;
}
export type FileKind = "course" | "map" | "elevation" | "weather" | "drive_times" | "rules" | "kit" | "photo";
export interface RideFile {
  name: string;
  kind: FileKind;
  bytes: number;
  added_at: string;
}
export type Drafts = Record<string, string>;
export interface StoredRide {
  id: string;
  revision: number;
  changed_at: string;
  ride: RideDocument;
  drafts: Drafts;
  files: RideFile[];
}
export interface RideThere {
  revision: number;
  ride: RideDocument;
  drafts: Drafts;
}
export interface RideInStates {
  revision: number;
  at: string;
  label: string;
}
export type KeepsakeKind = "horse" | "rider" | "helper" | "car";
export interface Keepsake {
  id: string;
  kind: KeepsakeKind;
  name: string;
  revision: number;
  data: Record<string, unknown>;
}
export type TaskKind = "import_map" | "plan";
export interface Task {
  id: string;
  kind: TaskKind;
  ride: string;
  state: "waiting" | "running" | "done" | "failed" | "cancelled";
  step: string;
  share: number; // of the work, 0 to 1
  problems?: Problem[];
}
export interface MapState {
  state: "none" | "waiting" | "ready";
  bounds?: [number, number, number, number];
  min_zoom?: number;
  max_zoom?: number;
  attribution?: string;
  revision?: number;
}

export type Saved =
  | { ok: true; revision: number; changed_at: string }
  | { ok: false; conflict: RideThere }
  | { ok: false; problems: Problem[] };

export interface RideStore {
  rides(): Promise<Outcome<RideInList[]>>;
  make(from: { name?: string; ride?: RideDocument; copy_of?: string }): Promise<Outcome<RideThere & { id: string }>>;
  ride(id: string): Promise<Outcome<StoredRide>>;
  save(id: string, what: { base_revision: number; ride: RideDocument; drafts: Drafts; label: string }): Promise<Saved>;
  remove(id: string): Promise<Outcome<true>>;
  restore(id: string): Promise<Outcome<true>>;
  states(id: string): Promise<Outcome<RideInStates[]>>;
  state(id: string, revision: number): Promise<Outcome<RideThere>>;
  bringBack(id: string, revision: number): Promise<Outcome<RideThere>>;
  addFile(id: string, file: File, progress: (share: number) => void, signal?: AbortSignal): Promise<Outcome<RideFile>>;
  removeFile(id: string, name: string): Promise<Outcome<true>>;
  readFile(id: string, name: string): Promise<Outcome<Blob>>;
  fileAddress(id: string, name: string): string;
  bundleAddress(id: string): string;
  // A sheet of paper as PDF, of this ride document with the stored files.
  sheet(id: string, sheet: SheetName, paper: PaperName, ride: RideDocument): Promise<Outcome<Blob>>;
  importBundle(file: File): Promise<Outcome<RideThere & { id: string; missing_files: string[] }>>;
  hasDemo(): Promise<boolean>;
  demo(): Promise<Outcome<File>>; // a bundle
  keepsakes(): Promise<Outcome<Keepsake[]>>;
  keep(keepsake: Omit<Keepsake, "revision">, base_revision?: number): Promise<Outcome<{ id: string; revision: number }>>;
  forget(id: string): Promise<Outcome<true>>;
  startTask(id: string, kind: TaskKind): Promise<Outcome<Task>>;
  tasksOf(id: string): Promise<Outcome<Task[]>>;
  cancelTask(task: string): Promise<Outcome<true>>;
  map(id: string): Promise<Outcome<MapState>>;
}
