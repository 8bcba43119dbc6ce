// What the browser can do to be noticed: sound, vibration, a notification. Each where it is allowed; none may throw.
export interface Noise {
  unlock(): void; // within a tap: browsers start sound only then
  sound(): void;
  notify(title: string, text: string): void;
}

export function browserNoise(window: Window & typeof globalThis): Noise {
  let audio: AudioContext | undefined;
  const tone = (context: AudioContext, from: number, hertz: number) => {
    const oscillator = context.createOscillator();
    const gain = context.createGain();
    oscillator.frequency.value = hertz;
    oscillator.type = "square";
    gain.gain.setValueAtTime(0.0001, context.currentTime + from);
    gain.gain.exponentialRampToValueAtTime(0.5, context.currentTime + from + 0.02);
    gain.gain.exponentialRampToValueAtTime(0.0001, context.currentTime + from + 0.35);
    oscillator.connect(gain).connect(context.destination);
    oscillator.start(context.currentTime + from);
    oscillator.stop(context.currentTime + from + 0.4);
  };
  const quietly = (work: () => void) => {
    try {
      work();
    } catch {
      // the browser does not let us: the words on the screen are there all the same
    }
  };
  return {
    unlock: () =>
      quietly(() => {
        audio ??= new window.AudioContext();
        void audio.resume().catch(() => {});
      }),
    sound: () => {
      quietly(() => window.navigator.vibrate?.([400, 200, 400, 200, 400]));
      quietly(() => {
        if (!audio || audio.state !== "running") return;
        for (const [i, hertz] of [660, 880, 660, 880].entries()) tone(audio, i * 0.45, hertz);
      });
    },
    notify: (title, text) =>
      quietly(() => {
        if (!("Notification" in window) || Notification.permission !== "granted") return;
        const options = { body: text, tag: title };
        const shown = window.navigator.serviceWorker?.ready.then((it) => it.showNotification(title, options));
        if (!window.navigator.serviceWorker?.controller) new Notification(title, options);
        void shown?.catch(() => {});
      }),
  };
}
