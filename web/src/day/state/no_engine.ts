// For a browser in which the engine cannot run: every answer says so. The log is kept all the same, and the plan as it was
// packed is shown.
import type { Problem } from "../../engine/calls";
import type { DayEngine } from "../engine/day_calls";

export function noEngine(what: string): DayEngine {
  const problems: Problem[] = [{ kind: "away", where: "engine", what }];
  const refuse = () => Promise.resolve({ ok: false as const, problems });
  return { open: refuse, answer: refuse, rest: refuse, close: () => {} };
}
