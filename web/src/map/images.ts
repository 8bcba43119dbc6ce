// The small pictures of the map, drawn on a canvas when they are first asked for: nothing is fetched.
import type { MapColours } from "./colours";

export interface MapImage {
  data: ImageData;
  pixelRatio: number;
}
const ratio = 2;

type Draw = (to: CanvasRenderingContext2D, colours: MapColours) => void;

function drawn(size: number, colours: MapColours, draw: Draw): MapImage | undefined {
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = size * ratio;
  const to = canvas.getContext("2d");
  if (!to) return undefined;
  to.scale(ratio, ratio);
  to.lineJoin = to.lineCap = "round";
  draw(to, colours);
  return { data: to.getImageData(0, 0, canvas.width, canvas.height), pixelRatio: ratio };
}

// A round sign of 18 pixels with something in it.
const sign = (inside: Draw): Draw => (to, colours) => {
  to.fillStyle = colours.signGround;
  to.strokeStyle = colours.sign;
  to.lineWidth = 1.2;
  to.beginPath();
  to.arc(9, 9, 7.6, 0, 2 * Math.PI);
  to.fill();
  to.stroke();
  to.fillStyle = colours.sign;
  inside(to, colours);
};
const shape = (path: string): Draw => (to) => to.fill(new Path2D(path));
const stroke = (path: string): Draw => (to) => {
  to.lineWidth = 1.4;
  to.stroke(new Path2D(path));
};
const letter = (text: string): Draw => (to) => {
  to.font = "700 10.5px system-ui, sans-serif";
  to.textAlign = "center";
  to.textBaseline = "middle";
  to.fillText(text, 9, 9.6);
};

const drop = "M9 4.2c2 2.6 3.2 4.2 3.200 5.800a3.2 3.2 0 0 1-6.400 0C5.8 8.400 7 6.800 9 4.200z";
const signs: Record<string, Draw> = {
  peak: (to, colours) => {
    to.fillStyle = colours.sign;
    to.fill(new Path2D("M9 4l5 9H4z"));
  },
  parking: sign(letter("P")),
  water: sign(shape(drop)),
  trough: sign(stroke("M5.4 7.500v3.800h7.200V7.500M4.600 7.500h8.800")),
  fuel: sign(shape("M6 13V5.600h4.400V13zM11.200 7.200l1.800 1.600v3.200h-1V9.400l-.8-.6z")),
  ford: sign(stroke("M5 7.500q1-1.200 2 0t2 0 2 0 2 0M5 10.700q1-1.200 2 0t2 0 2 0 2 0")),
  "cattle grid": sign(stroke("M5.800 5.800v6.400M8 5.800v6.400M10.200 5.800v6.400M12.400 5.800v6.400")),
};

// An arrow head of 12 pixels that points along its line, in the colour of a loop, with an edge that parts it from the line.
const arrow = (colour: string): Draw => (to, colours) => {
  const head = new Path2D("M3 2l7 4-7 4 1.800-4z");
  to.strokeStyle = colours.casing;
  to.lineWidth = 2;
  to.stroke(head);
  to.fillStyle = colour;
  to.fill(head);
};

// A round plate of 19 pixels for a mark of distance, edged with the hue of its loop.
const plate = (colour: string): Draw => (to, colours) => {
  to.fillStyle = colours.signGround;
  to.strokeStyle = colour;
  to.lineWidth = 1.8;
  to.beginPath();
  to.arc(9.5, 9.5, 8.4, 0, 2 * Math.PI);
  to.fill();
  to.stroke();
};

// By name, in which everything stands that changes the picture: "sign-dark-peak", "arrow-#0072b2". Nothing: none of ours.
export function mapImage(name: string, colours: MapColours): MapImage | undefined {
  const before = `sign-${colours.scheme}-`;
  if (name.startsWith(before)) {
    const draw = signs[name.slice(before.length)];
    return draw && drawn(18, colours, draw);
  }
  const distance = `distance-${colours.scheme}-`;
  if (name.startsWith(distance)) {
    const colour = colours.loops[Number(name.slice(distance.length))];
    return colour === undefined ? undefined : drawn(19, colours, plate(colour));
  }
  if (name.startsWith("arrow-")) return drawn(12, colours, arrow(name.slice("arrow-".length)));
  return undefined;
}
