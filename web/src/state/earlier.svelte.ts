// The earlier states of a ride: listed, looked at, brought back.
import type { Problem } from "../engine/calls";
import type { RideInStates, RideStore, RideThere } from "../storage/ride_store";
import type { RideState } from "./ride_state.svelte";

export class Earlier {
  all = $state.raw<RideInStates[]>();
  looked = $state.raw<{ of: RideInStates; there: RideThere }>();
  problems = $state.raw<Problem[]>([]);

  constructor(
    private readonly ride: RideState,
    private readonly store: Pick<RideStore, "states" | "state" | "bringBack">,
  ) {}

  async read(): Promise<void> {
    const read = await this.store.states(this.ride.id);
    if (read.ok) this.all = read.value;
    else this.problems = read.problems;
  }

  async look(of: RideInStates): Promise<void> {
    this.problems = [];
    const there = await this.store.state(this.ride.id, of.revision);
    if (there.ok) this.looked = { of, there: there.value };
    else this.problems = there.problems;
  }

  // What is typed and not saved yet is saved first, so that it is among the states too.
  async bringBack(of: RideInStates, words: string): Promise<boolean> {
    this.problems = [];
    await this.ride.saveNow();
    const back = await this.store.bringBack(this.ride.id, of.revision);
    if (!back.ok) {
      this.problems = back.problems;
      return false;
    }
    this.ride.follow(back.value, words);
    this.looked = undefined;
    await this.read();
    return true;
  }
}
