// Files on their way into a ride: sent, recognised by the server, named in the ride file, and a map read at once.
import type { RideDocument } from "../engine/answers/ride";
import type { Problem } from "../engine/calls";
import type { FileKind, RideFile, RideStore } from "../storage/ride_store";
import type { RideState } from "./ride_state.svelte";

export interface Incoming {
  name: string;
  bytes: number;
  share: number;
  state: "sending" | "refused";
  problems: Problem[];
  cancel: () => void;
}

// Where a file of that kind is named. A list holds several; of the others the last one counts.
const lists: Partial<Record<FileKind, "course" | "roads" | "elevation" | "rules" | "kit">> = {
  course: "course",
  map: "roads",
  elevation: "elevation",
  rules: "rules",
  kit: "kit",
};
const singles: Partial<Record<FileKind, "weather" | "drive_times">> = { weather: "weather", drive_times: "drive_times" };

export function withFile(files: RideDocument["files"] | undefined, kind: FileKind, name: string): RideDocument["files"] {
  const before = files ?? ({} as RideDocument["files"]);
  const list = lists[kind];
  const single = singles[kind];
  if (list) return { ...before, [list]: [...(before[list] ?? []).filter((other) => other !== name), name] };
  return single ? { ...before, [single]: name } : before;
}

export function withoutFile(files: RideDocument["files"] | undefined, name: string): RideDocument["files"] | undefined {
  if (!files) return files;
  const kept = Object.entries(files).flatMap(([key, named]) => {
    if (Array.isArray(named)) {
      const others = named.filter((other) => other !== name);
      return others.length > 0 ? [[key, others]] : [];
    }
    return named === name ? [] : [[key, named]];
  });
  return Object.fromEntries(kept) as RideDocument["files"];
}

export class FileIntake {
  incoming = $state.raw<Incoming[]>([]);
  said = $state(""); // the name of the file that was taken last, to be said

  constructor(
    private readonly ride: RideState,
    private readonly store: RideStore,
    private readonly words: (name: string) => string, // "Add course.gpx", for undo
  ) {}

  async take(files: File[]): Promise<void> {
    await Promise.all(files.map((file) => this.#send(file)));
  }

  dismiss(name: string): void {
    this.incoming = this.incoming.filter((item) => item.name !== name);
  }

  async remove(file: RideFile, words: string): Promise<Problem[]> {
    const removed = await this.store.removeFile(this.ride.id, file.name);
    if (!removed.ok) return removed.problems;
    this.ride.edit("files", withoutFile(this.ride.document.files, file.name), words);
    await this.ride.readFiles();
    await this.ride.readMap();
    return [];
  }

  async #send(file: File): Promise<void> {
    const controller = new AbortController();
    const item: Incoming = {
      name: file.name,
      bytes: file.size,
      share: 0,
      state: "sending",
      problems: [],
      cancel: () => controller.abort(),
    };
    this.incoming = [...this.incoming.filter(({ name }) => name !== file.name), item];
    const sent = await this.store.addFile(
      this.ride.id,
      file,
      (share) => this.#change(file.name, { share }),
      controller.signal,
    );
    if (!sent.ok) {
      if (controller.signal.aborted) return this.dismiss(file.name);
      return this.#change(file.name, { state: "refused", problems: sent.problems });
    }
    await this.ride.readFiles();
    const { kind, name } = sent.value;
    const files = withFile(this.ride.document.files, kind, name);
    this.ride.edit("files", files, this.words(name));
    this.ride.ask(); // the same name may have other bytes now
    this.dismiss(file.name);
    this.said = name;
    if (kind === "map") await this.ride.tasks.start("import_map");
  }

  #change(name: string, to: Partial<Incoming>): void {
    this.incoming = this.incoming.map((item) => (item.name === name ? { ...item, ...to } : item));
  }
}
