// Every word of the page, in English. A view has a file of its own in en/, so that its words are found beside each other.
import { day } from "./en/day";
import { details, times } from "./en/details";
import { choices, edited, fields, fieldTexts } from "./en/fields";
import { heat } from "./en/heat";
import { jobs } from "./en/jobs";
import { kit, picture } from "./en/kit";
import { map } from "./en/map";
import { kept, people } from "./en/people";
import { paper } from "./en/paper";
import { points } from "./en/points";
import { rides } from "./en/rides";
import { shell } from "./en/shell";
import { files, start } from "./en/start";
import { conflict, groups, states } from "./en/states";

export const en = {
  ...shell,
  fields,
  fieldTexts,
  choices,
  edited,
  rides,
  start,
  files,
  details,
  times,
  people,
  kept,
  states,
  conflict,
  groups,
  day,
  points,
  map,
  kit,
  picture,
  jobs,
  heat,
  paper,
};
