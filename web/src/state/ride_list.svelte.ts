// The rides that are stored: made, copied, renamed, removed and had back.
import type { RideDocument } from "../engine/answers/ride";
import type { Outcome, Problem } from "../engine/calls";
import type { RideInList, RideStore } from "../storage/ride_store";

export interface Imported {
  id: string;
  missing: string[];
  isNewer: boolean;
}

// A ride file of a later version than this page knows: kept as it is, and said.
export const isNewer = (ride: RideDocument): boolean => Number(ride.version) > 1;

export class RideList {
  rides = $state.raw<RideInList[]>();
  problems = $state.raw<Problem[]>([]);
  isWorking = $state(false);
  // What was just done, to be said: the name of the ride and what came of it.
  done = $state.raw<{ what: "copied" | "removed" | "restored" | "renamed" | "imported"; name: string }>();

  present = $derived.by(() => this.rides?.filter(({ is_removed }) => !is_removed) ?? []);
  removed = $derived.by(() => this.rides?.filter(({ is_removed }) => is_removed) ?? []);

  constructor(private readonly store: RideStore) {}

  async read(): Promise<void> {
    const rides = await this.store.rides();
    if (rides.ok) this.rides = rides.value;
    else this.problems = rides.problems;
  }

  // The id of the new ride, empty but for what the server puts in.
  async make(): Promise<string | undefined> {
    const made = await this.#do(this.store.make({}));
    return made?.id;
  }

  async copy(ride: RideInList, name: string): Promise<void> {
    const made = await this.#do(this.store.make({ copy_of: ride.id, name }));
    if (made) await this.#told("copied", name);
  }

  async rename(ride: RideInList, name: string, label: string): Promise<void> {
    const stored = await this.#do(this.store.ride(ride.id));
    if (!stored) return;
    const document: RideDocument = { ...stored.ride, name };
    this.isWorking = true;
    const saved = await this.store.save(ride.id, {
      base_revision: stored.revision,
      ride: document,
      drafts: stored.drafts,
      label,
    });
    this.isWorking = false;
    if (saved.ok) return this.#told("renamed", name);
    // Somebody saved between the two: once more on top of that.
    if ("conflict" in saved) return this.rename(ride, name, label);
    this.problems = saved.problems;
  }

  async remove(ride: RideInList): Promise<void> {
    if (await this.#do(this.store.remove(ride.id))) await this.#told("removed", ride.name);
  }

  async restore(ride: RideInList): Promise<void> {
    if (await this.#do(this.store.restore(ride.id))) await this.#told("restored", ride.name);
  }

  // A bundle or a ride file; the id of the ride it became, and the files that it names and did not bring.
  async take(file: File): Promise<Imported | undefined> {
    const taken = await this.#do(this.store.importBundle(file));
    if (!taken) return undefined;
    await this.#told("imported", taken.ride.name ?? file.name);
    return { id: taken.id, missing: taken.missing_files ?? [], isNewer: isNewer(taken.ride) };
  }

  async takeDemo(): Promise<string | undefined> {
    const demo = await this.#do(this.store.demo());
    return demo ? (await this.take(demo))?.id : undefined;
  }

  async #do<T>(asked: Promise<Outcome<T>>): Promise<T | undefined> {
    this.isWorking = true;
    this.problems = [];
    this.done = undefined;
    const outcome = await asked;
    this.isWorking = false;
    if (outcome.ok) return outcome.value;
    this.problems = outcome.problems;
    return undefined;
  }

  async #told(what: NonNullable<RideList["done"]>["what"], name: string): Promise<void> {
    await this.read();
    this.done = { what, name };
  }
}
