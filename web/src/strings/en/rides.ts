// The list of rides.
import { plurals } from "../plural";

const count = plurals("en");

export const rides = {
  make: "New ride",
  import: "Import a ride: ride.json, or a bundle (.zip)",
  importHint: "Drop a ride file or a bundle here.",
  starts: (when: string) => when,
  noStart: "No start yet",
  changed: (when: string) => `Changed ${when}`,
  open: (name: string) => `Open ${name}`,
  copy: "Copy",
  rename: "Rename",
  export: "Export",
  remove: "Remove",
  of: (action: string, name: string) => `${action}: ${name}`,
  copyName: (name: string) => `${name} (copy)`,
  newName: "New name",
  save: "Save",
  cancel: "Cancel",
  renamedLabel: "Name of the ride",
  removed: (n: number) => count(n, { one: "# removed ride", other: "# removed rides" }),
  restore: "Have it back",
  done: {
    copied: (name: string) => `Copied: ${name}.`,
    removed: (name: string) => `Removed: ${name}. You can have it back below.`,
    restored: (name: string) => `Back in the list: ${name}.`,
    renamed: (name: string) => `Now called ${name}.`,
    imported: (name: string) => `Imported: ${name}.`,
  },
  missing: (names: string) => `The ride names files that did not come with it: ${names}. Add them in Ride details.`,
  openImported: "Open it",
  reading: "Reading the rides …",
  tryAgain: "Try again",
  emptyTitle: "Be at the crew point before the horse is",
  emptyLead:
    "Outbye works out where your crew can meet the horse, when to be there, and when to leave again, from your course and your map. Everything stays on this computer.",
  steps: [
    { title: "Drop the course", words: "The GPX of the ride and, if you have one, a map extract of the area." },
    { title: "Answer five questions", words: "Start, speed, people, cars and horse. The rest is assumed, and you can change it." },
    { title: "See the day", words: "Who is where when, how sure each meet is, and what would make it better." },
  ],
  first: "Make the first ride",
  demo: "Look at the demo ride",
};
