// People and cars of a ride, and what is kept for other rides.
import { plurals } from "../plural";

const count = plurals("en");

export const people = {
  lead: "Who rides, who helps and what they drive. Keep them for other rides, or take those you kept.",
  horses: {
    title: "Horses and riders",
    add: "Add a horse",
    none: "No horse named: one is assumed.",
    blank: "Horse",
  },
  helpers: {
    title: "Helpers",
    add: "Add a helper",
    none: "No helpers named: two are assumed.",
    blank: "Helper",
  },
  cars: {
    title: "Cars",
    add: "Add a car",
    none: "No car named: one is assumed.",
    blank: "Car",
  },
  remove: (name: string) => `Remove ${name}`,
  keep: "Keep for other rides",
  keepAgain: "Keep as it is now",
  isKept: "Kept",
  keepRider: "Keep the rider too",
  take: (name: string) => `Take ${name} from what is kept`,
  takeKept: "From what is kept:",
  takeRider: (name: string) => `Rider from what is kept: ${name}`,
  tookStep: (name: string) => `Take ${name}`,
  said: {
    kept: (name: string) => `${name} is kept for other rides.`,
    forgotten: (name: string) => `${name} is no longer kept.`,
  },
  byLoop: "A speed of its own for each loop",
  speedIn: (loop: string) => `Speed in ${loop}`,
  speeds: "Speeds",
  body: "Weights and water",
  likes: {
    title: "What it likes to drink, by loop",
    hint: "Plain water is always offered. Give only what was tried at home, with water, never to a horse that does not drink.",
    add: "Add a liking",
    remove: (n: number) => `Remove liking ${n}`,
    none: "Nothing said: plain water.",
  },
  skills: "Can do",
  ownSkills: "Other skills, with commas between",
  skillsOf: (name: string) => `Skills, ${name}`,
  where: "Where and when",
  range: "Water, fuel and breaks",
  boot: {
    title: "Boot",
    hint: "What is measured wins over the shape. The kit is packed into it.",
    drawing: "A car's boot from the side: A is the length of the floor, C the height to the roof, D the height to the cover, E the lip above the ground. Seen from behind: B is the width between the side walls.",
    add: "Say what the boot is like",
    remove: "Forget the boot",
    more: "Wheel arches and roof box",
    shapes: ["small hatch", "estate", "estate, seats folded", "large 4x4"],
  },
  brief: {
    rider: (name: string) => `ridden by ${name}`,
    skills: (n: number) => count(n, { one: "# skill", other: "# skills" }),
    water: (volume: string) => `${volume} of water`,
  },
};

export const kept = {
  lead: "What you use from ride to ride. Add them in a ride under People and cars; there you also take them.",
  horse: "Horses",
  rider: "Riders",
  helper: "Helpers",
  car: "Cars",
  forgetOf: (name: string) => `Forget ${name}`,
  none: "Nothing is kept yet. In a ride, under People and cars, choose “Keep for other rides”.",
  reading: "Reading what is kept …",
};
