// Every word of the page, in English. A view has a file of its own in en/, so that its words are found beside each other.
import { day } from "./en/day";
import { heat } from "./en/heat";
import { jobs } from "./en/jobs";
import { kit } from "./en/kit";
import { map } from "./en/map";
import { points } from "./en/points";
import { choices, edited, fields, fieldTexts } from "./en/fields";
import { shell } from "./en/shell";

export const en = { ...shell, fields, fieldTexts, choices, edited, day, points, map, kit, jobs, heat };
