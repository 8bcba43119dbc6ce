// A line through odds over time, as the path of a picture.
interface Odds {
  until: string;
  here: number;
  ready: number;
}
export interface Frame {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export function curve(points: readonly Odds[], which: "here" | "ready", frame: Frame): string {
  const times = points.map(({ until }) => Date.parse(until));
  const first = times[0] ?? 0;
  const span = Math.max(1, (times.at(-1) ?? 0) - first);
  return points
    .map((point, i) => {
      const x = frame.left + ((frame.right - frame.left) * (times[i]! - first)) / span;
      const y = frame.bottom - (frame.bottom - frame.top) * point[which];
      return `${i === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`;
    })
    .join("");
}
