// The words of the page, in the language of the reader. English is what there is now; another language is another object of
// the same type.
import { en } from "./en";

export type Strings = typeof en;
export const strings: Strings = en;
