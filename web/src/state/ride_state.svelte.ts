// One ride while it is open: the document, what is typed and not a value yet, undo, saving, and the engine's answers about it.
// Views read it and call edit(); they hold nothing of their own that a reload may lose.
import type { RideDocument } from "../engine/answers/ride";
import type { Choices, EngineCalls, Outcome, PlanChanges, Problem } from "../engine/calls";
import { formatsFor, type Formats } from "../format/formats";
import type { Drafts, MapState, RideFile, RideThere, StoredRide } from "../storage/ride_store";
import type { Unsent } from "../storage/unsent";
import { draftOfAnswers } from "./first_answers";
import { Following } from "./answers.svelte";
import { isSame } from "./differences";
import { valueAt, withoutItem, withValueAt } from "./path";
import type { Preferences } from "./preferences.svelte";
import { problemAt, problemsWithin } from "./problems";
import { Saver, type SaveState } from "./saver";
import type { Services } from "./services";
import { noSteps, redone, undone, withStep, type Steps, type Written } from "./steps";
import { TaskWatch } from "./tasks.svelte";

// The calls that follow the ride, one by view that shows it.
export type FollowingCall = "planRide" | "checkRide" | "heatOfRide" | "kitOfRide" | "loadOfRide" | "jobsOfRide";

export class RideState {
  readonly id: string;
  document = $state.raw<RideDocument>()!;
  drafts = $state.raw<Drafts>({});
  revision = $state(0);
  files = $state.raw<RideFile[]>([]);
  map = $state.raw<MapState>({ state: "none" });
  choices = $state.raw<Choices>(); // catalogues to choose from; missing while they are on their way
  save = $state.raw<SaveState>({ kind: "saved", problems: [], isKeptHere: true });
  steps = $state.raw<Steps>(noSteps);
  // The pass or meet that is looked at, by its label: the same in the map, the chart and the lists.
  selected = $state<string>();

  readonly answers: { [K in FollowingCall]: Following<K> };
  readonly tasks: TaskWatch;

  plan = $derived.by(() => this.answers.planRide.value?.plan);
  drawing = $derived.by(() => this.answers.planRide.value?.drawing);
  changes: PlanChanges | undefined = $derived.by(() => this.answers.planRide.value?.changes);
  isPlanning = $derived.by(() => this.answers.planRide.isWorking);
  problems: Problem[] = $derived.by(() => this.answers.planRide.problems);
  formats: Formats = $derived.by(() =>
    formatsFor({
      locale: this.preferences.locale,
      units: this.preferences.units,
      zone: this.drawing?.time_zone_offsets ?? this.document.time_zone ?? "UTC",
    }),
  );
  name = $derived.by(() => this.document.name ?? "");
  hasCourse = $derived.by(() => (this.document.files?.course ?? []).length > 0);
  // Whether there is enough for a plan to be asked for.
  isBegun = $derived.by(() => this.hasCourse && Boolean(this.document.start));
  // Fields whose text is no value yet.
  unread: string[] = $derived.by(() => Object.keys(this.drafts).filter((path) => path !== draftOfAnswers));
  canUndo = $derived.by(() => this.steps.done.at(-1)?.words);
  canRedo = $derived.by(() => this.steps.undone.at(-1)?.words);

  #saver: Saver;
  #wanted = $state.raw<FollowingCall[]>(["planRide"]);
  #before: RideDocument | undefined;
  #stopHearing: () => void;

  constructor(
    stored: StoredRide,
    private readonly services: Services,
    private readonly preferences: Preferences,
    left?: Unsent,
  ) {
    this.id = stored.id;
    this.document = stored.ride;
    this.drafts = stored.drafts ?? {};
    this.revision = stored.revision;
    this.files = stored.files ?? [];
    this.answers = {
      planRide: this.#following("planRide"),
      checkRide: this.#following("checkRide"),
      heatOfRide: this.#following("heatOfRide"),
      kitOfRide: this.#following("kitOfRide"),
      loadOfRide: this.#following("loadOfRide"),
      jobsOfRide: this.#following("jobsOfRide"),
    };
    this.tasks = new TaskWatch(this.id, services.store, () => void this.#taskDone());
    this.#saver = new Saver(
      this.id,
      { revision: stored.revision, ride: stored.ride, drafts: this.drafts },
      services.store,
      services.unsent,
      (state) => (this.save = state),
      (revision) => {
        this.revision = revision;
        services.tellTabs(this.id, revision);
        this.#askAgain();
      },
    );
    this.#stopHearing = services.hearTabs((id, revision) => void this.#heard(id, revision));
    if (left) this.#takeUp(left, stored);
  }

