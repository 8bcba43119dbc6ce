import { expect, test } from "vitest";
import type { RideDocument } from "../engine/answers/ride";
import { noSteps, redone, undone, withStep, type Written } from "./steps";

const written = (name: string): Written => ({ document: { version: 1, name } as RideDocument, drafts: {} });
const step = (name: string, at: number, path = "name") => ({ words: `to ${path}`, path, before: written(name), at });

test("undo gives back what was there before the step, and redo what the step made", () => {
  const steps = withStep(noSteps, step("a", 0));
  const back = undone(steps, written("b"))!;
  expect(back.written).toEqual(written("a"));
  expect(redone(back.steps, back.written)!.written).toEqual(written("b"));
});
test("typing in one field is one step until there is a pause", () => {
  const quick = withStep(withStep(noSteps, step("a", 0)), step("ab", 1000));
  expect(quick.done).toHaveLength(1);
  expect(quick.done[0]!.before).toEqual(written("a"));
  expect(withStep(quick, step("abc", 5000)).done).toHaveLength(2);
});
test("another field is another step at once", () => {
  expect(withStep(withStep(noSteps, step("a", 0)), step("a", 10, "start")).done).toHaveLength(2);
});
test("what is typed after undo is a new step, and what was undone is gone", () => {
  const back = undone(withStep(noSteps, step("a", 0)), written("b"))!;
  const next = withStep(back.steps, step("a", 20));
  expect(next.done).toHaveLength(1);
  expect(next.undone).toEqual([]);
});
test("a step that was redone is not joined by what is typed next", () => {
  const back = undone(withStep(noSteps, step("a", 0)), written("b"))!;
  const forth = redone(back.steps, back.written)!;
  expect(withStep(forth.steps, step("b", 10)).done).toHaveLength(2);
});
test("there is nothing to undo or redo at first", () => {
  expect(undone(noSteps, written("a"))).toBeUndefined();
  expect(redone(noSteps, written("a"))).toBeUndefined();
});
