// Saves a ride as it is typed: to the browser at once, to the server a moment later. What the server has not acknowledged is
// kept and sent again; what another tab saved meanwhile is a conflict for a person to settle, never overwritten.
import type { RideDocument } from "../engine/answers/ride";
import type { Problem } from "../engine/calls";
import type { Drafts, RideStore, RideThere } from "../storage/ride_store";
import type { UnsentStore } from "../storage/unsent";

export interface SaveState {
  // "waiting" is typed a moment ago; "away" is tried again by itself; "refused" is not, before something is changed.
  kind: "saved" | "waiting" | "saving" | "away" | "refused" | "conflict";
  problems: Problem[];
  conflict?: RideThere;
  isKeptHere: boolean; // in the browser: false when that refused too, so closing the page would lose what is not saved
  at?: string; // when the server acknowledged it last
}

const pause_ms = 300;
const retries_ms = [1000, 2000, 4000, 8000, 15_000];
const mostLabels = 3;

export class Saver {
  #there: RideThere;
  #wanted: { ride: RideDocument; drafts: Drafts } | undefined;
  #labels: string[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  #sending: Promise<void> | undefined;
  #tries = 0;
  #state: SaveState = { kind: "saved", problems: [], isKeptHere: true };

  constructor(
    private readonly id: string,
    there: RideThere,
    private readonly store: Pick<RideStore, "save">,
    private readonly unsent: UnsentStore,
    private readonly tell: (state: SaveState) => void,
    private readonly saved: (revision: number) => void = () => {},
  ) {
    this.#there = there;
  }

  get acknowledged(): RideThere {
    return this.#there;
  }

  want(ride: RideDocument, drafts: Drafts, label: string): void {
    this.#wanted = { ride, drafts };
    if (this.#labels.at(-1) !== label) this.#labels.push(label);
    void this.#keep();
    if (this.#state.kind === "conflict") return;
    this.#tries = 0;
    this.#say({ kind: "waiting", problems: [] });
    this.#later(pause_ms);
  }

  // Now, without waiting for a pause: before the page is left, or when the server may be back.
  async flush(): Promise<void> {
    clearTimeout(this.#timer);
    if (this.#state.kind === "conflict") return;
    await (this.#sending ??= this.#send().finally(() => (this.#sending = undefined)));
  }

  // The conflict is settled with `ride` on top of what is there.
  settle(there: RideThere, ride: RideDocument, drafts: Drafts, label: string): void {
    this.#there = there;
    this.#state = { ...this.#state, kind: "waiting", conflict: undefined };
    this.want(ride, drafts, label);
  }

  // The ride was read again and this tab had nothing to save.
  follow(there: RideThere): void {
    this.#there = there;
  }

  get hasUnsaved(): boolean {
    return this.#wanted !== undefined;
  }

  close(): void {
    clearTimeout(this.#timer);
  }

  #say(state: Partial<SaveState>): void {
    this.#state = { ...this.#state, ...state };
    this.tell(this.#state);
  }

  #later(wait_ms: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.flush(), wait_ms);
  }

  async #keep(): Promise<void> {
    if (!this.#wanted) return;
    const { ride, drafts } = this.#wanted;
    const isKeptHere = await this.unsent.keep({
      ride_id: this.id,
      base_revision: this.#there.revision,
      base: this.#there.ride,
      ride,
      drafts,
      label: this.#label(),
    });
    // Acknowledged meanwhile: the entry is dropped again.
    if (!this.#wanted) await this.unsent.drop(this.id);
    if (isKeptHere !== this.#state.isKeptHere) this.#say({ isKeptHere });
  }

  #label(): string {
    return this.#labels.slice(-mostLabels).join("; ");
  }

  async #send(): Promise<void> {
    const wanted = this.#wanted;
    if (!wanted) return;
    this.#say({ kind: "saving", problems: [] });
    const result = await this.store.save(this.id, {
      base_revision: this.#there.revision,
      ...wanted,
      label: this.#label(),
    });
    if (result.ok) {
      this.#there = { revision: result.revision, ...wanted };
      this.#tries = 0;
      this.saved(result.revision);
      if (this.#wanted !== wanted) return this.#later(0);
      this.#wanted = undefined;
      this.#labels = [];
      this.#say({ kind: "saved", problems: [], at: result.changed_at });
      await this.unsent.drop(this.id);
    } else if ("conflict" in result) {
      this.#say({ kind: "conflict", conflict: result.conflict });
    } else if (result.problems.some(({ kind }) => kind === "away" || kind === "slow" || kind === "internal")) {
      this.#say({ kind: "away", problems: result.problems });
      this.#later(retries_ms[Math.min(this.#tries++, retries_ms.length - 1)]!);
    } else {
      // A full disk may have room again; anything else will not do by itself, but trying costs little.
      this.#say({ kind: "refused", problems: result.problems });
      this.#later(retries_ms.at(-1)!);
    }
  }
}
