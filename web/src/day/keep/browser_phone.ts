// What the browser of the phone can do, behind the short list that the page knows (state/phone.ts).
import { browserNoise } from "../alarms/sound";
import { deviceName } from "../log/events";
import type { Phone } from "../state/phone";
import type { EventStore } from "./event_store";

export interface PhoneHears {
  speed(mps: number | null, at: number): void;
  newPlan(): void;
}

async function orElse<T, E>(work: () => Promise<T>, otherwise: E): Promise<T | E> {
  try {
    return await work();
  } catch {
    return otherwise;
  }
}

export function browserPhone(window: Window & typeof globalThis, store: EventStore | undefined, hears: PhoneHears, isSingleFile: boolean): Phone & { ring(title: string): void } {
  const { navigator, document } = window;
  const noise = browserNoise(window);
  let awake: WakeLockSentinel | undefined;
  let wantsAwake = false;
  let following: number | undefined;
  const photos = new Map<string, Blob>(); // of notes that could not be kept

  const takeAwake = () =>
    orElse(async () => {
      awake = await navigator.wakeLock.request("screen");
      return true;
    }, false);
  // The browser lets go whenever the page is hidden.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible" && wantsAwake) void takeAwake();
  });

  if (!isSingleFile && "serviceWorker" in navigator && window.isSecureContext) {
    void orElse(() => navigator.serviceWorker.register("sw.js"), undefined);
    navigator.serviceWorker.addEventListener("message", (event) => {
      if (event.data === "a new plan is kept") hears.newPlan();
    });
  }
  const lookForNewPlan = () => navigator.serviceWorker?.controller?.postMessage("look for a new plan");

  return {
    keepSettings: async (settings) => void (await orElse(async () => store?.set("settings", { ...settings }), undefined)),
    nameDevice(owner) {
      const name = deviceName(owner, () => crypto.getRandomValues(new Uint32Array(1))[0]! / 2 ** 32);
      void orElse(async () => store?.set("device", name), undefined);
      return name;
    },
    photo: async (name) => (await orElse(async () => store?.photo(name), undefined)) ?? photos.get(name),
    save(name, content) {
      const address = URL.createObjectURL(content);
      const link = document.createElement("a");
      link.href = address;
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
    },
    canShare: typeof navigator.canShare === "function" && navigator.canShare({ files: [new File(["x"], "day.txt", { type: "text/plain" })] }),
    share: (name, content) =>
      orElse(async () => {
        await navigator.share({ files: [new File([content], `${name}.txt`, { type: "text/plain" })] });
        return true;
      }, false),
    copy: (text) =>
      orElse(async () => {
        await navigator.clipboard.writeText(text);
        return true;
      }, false),
    makePhoto(file, name) {
      photos.set(name, file);
      return { name, photo: file };
    },

    readyToSound: () => noise.unlock(),
    tryAlarm() {
      noise.unlock();
      noise.sound();
    },
    ring(title) {
      noise.sound();
      noise.notify(title, "");
    },
    allowNotifications: () => orElse(async () => (await window.Notification.requestPermission()) === "granted", false),
    mayNotify: () => "Notification" in window && window.Notification.permission === "granted",

    isPersistent: async () => (await orElse(() => navigator.storage.persisted(), false)) ?? false,
    askPersistent: async () => (await orElse(() => navigator.storage.persist(), false)) ?? false,
    canStayAwake: "wakeLock" in navigator,
    async stayAwake(wanted) {
      wantsAwake = wanted;
      if (wanted) return takeAwake();
      await orElse(async () => awake?.release(), undefined);
      awake = undefined;
      return true;
    },
    followSpeed(wanted) {
      if (following !== undefined) navigator.geolocation.clearWatch(following);
      following = undefined;
      if (!wanted || !("geolocation" in navigator)) return Promise.resolve(!wanted);
      return new Promise<boolean>((resolve) => {
        following = navigator.geolocation.watchPosition(
          ({ coords, timestamp }) => {
            hears.speed(coords.speed, timestamp);
            resolve(true);
          },
          () => resolve(false),
          { enableHighAccuracy: true, maximumAge: 2000 },
        );
      });
    },
    position: () =>
      new Promise((resolve) => {
        if (!("geolocation" in navigator)) return resolve(undefined);
        navigator.geolocation.getCurrentPosition(
          ({ coords }) => resolve({ lat: coords.latitude, lon: coords.longitude }),
          () => resolve(undefined),
          { enableHighAccuracy: true, timeout: 15_000 },
        );
      }),
    isOffline: () => isSingleFile || Boolean(navigator.serviceWorker?.controller),
    lookForNewPlan,
    reload: () => window.location.reload(),
  };
}
