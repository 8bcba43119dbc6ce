// What an alarm says, in the engine's words.
import { dayPage as words } from "../../strings/en/day_page";
import type { Alarm } from "../alarms/alarms";

export const alarmWords = (alarm: Alarm): string => (alarm.kind === "leave soon" ? words.now.soon(alarm.words) : alarm.words);
