// Room for labels along one axis.

// Places in order and at least `pitch` apart, as near as can be to those wanted (ascending), and within [low, high] if they fit at
// all: pools of neighbours are moved together to their mean, as in isotonic regression.
export function spreadOut(wanted: number[], pitch: number, low: number, high: number): number[] {
  interface Pool {
    first: number;
    count: number;
    sum: number; // of wanted - index * pitch
  }
  const pools: Pool[] = [];
  const mean = (pool: Pool): number => pool.sum / pool.count;
  wanted.forEach((place, index) => {
    let pool: Pool = { first: index, count: 1, sum: place - index * pitch };
    for (let last = pools.at(-1); last && mean(last) >= mean(pool); last = pools.at(-1)) {
      pools.pop();
      pool = { first: last.first, count: last.count + pool.count, sum: last.sum + pool.sum };
    }
    pools.push(pool);
  });
  const most = high - (wanted.length - 1) * pitch;
  return pools.flatMap((pool) =>
    Array.from({ length: pool.count }, (_, i) => Math.max(low, Math.min(mean(pool), most)) + (pool.first + i) * pitch),
  );
}

// Of labels in order of importance, those that do not come within `pitch` of one already taken. Indices, ascending.
export function roomFor(places: number[], pitch: number, importance: number[]): number[] {
  const order = places.map((_, index) => index).sort((a, b) => importance[b]! - importance[a]! || a - b);
  const taken: number[] = [];
  for (const index of order) {
    if (taken.every((other) => Math.abs(places[other]! - places[index]!) >= pitch)) taken.push(index);
  }
  return taken.sort((a, b) => a - b);
}

// The middle is cut, as names often differ in their last word.
export function shortened(text: string, most: number): string {
  const letters = [...text];
  if (letters.length <= most) return text;
  const head = Math.ceil((most - 1) / 2);
  return `${letters.slice(0, head).join("").trimEnd()}…${letters.slice(letters.length - (most - 1 - head)).join("").trimStart()}`;
}
