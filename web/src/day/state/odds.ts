// Odds in words, as the engine says them in its sentences (engine/day_words.cpp), for what is drawn beside them.
export function oddsInWords(chance: number): string {
  if (chance < 0.005) return "less than 1 in 100";
  if (chance > 0.995) return "more than 99 in 100";
  if (chance < 0.095 || chance > 0.905) return `${Math.round(100 * chance)} in 100`;
  return `${Math.round(10 * chance)} in 10`;
}
// How many of ten dots are filled: never all of what may fail, nor none of what may happen.
export function dotsOfTen(chance: number): number {
  return chance <= 0.005 ? 0 : chance >= 0.995 ? 10 : Math.min(9, Math.max(1, Math.round(10 * chance)));
}
