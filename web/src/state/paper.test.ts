import { expect, it } from "vitest";
import type { Outcome, SheetAnswer, SheetName } from "../engine/calls";
import { fitsPaper, PaperDesk } from "./paper.svelte";
import type { RideState } from "./ride_state.svelte";

interface Asked {
  sheet: SheetName;
  paper: string;
  answer: (outcome: Outcome<SheetAnswer>) => void;
}

function desk(store: Partial<ConstructorParameters<typeof PaperDesk>[1]> = {}) {
  const asked: Asked[] = [];
  const ride = {
    id: "r1",
    document: { version: 1, name: "Hollin Dale" },
    askOnce: (_: string, { sheet, paper }: { sheet: SheetName; paper: string }, signal: AbortSignal) =>
      new Promise((resolve) => {
        asked.push({ sheet, paper, answer: resolve });
        signal.addEventListener("abort", () => resolve({ ok: false, problems: [{ kind: "cancelled", where: "", what: "" }] }));
      }),
  } as unknown as RideState;
  return { asked, made: new PaperDesk(ride, store as ConstructorParameters<typeof PaperDesk>[1]) };
}
const answer = (sheet: SheetName, paper = "a4"): Outcome<SheetAnswer> => ({
  ok: true,
  value: { sheet, paper, title: sheet, width_mm: 210, height_mm: 297, pages: [], notes: [] } as SheetAnswer,
});
const turn = () => new Promise((done) => setTimeout(done));

it("asks for one sheet after another, in their order", async () => {
  const { asked, made } = desk();
  made.choose("rider-card", true);
  expect(made.wanted).toEqual(["crew-book", "rider-card"]);
  const setting = made.set(made.wanted, "a4", "plan 1");
  await turn();
  expect(asked.map(({ sheet }) => sheet)).toEqual(["crew-book"]);
  asked[0]!.answer(answer("crew-book"));
  await turn();
  expect(asked.map(({ sheet }) => sheet)).toEqual(["crew-book", "rider-card"]);
  asked[1]!.answer(answer("rider-card"));
  await setting;
  expect(made.sheets.map(({ answer: given }) => given?.title)).toEqual(["crew-book", "rider-card"]);
  expect(made.isWorking).toBe(false);
});

it("sets again what shows another plan, and nothing else", async () => {
  const { asked, made } = desk();
  const first = made.set(["crew-book"], "a4", "plan 1");
  await turn();
  asked[0]!.answer(answer("crew-book"));
  await first;
  const more = made.set(["crew-book", "rider-card"], "a4", "plan 1");
  await turn();
  expect(asked.map(({ sheet }) => sheet)).toEqual(["crew-book", "rider-card"]);
  asked[1]!.answer(answer("rider-card"));
  await more;
  void made.set(["rider-card"], "a4", "plan 2");
  await turn();
  expect(asked.map(({ sheet }) => sheet)).toEqual(["crew-book", "rider-card", "rider-card"]);
});

it("leaves what was on its way when other sheets or paper are wanted", async () => {
  const { asked, made } = desk();
  void made.set(["crew-book"], "a4", "plan 1");
  await turn();
  const second = made.set(["crew-book"], "a5", "plan 1");
  await turn();
  asked[1]!.answer(answer("crew-book", "a5"));
  await second;
  expect(made.sheets.map(({ answer: given }) => given?.paper)).toEqual(["a5"]);
});

it("wants no sheet that the paper has no room for, and has it again on larger paper", () => {
  const { made } = desk();
  made.choose("rider-card", true);
  made.paper = "pocket";
  expect(made.wanted).toEqual(["rider-card"]);
  made.paper = "a5";
  expect(made.wanted).toEqual(["crew-book", "rider-card"]);
  expect(fitsPaper("spotter", "pocket")).toBe(false);
});

it("hands over the PDF of the ride as it is on the page, or says why not", async () => {
  const given: unknown[] = [];
  const pdf = new Blob(["%PDF-"]);
  const { made } = desk({
    sheet: (id, sheet, paper, ride) => {
      given.push(id, sheet, paper, ride.name);
      return Promise.resolve(given.length === 4 ? { ok: true, value: pdf } : { ok: false, problems: [{ kind: "away", where: "", what: "away" }] });
    },
  });
  const taken: string[] = [];
  await made.save("crew-book", (_, name) => taken.push(name));
  expect(given).toEqual(["r1", "crew-book", "a4", "Hollin Dale"]);
  expect(taken).toEqual(["crew-book.pdf"]);
  expect(made.saved).toBe("crew-book");
  await made.save("crew-book", (_, name) => taken.push(name));
  expect(taken.length).toBe(1);
  expect(made.problems[0]?.what).toBe("away");
});
