// Sheets of paper.
import { plurals } from "../plural";

const count = plurals("en");

export const paper = {
  lead: "What hangs on the dashboard and the boot lid when every battery is flat. Look through it, then print it or save it as PDF.",
  sheetsTitle: "Sheets",
  sheets: {
    "crew-book": { name: "Crew book", what: "The day at a glance, a page a stop, gates with clock tables, telephone and emergency page, cautions." },
    "rider-card": { name: "Rider card", what: "Crew points by kilometre with times, climbs, food and drink." },
    "kit-list": { name: "Kit list", what: "Everything to take, with boxes to tick, and the shopping list." },
    "boot-plan": { name: "Boot plan", what: "How the boot is loaded, step by step." },
    spotter: { name: "Spotter's sheet", what: "To write down numbers, and to work out by hand when the horse is due." },
  },
  sizeTitle: "Paper",
  sizes: {
    a4: "A4",
    letter: "Letter",
    a5: "A5",
    pocket: "Pocket cards, 74 × 105 mm",
  },
  noRoom: "No room on a pocket card.",
  making: "Setting the pages …",
  print: "Print",
  printOne: (sheet: string) => `Print ${sheet}`,
  save: (sheet: string) => `Save ${sheet} as PDF`,
  saved: (sheet: string) => `${sheet} is saved.`,
  pages: (n: number) => count(n, { one: "# page", other: "# pages" }),
  inAll: (pages: string) => `${pages} in all`,
  page: (sheet: string, n: number, of: number) => `${sheet}, page ${n} of ${of}`,
  about: (page: string, headings: string) => `${page}: ${headings}`,
  goOn: "goes on",
  listTitle: "What is on each page",
  previewTitle: "Pages as they will be printed",
  none: "Choose a sheet.",
  left: "Left out of it:",
  hint: "Telephone numbers and the nearest hospital are typed in under Ride details and People and cars.",
  printHint: "Print at full size (100 %), so that small print stays readable.",
};