  static async open(id: string, services: Services, preferences: Preferences): Promise<Outcome<RideState>> {
    const stored = await services.store.ride(id);
    if (!stored.ok) return stored;
    const state = new RideState(stored.value, services, preferences, await services.unsent.takeLeft(id));
    void state.readMap();
    void state.readChoices();
    void state.tasks.find();
    state.ask();
    return { ok: true, value: state };
  }

  // Sets a field of the ride, named as the engine names it ("loops[0].speed_kmh"); undefined takes it away, so that the
  // default holds. `words` say what was done, for undo and the list of earlier states: "Speed of Red loop".
  edit(path: string, value: unknown, words: string): void {
    const { [path]: _, ...drafts } = this.drafts;
    if (isSame(valueAt(this.document, path), value) && !(path in this.drafts)) return;
    this.#write({ document: withValueAt(this.document, path, value), drafts }, path, words);
  }

  // Several fields in one step.
  editAll(values: Record<string, unknown>, words: string): void {
    let document = this.document;
    const drafts = { ...this.drafts };
    for (const [path, value] of Object.entries(values)) {
      document = withValueAt(document, path, value);
      delete drafts[path];
    }
    if (!isSame(document, this.document)) this.#write({ document, drafts }, Object.keys(values).join(" "), words);
  }

  // What is typed in a field and is not a value yet. The document keeps the last value.
  draft(path: string, text: string, words: string): void {
    if (this.drafts[path] === text) return;
    this.#write({ document: this.document, drafts: { ...this.drafts, [path]: text } }, path, words, false);
  }

  // The whole ride anew, as one step.
  replace(document: RideDocument, words: string): void {
    const { [draftOfAnswers]: answers } = this.drafts;
    this.#write({ document, drafts: answers === undefined ? {} : { [draftOfAnswers]: answers } }, "", words);
  }

  addItem(list: string, item: unknown, words: string): void {
    const items = (valueAt(this.document, list) as unknown[] | undefined) ?? [];
    this.#write({ document: withValueAt(this.document, list, [...items, item]), drafts: this.drafts }, `${list}+`, words);
  }

  removeItem(list: string, index: number, words: string): void {
    const drafts = withoutItem(this.drafts, list, index);
    this.#write({ document: withValueAt(this.document, `${list}[${index}]`, undefined), drafts }, `${list}-`, words);
  }

  undo(): void {
    this.#go(undone(this.steps, this.#written()));
  }
  redo(): void {
    this.#go(redone(this.steps, this.#written()));
  }

  fieldProblem(path: string): Problem | undefined {
    return problemAt(this.problems, path);
  }
  problemsIn(path: string): Problem[] {
    return problemsWithin(this.problems, path);
  }

  // An answer about this ride or, with nothing saved, about another document of it: to compare with, to try out.
  askOnce<K extends FollowingCall | "draftRide" | "sheetOfRide">(
    name: K,
    more: Partial<Omit<EngineCalls[K]["request"], "ride_id">> = {},
    signal?: AbortSignal,
  ): Promise<Outcome<EngineCalls[K]["reply"]>> {
    const request = { ride_id: this.id, ride: this.document, ...more } as unknown as EngineCalls[K]["request"];
    return this.services.call(name, request, signal);
  }

