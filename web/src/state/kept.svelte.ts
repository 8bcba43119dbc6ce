// Horses, riders, helpers and cars kept from ride to ride. A ride has copies: what is changed in one is kept only when asked.
import type { Problem } from "../engine/calls";
import type { Keepsake, KeepsakeKind, RideStore } from "../storage/ride_store";
import { isSame } from "./differences";

export class Kept {
  all = $state.raw<Keepsake[]>();
  problems = $state.raw<Problem[]>([]);
  said = $state.raw<{ what: "kept" | "forgotten"; name: string }>();

  constructor(
    private readonly store: Pick<RideStore, "keepsakes" | "keep" | "forget">,
    private readonly newId: () => string = () => crypto.randomUUID(),
  ) {}

  of(kind: KeepsakeKind): Keepsake[] {
    return this.all?.filter((keepsake) => keepsake.kind === kind) ?? [];
  }

  named(kind: KeepsakeKind, name: string): Keepsake | undefined {
    return this.of(kind).find((keepsake) => keepsake.name.toLowerCase() === name.trim().toLowerCase());
  }

  // Whether this very thing is kept already, so that there is nothing to keep.
  has(kind: KeepsakeKind, name: string, data: Record<string, unknown>): boolean {
    return isSame(this.named(kind, name)?.data, data);
  }

  async read(): Promise<void> {
    const read = await this.store.keepsakes();
    if (read.ok) this.all = read.value;
    else this.problems = read.problems;
  }

  // Under its name: kept anew, or in place of what was kept.
  async keep(kind: KeepsakeKind, name: string, data: Record<string, unknown>): Promise<void> {
    this.problems = [];
    // What another window kept meanwhile is replaced too, because that is what was asked for.
    await this.read();
    const before = this.named(kind, name);
    const kept = await this.store.keep({ id: before?.id ?? this.newId(), kind, name: name.trim(), data }, before?.revision);
    if (!kept.ok) return void (this.problems = kept.problems);
    await this.read();
    this.said = { what: "kept", name };
  }

  async forget(keepsake: Keepsake): Promise<void> {
    this.problems = [];
    const forgotten = await this.store.forget(keepsake.id);
    if (!forgotten.ok) return void (this.problems = forgotten.problems);
    await this.read();
    this.said = { what: "forgotten", name: keepsake.name };
  }
}
