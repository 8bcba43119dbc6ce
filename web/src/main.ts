// Starts the page: the one place that knows of fetch, the browser's stores and its clock.
import { mount } from "svelte";
import App from "./App.svelte";
import { serverCalls } from "./engine/server_calls";
import "./look/look.css";
import { Preferences } from "./state/preferences.svelte";
import type { Services } from "./state/services";
import { serverStore } from "./storage/server_store";
import { tabChannel } from "./storage/tab_channel";
import { unsentStore } from "./storage/unsent";
import { strings } from "./strings";

function kept(): Storage | undefined {
  try {
    return window.localStorage;
  } catch {
    return undefined; // a browser that is told to keep nothing
  }
}

const services: Services = {
  call: serverCalls(strings.problems),
  store: serverStore(strings.problems),
  unsent: unsentStore(crypto.randomUUID(), indexedDB, navigator.locks),
  now: () => performance.now(),
  ...tabChannel(),
};
const preferences = new Preferences(kept(), navigator.language, Intl.DateTimeFormat().resolvedOptions().timeZone);
mount(App, { target: document.getElementById("page")!, props: { services, preferences } });
