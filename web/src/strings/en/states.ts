// Earlier states, and two texts of a ride that do not agree.
import { plurals } from "../plural";

const count = plurals("en");

export const states = {
  lead: "Each time you change something, the ride as it was is kept. Look at any of them, and bring one back; what is there now stays in this list.",
  reading: "Reading the earlier states …",
  now: "as it is now",
  unlabelled: "Changed",
  bringBack: "Bring this back",
  broughtBack: (when: string) => `Brought back, as of ${when}. Undo takes it back.`,
  step: (when: string) => `Bring back ${when}`,
  differs: (n: number) => count(n, { one: "# field differs from now", other: "# fields differ from now" }),
  same: "Nothing differs from now.",
  then: "Then",
  present: "Now",
  field: "Field",
  choose: "Choose a state to see what it had.",
};

export const conflict = {
  title: "Changed in two places",
  lead: "While you changed this ride here, it was saved in another window too. Choose what holds; nothing is saved before you do, and both are kept among the earlier states once they are saved.",
  mine: "Here",
  theirs: "In the other window",
  allMine: "Take all from here",
  allTheirs: "Take all from the other window",
  save: "Save what is chosen",
  step: "Settled two versions",
};

// What a part of the ride file is called where a list or a group changed as a whole.
export const groups: Record<string, string | undefined> = {
  loops: "Loops",
  crew_points: "Crew points",
  wishes: "Wishes",
  horses: "Horses",
  cars: "Cars",
  helpers: "Helpers",
  refills: "Taps and pumps",
  errands: "Errands",
  weather: "Weather",
  waters: "Water on the course",
  files: "Files",
  rules: "Rules",
  kit: "Kit",
  assumptions: "Assumptions",
  default_pace: "Pace",
  heat: "Heat",
  care: "Water and care",
  venue: "Venue",
  crewing: "Crew plan",
  spread: "Spread",
  course: "Reading of the course",
};
