// What the page may ask of the phone it runs in; tests of the parts give their own. Nothing here throws: what a phone does not
// have, or its owner does not allow, is said by the answer.
import type { Settings } from "./day.svelte";
import type { Photo } from "../keep/event_store";

export interface Phone {
  keepSettings(settings: Settings): Promise<void>;
  nameDevice(owner: string): string; // kept; stands in the log from now on
  photo(name: string): Promise<Blob | undefined>;
  save(name: string, content: Blob): void; // as a file
  canShare: boolean;
  share(name: string, content: Blob): Promise<boolean>;
  copy(text: string): Promise<boolean>;
  makePhoto(file: File, name: string): Photo;

  readyToSound(): void; // within a tap
  tryAlarm(): void;
  allowNotifications(): Promise<boolean>;
  mayNotify(): boolean;

  isPersistent(): Promise<boolean>;
  askPersistent(): Promise<boolean>;
  canStayAwake: boolean;
  stayAwake(wanted: boolean): Promise<boolean>;
  // Positions while `heard` is wanted; false: not allowed, or there are none.
  followSpeed(wanted: boolean): Promise<boolean>;
  position(): Promise<{ lat: number; lon: number } | undefined>;
  isOffline(): boolean; // the folder is kept as a whole
  lookForNewPlan(): void;
  reload(): void;
}