  // The answers that the view on show needs; they follow the ride from now on. The plan always does.
  show(calls: FollowingCall[]): void {
    this.#wanted = ["planRide", ...calls.filter((name) => name !== "planRide")];
    this.ask(this.#wanted.filter((name) => name !== "planRide"));
  }

  ask(calls: FollowingCall[] = this.#wanted): void {
    for (const name of calls) {
      // A ride of which nothing can be known yet is not asked about: the first run leads there.
      if (!this.hasCourse || (name !== "checkRide" && !this.document.start)) {
        this.answers[name].clear();
        continue;
      }
      const before = name === "planRide" && this.#before ? { before: this.#before } : {};
      const ride = name === "checkRide" ? withStart(this.document) : this.document;
      this.answers[name].want({ ride_id: this.id, ride, ...before } as never);
    }
  }

  // Settles a conflict with this text on top of what is stored.
  settle(there: RideThere, document: RideDocument, drafts: Drafts, words: string): void {
    this.steps = withStep(this.steps, { words, path: "", before: this.#written(), at: this.services.now() });
    this.document = document;
    this.drafts = drafts;
    this.revision = there.revision;
    this.#saver.settle(there, document, drafts, words);
    this.ask();
  }

  // Takes an earlier state as the present one, as a step that can be undone.
  follow(there: RideThere, words: string): void {
    this.steps = withStep(this.steps, { words, path: "", before: this.#written(), at: this.services.now() });
    this.#before = this.document;
    this.#take(there);
  }

  get acknowledged(): RideDocument {
    return this.#saver.acknowledged.ride;
  }
  get hasUnsaved(): boolean {
    return this.#saver.hasUnsaved;
  }
  saveNow(): Promise<void> {
    return this.#saver.flush();
  }

  async readFiles(): Promise<void> {
    const stored = await this.services.store.ride(this.id);
    if (stored.ok) this.files = stored.value.files;
  }
  async textOfFile(name: string): Promise<Outcome<string>> {
    const bytes = await this.services.store.readFile(this.id, name);
    return bytes.ok ? { ok: true, value: await bytes.value.text() } : bytes;
  }
  async readMap(): Promise<void> {
    const map = await this.services.store.map(this.id);
    if (map.ok) this.map = map.value;
    if (this.map.state !== "waiting") return;
    // The map of a ride that came with its files (a bundle, the demo) has not been asked for yet; one that failed or was cancelled
    // is asked for by whoever uses the page.
    await this.tasks.find();
    if (!this.tasks.tasks.some(({ kind }) => kind === "import_map")) await this.tasks.start("import_map");
  }

  async readChoices(): Promise<void> {
    const choices = await this.services.call("choices", {});
    // A catalogue that the server does not have leaves its field free to type in.
    if (choices.ok) this.choices = { ...noChoices, ...choices.value };
  }

  close(): void {
    void this.#saver.flush();
    this.#saver.close();
    this.tasks.close();
    this.#stopHearing();
    for (const answer of Object.values(this.answers)) answer.stop();
  }

  #following<K extends FollowingCall>(name: K): Following<K> {
    return new Following<K>((request, signal) => this.services.call(name, request, signal), this.services.now);
  }

  #written(): Written {
    return { document: this.document, drafts: this.drafts };
  }

  #write(written: Written, path: string, words: string, plans = true): void {
    this.steps = withStep(this.steps, { words, path, before: this.#written(), at: this.services.now() });
    this.#before = this.steps.done.at(-1)!.before.document;
    this.#put(written, words, plans);
  }

  #go(to: { steps: Steps; written: Written } | undefined): void {
    if (!to) return;
    this.#before = this.document;
    this.steps = to.steps;
    this.#put(to.written, this.canRedo ?? "", true);
  }

  #put(written: Written, words: string, plans: boolean): void {
    this.document = written.document;
    this.drafts = written.drafts;
    this.#saver.want(written.document, written.drafts, words);
    if (plans) this.ask();
  }

  #take(there: RideThere): void {
    this.document = there.ride;
    this.drafts = there.drafts ?? {};
    this.revision = there.revision;
    this.#saver.follow({ ...there, drafts: this.drafts });
    this.ask();
  }

  // Text that an earlier page could not send. Saved on top of what it was typed over; if the ride has moved on since, the
  // server answers with a conflict and a person decides.
  #takeUp(left: Unsent, stored: StoredRide): void {
    if (isSame(left.ride, stored.ride) && isSame(left.drafts, this.drafts)) return void this.services.unsent.drop(this.id);
    this.document = left.ride;
    this.drafts = left.drafts;
    this.#saver.follow({ revision: left.base_revision, ride: left.base, drafts: {} });
    this.#saver.want(left.ride, left.drafts, left.label);
  }

  // Another tab saved this ride. With nothing of our own unsaved the page follows it.
  async #heard(id: string, revision: number): Promise<void> {
    if (id !== this.id || revision <= this.revision || this.#saver.hasUnsaved) return;
    const stored = await this.services.store.ride(id);
    if (!stored.ok || this.#saver.hasUnsaved) return;
    this.#before = this.document;
    this.files = stored.value.files;
    this.#take(stored.value);
  }

  // The server answers again: what it could not be asked meanwhile is asked now.
  #askAgain(): void {
    const missed = Object.values(this.answers).some(({ problems }) => problems.some(({ kind }) => kind === "away" || kind === "slow"));
    if (missed) this.ask();
  }

  async #taskDone(): Promise<void> {
    await Promise.all([this.readFiles(), this.readMap()]);
    this.ask();
  }
}

const noChoices: Choices = {
  rule_books: [],
  skills: [],
  time_zones: Intl.supportedValuesOf("timeZone"),
  countries: [],
};

// A course can be looked at before anyone has said when the ride starts; only a whole ride file can be asked about.
const withStart = (document: RideDocument): RideDocument =>
  document.start ? document : { ...document, start: "2000-01-01T12:00" };
