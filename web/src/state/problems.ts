// Which of the engine's problems belongs beside which field.
import type { Problem } from "../engine/calls";
import { isWithin } from "./path";

// The problem of the field itself. A problem of something inside it is said beside that.
export const problemAt = (problems: Problem[], path: string): Problem | undefined =>
  problems.find((problem) => problem.where === path);

export const problemsWithin = (problems: Problem[], path: string): Problem[] =>
  problems.filter((problem) => isWithin(problem.where, path));

// Problems that no field of the ride has: those of a file, of the course. That the server is away is said once, with saving.
export const problemsElsewhere = (problems: Problem[], isField: (path: string) => boolean): Problem[] =>
  problems.filter(({ where, kind }) => kind !== "away" && !isField(where));
