// Starts the page of the day: the one place that knows of the browser's clock, stores and network.
import { mount } from "svelte";
import { dayPage as words } from "../strings/en/day_page";
import "../look/look.css";
import "./look/day.css";
import DayPage from "./DayPage.svelte";
import { dayEngine, partsOf } from "./engine/day_engine";
import { single_file_ids } from "./engine/page_data";
import { browserPhone } from "./keep/browser_phone";
import { openEventStore, type EventStore } from "./keep/event_store";
import { deviceName } from "./log/events";
import { fetchText, loadPacked } from "./packed";
import { alarmWords } from "./state/alarm_words";
import { Day, firstSettings, type Settings } from "./state/day.svelte";
import { DayLog } from "./state/day_log.svelte";

async function deviceOf(store: EventStore | undefined): Promise<string> {
  const kept = await store?.setting<string>("device").catch(() => undefined);
  if (kept) return kept;
  const made = deviceName("phone", () => crypto.getRandomValues(new Uint32Array(1))[0]! / 2 ** 32);
  await store?.set("device", made).catch(() => {});
  return made;
}

async function start(): Promise<void> {
  const target = document.getElementById("page")!;
  const { page, ride, isSingleFile } = await loadPacked(document, fetchText);
  const store = await openEventStore(page.key).catch(() => undefined);
  const settings = await store?.setting<Settings>("settings").catch(() => undefined);

  const channel = "BroadcastChannel" in window ? new BroadcastChannel(`outbye-day-${page.key}`) : undefined;
  const log = new DayLog(page.ride, store, () => Date.now(), await deviceOf(store), () => channel?.postMessage("noted"));
  await log.load().catch(() => (log.storageProblem = "refused"));

  const day = new Day(page, log, dayEngine(partsOf(document, single_file_ids), words.engine));
  if (settings) day.settings = { ...firstSettings, ...settings };
  const phone = browserPhone(window, store, { speed: (mps, at) => day.speed(mps, at), newPlan: () => (day.hasNewPlan = true) }, isSingleFile);

  const tick = () => {
    for (const alarm of day.tick(Date.now())) phone.ring(alarmWords(alarm));
  };
  tick();
  setInterval(tick, 1000);
  channel?.addEventListener("message", () => void log.load().then(() => day.ask()));
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible") return;
    tick();
    void day.ask();
  });
  document.addEventListener("pointerdown", () => phone.readyToSound(), { once: true });

  mount(DayPage, { target, props: { day, phone } });
  performance.mark("outbye page"); // for whoever measures how long it took to open

  if (day.settings.locksBySpeed) void phone.followSpeed(true);
  if (day.settings.awake) void phone.stayAwake(true);
  void phone.askPersistent();
  phone.lookForNewPlan();
  await day.open(ride);
  performance.mark("outbye answer");
}

start().catch((error: unknown) => {
  const said = document.createElement("p");
  said.setAttribute("role", "alert");
  said.textContent = `${words.cannotOpen}: ${error instanceof Error ? error.message : String(error)}. ${words.cannotOpenHint}`;
  document.getElementById("page")!.append(said);
});
