// Where the numbers of the plan come from, in sentences.
import type { PlanAnswer, Stop } from "../../engine/answers/plan";
import { minutes, type Formats } from "../../format/formats";
import { strings } from "../../strings";

const words = strings.day.why;

export const valueTexts = (plan: PlanAnswer, formats: Formats): string[] => [
  words.valueText(formats.number(plan.ride.simulated_days, 0), formats.number(plan.value.standard_error_points, 2)),
  plan.value.what_is_exact,
  words.seed(String(plan.ride.seed)),
];

export const boundTexts = (plan: PlanAnswer, formats: Formats): string[] => [
  words.boundText(formats.number(plan.value.upper_bound_points, 1), formats.number(plan.value.gap_points, 1)),
];

export const windowTexts = (plan: PlanAnswer, formats: Formats): string[] => [words.windowText(formats.number(plan.ride.simulated_days, 0))];

export function stopTexts(plan: PlanAnswer, stop: Stop, formats: Formats): string[] {
  const texts: string[] = [];
  if (stop.chance_ready !== undefined && stop.chance_there !== undefined) {
    texts.push(words.oddsText(formats.number(plan.ride.simulated_days, 0), formats.percent(stop.chance_ready), formats.percent(stop.chance_there)));
    texts.push(...windowTexts(plan, formats));
  }
  if (stop.worth_points !== undefined) texts.push(words.pointWorth(formats.number(stop.worth_points, 2)));
  if (stop.drive.planned_min > 0) {
    texts.push(words.driveText(formats.duration(minutes(stop.drive.at_limits_min)), formats.duration(minutes(stop.drive.planned_min))));
  }
  texts.push(words.leaveByText(formats.percent(plan.ride.confidence)));
  return texts;
}
