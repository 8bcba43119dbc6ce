// An entry of the log in a line, for the list and for what was noted last.
import type { Formats } from "../../format/formats";
import { dayPage as words } from "../../strings/en/day_page";
import type { DayEntry } from "../log/events";

export function entryWords(entry: DayEntry, formats: Formats): string {
  const parts: (string | undefined)[] = [words.kinds[entry.kind] ?? entry.kind];
  const quantity = entry.amount === undefined ? undefined : `${formats.number(entry.amount)}${entry.unit ? `\u00a0${words.note.units[entry.unit]}` : ""}`;
  if (entry.number) parts[0] = `${words.note.number} ${entry.number}`;
  parts.push(entry.horse, entry.car, entry.what, quantity, entry.place);
  if (entry.loop !== undefined) parts.push(entry.loop === 0 ? words.gate.start : words.gate.loop(entry.loop));
  if (entry.beats !== undefined) parts.push(`${formats.number(entry.beats, 0)} ${words.pulse.beats}`);
  if (entry.presented) parts.push(words.pulse.presented);
  if (entry.kind === "gate_outcome") parts.push(entry.accepted ? words.gate.accepted : words.gate.notAccepted);
  if (entry.not_yet) parts.push(words.word.notYet);
  if (entry.seen_at) parts.push(`${words.word.seen} ${formats.time(entry.seen_at)}`);
  if (entry.until) parts.push(`– ${formats.time(entry.until)}`);
  parts.push(entry.who, entry.text, entry.photo);
  return parts.filter((part) => part).join(", ");
}
