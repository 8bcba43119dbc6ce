// The sheets that are looked at: which, on what paper, and their pages. They follow the ride: set anew when its plan is.
import { sheetNames, type PaperName, type Problem, type SheetAnswer, type SheetName } from "../engine/calls";
import type { RideStore } from "../storage/ride_store";
import type { RideState } from "./ride_state.svelte";

export interface SetSheet {
  sheet: SheetName;
  answer?: SheetAnswer;
  of?: unknown; // the plan that the answer shows
  problems: Problem[];
}

// Crew book, boot plan and spotter's sheet need room to draw and to write.
export const fitsPaper = (sheet: SheetName, paper: PaperName): boolean =>
  paper !== "pocket" || sheet === "rider-card" || sheet === "kit-list";

export class PaperDesk {
  paper = $state<PaperName>("a4");
  chosen = $state.raw<SheetName[]>(["crew-book"]);
  sheets = $state.raw<SetSheet[]>([]);
  isWorking = $state(false);
  problems = $state.raw<Problem[]>([]); // of saving a PDF
  saved = $state<SheetName>();

  wanted = $derived.by(() => sheetNames.filter((sheet) => this.chosen.includes(sheet) && fitsPaper(sheet, this.paper)));

  #out: AbortController | undefined;

  constructor(
    private readonly ride: RideState,
    private readonly store: Pick<RideStore, "sheet">,
  ) {}

  choose(sheet: SheetName, isChosen: boolean): void {
    this.chosen = isChosen ? [...this.chosen, sheet] : this.chosen.filter((other) => other !== sheet);
  }

  // One sheet after another: the first is there to look at while the next is set. Pages set before stay until then, and those
  // of this plan on this paper are not set again.
  async set(wanted: SheetName[], paper: PaperName, of: unknown): Promise<void> {
    this.#out?.abort();
    const { signal } = (this.#out = new AbortController());
    this.sheets = wanted.map((sheet) => this.sheets.find((one) => one.sheet === sheet && one.answer?.paper === paper) ?? { sheet, problems: [] });
    this.isWorking = wanted.length > 0;
    for (const sheet of wanted) {
      const before = this.sheets.find((one) => one.sheet === sheet);
      if (before?.answer && before.of === of) continue;
      const outcome = await this.ride.askOnce("sheetOfRide", { sheet, paper }, signal);
      if (signal.aborted) return;
      const now: SetSheet = outcome.ok ? { sheet, answer: outcome.value, of, problems: [] } : { sheet, problems: outcome.problems };
      this.sheets = this.sheets.map((one) => (one.sheet === sheet ? now : one));
    }
    this.isWorking = false;
  }

  // The PDF of the ride as it stands on the page; `take` hands it to the browser.
  async save(sheet: SheetName, take: (pdf: Blob, name: string) => void): Promise<void> {
    const pdf = await this.store.sheet(this.ride.id, sheet, this.paper, this.ride.document);
    this.problems = pdf.ok ? [] : pdf.problems;
    this.saved = pdf.ok ? sheet : undefined;
    if (pdf.ok) take(pdf.value, `${sheet}.pdf`);
  }

  close(): void {
    this.#out?.abort();
  }
}
