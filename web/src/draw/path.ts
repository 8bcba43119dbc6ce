// Path texts of SVG, with a tenth of a pixel.
export interface Spot {
  x: number;
  y: number;
}

const digit = (value: number): string => String(Math.round(value * 10) / 10);
const pair = ({ x, y }: Spot): string => `${digit(x)} ${digit(y)}`;

export const linePath = (spots: Spot[]): string => (spots.length === 0 ? "" : `M${spots.map(pair).join("L")}`);
export const areaPath = (spots: Spot[]): string => (spots.length < 3 ? "" : `${linePath(spots)}Z`);
// Between two lines of the same direction.
export const bandPath = (one: Spot[], other: Spot[]): string => areaPath([...one, ...other.slice().reverse()]);
export const boxPath = (left: number, top: number, right: number, bottom: number): string =>
  areaPath([
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ]);
