// The few figures of a plan that a person wants to see first.
import type { PlanAnswer } from "../engine/answers/plan";

const likelyFrom = 0.8; // the engine's own border of "likely"

export interface FirstFigures {
  meets: number;
  likely: number;
  length_km: number;
  finish: string | undefined;
  cars: { name: string; driven_km: number }[];
}

export function firstFigures(plan: PlanAnswer): FirstFigures {
  const meets = plan.cars.flatMap(({ stops }) => stops).filter(({ kind }) => kind === "meet");
  return {
    meets: meets.length,
    likely: meets.filter(({ chance_ready }) => (chance_ready ?? 0) >= likelyFrom).length,
    length_km: plan.course.length_km,
    finish: plan.passes.findLast(({ kind }) => kind === "finish")?.due.p50,
    cars: plan.cars.map(({ name, driven_km }) => ({ name, driven_km })),
  };
}
