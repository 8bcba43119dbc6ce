// Undo and redo: what was there before each step, and the step in words. Typing in one field is one step until there is a pause.
import type { RideDocument } from "../engine/answers/ride";

export interface Written {
  document: RideDocument;
  drafts: Record<string, string>;
}
export interface Step {
  words: string;
  path: string;
  before: Written;
  at: number; // milliseconds of some clock, of the latest change in it
}
export interface Steps {
  done: Step[];
  undone: Step[]; // `before` holds what the step had made
}

export const noSteps: Steps = { done: [], undone: [] };
const pause_ms = 1500;
const mostKept = 200;

export function withStep(steps: Steps, step: Step): Steps {
  const last = steps.done.at(-1);
  if (last && steps.undone.length === 0 && last.path === step.path && last.words === step.words && step.at - last.at < pause_ms)
    return { done: [...steps.done.slice(0, -1), { ...last, at: step.at }], undone: [] };
  return { done: [...steps.done, step].slice(-mostKept), undone: [] };
}

export function undone(steps: Steps, now: Written): { steps: Steps; written: Written } | undefined {
  const step = steps.done.at(-1);
  if (!step) return undefined;
  return {
    steps: { done: steps.done.slice(0, -1), undone: [...steps.undone, { ...step, before: now }] },
    written: step.before,
  };
}

export function redone(steps: Steps, now: Written): { steps: Steps; written: Written } | undefined {
  const step = steps.undone.at(-1);
  if (!step) return undefined;
  return {
    // The step's time is made old, so that what is typed next is a step of its own.
    steps: { done: [...steps.done, { ...step, before: now, at: -Infinity }], undone: steps.undone.slice(0, -1) },
    written: step.before,
  };
}
