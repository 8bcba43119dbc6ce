// What a person wants the page to look like, kept in this browser.
export type Scheme = "system" | "light" | "dark";
export type Units = "metric" | "imperial";

const key = "outbye-preferences";

export class Preferences {
  locale = $state("en-GB");
  units = $state<Units>("metric");
  scheme = $state<Scheme>("system");

  constructor(
    private readonly storage: Pick<Storage, "getItem" | "setItem"> | undefined,
    locale: string,
    readonly zone: string, // of the reader, for when something was changed
  ) {
    // The words are English; numbers and times are written as English is written where the reader lives.
    this.locale = locale.startsWith("en") ? locale : "en-GB";
    try {
      const kept = JSON.parse(storage?.getItem(key) ?? "{}") as Partial<Preferences>;
      if (kept.units === "metric" || kept.units === "imperial") this.units = kept.units;
      if (kept.scheme === "light" || kept.scheme === "dark") this.scheme = kept.scheme;
    } catch {
      // Unreadable: as if nothing was kept.
    }
  }

  keep(): void {
    try {
      this.storage?.setItem(key, JSON.stringify({ units: this.units, scheme: this.scheme }));
    } catch {
      // A browser that keeps nothing: the choice holds until the page is left.
    }
  }
}
