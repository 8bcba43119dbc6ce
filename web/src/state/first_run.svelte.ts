// The first run of a ride: five answers, kept as they are typed among the drafts of the ride, and the ride made of them.
import type { DraftAnswers, Problem } from "../engine/calls";
import type { RideDocument } from "../engine/answers/ride";
import type { Keepsake } from "../storage/ride_store";
import { assumedPaths } from "./assumed";
import { draftOfAnswers } from "./first_answers";
import { valueAt } from "./path";
import type { RideState } from "./ride_state.svelte";

export interface Answers {
  name: string;
  start: string;
  speed: string; // as typed, in the reader's unit
  speeds: string[]; // by loop; empty: as the one above
  helpers: string[];
  cars: string[];
  horse: { name: string; rider: string; number: string };
  isMade: boolean;
  drafted: Record<string, unknown>; // what the engine put in for itself, by path
}

const none: Answers = {
  name: "",
  start: "",
  speed: "",
  speeds: [],
  helpers: [],
  cars: [],
  horse: { name: "", rider: "", number: "" },
  isMade: false,
  drafted: {},
};

// What was kept of a horse, a helper or a car of that name, put over what the engine drafted.
export function withKept(ride: RideDocument, kept: Keepsake[]): RideDocument {
  const of = <T extends { name: string }>(kind: Keepsake["kind"], items: T[] | undefined) =>
    items?.map((item) => {
      const data = kept.find((keepsake) => keepsake.kind === kind && keepsake.name.toLowerCase() === item.name.toLowerCase())?.data;
      return data ? ({ ...item, ...data, name: item.name } as T) : item;
    });
  const loops = ride.loops?.length;
  const horses = of("horse", ride.horses)?.map((horse) => {
    // Speeds of another ride's loops say nothing here when there are not as many.
    if (horse.speeds_kmh === undefined || horse.speeds_kmh.length === loops) return horse;
    const { speeds_kmh: _, ...rest } = horse;
    return rest;
  });
  return { ...ride, ...(horses && { horses }), ...(ride.helpers && { helpers: of("helper", ride.helpers) }), ...(ride.cars && { cars: of("car", ride.cars) }) };
}

export class FirstRun {
  problems = $state.raw<Problem[]>([]);
  notes = $state.raw<string[]>([]);
  isMaking = $state(false);
  answers: Answers = $derived.by(() => {
    try {
      return { ...none, ...(JSON.parse(this.ride.drafts[draftOfAnswers] ?? "{}") as Partial<Answers>) };
    } catch {
      return none;
    }
  });

  constructor(
    private readonly ride: RideState,
    private readonly words: { label: string; step: string },
  ) {}

  answer(change: Partial<Answers>): void {
    this.ride.draft(draftOfAnswers, JSON.stringify({ ...this.answers, ...change }), this.words.label);
  }

  async make(asked: DraftAnswers, kept: Keepsake[]): Promise<boolean> {
    this.isMaking = true;
    this.problems = [];
    // The files are the stored ride's: what was dropped is there, but what names it may not be yet.
    await this.ride.saveNow();
    const drafted = await this.ride.askOnce("draftRide", { ride: undefined, answers: asked } as never);
    this.isMaking = false;
    if (!drafted.ok) {
      this.problems = drafted.problems;
      return false;
    }
    this.notes = drafted.value.notes;
    this.ride.replace(withKept(drafted.value.ride, kept), this.words.step);
    const putIn = Object.fromEntries(assumedPaths(this.ride.document).map((path) => [path, valueAt(this.ride.document, path)]));
    this.answer({ isMade: true, drafted: putIn });
    return true;
  }
}
