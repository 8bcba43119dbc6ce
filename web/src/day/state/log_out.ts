// The log out of the phone, as a file that `outbye day` reads.
import type { Day } from "./day.svelte";
import type { Phone } from "./phone";

export function logFile(day: Day): { name: string; content: Blob } {
  const ride = day.page.ride.replace(/[^\p{L}\p{N}]+/gu, "-").toLowerCase();
  return { name: `${ride}-${day.log.device}.log`, content: new Blob([day.log.file()], { type: "text/plain" }) };
}
export function saveLog(day: Day, phone: Phone): void {
  const { name, content } = logFile(day);
  phone.save(name, content);
}
