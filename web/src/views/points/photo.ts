// A photo made small before it is kept: JPEG, 1600 pixels on its longer side at most. Drawing it anew also leaves out what the
// camera wrote into the file, such as where it was taken.
const longest = 1600;
const quality = 0.82;

export function fitted(width: number, height: number, most = longest): { width: number; height: number } {
  const factor = Math.min(1, most / Math.max(width, height, 1));
  return { width: Math.max(1, Math.round(width * factor)), height: Math.max(1, Math.round(height * factor)) };
}

// Nothing when the browser cannot read it as a picture.
export async function shrunk(file: Blob): Promise<Blob | undefined> {
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const { width, height } = fitted(picture.width, picture.height);
    const canvas = document.createElement("canvas");
    canvas.width = width;
    canvas.height = height;
    const to = canvas.getContext("2d");
    if (!to) return undefined;
    to.fillStyle = "#fff"; // under what is see-through, which JPEG has not
    to.fillRect(0, 0, width, height);
    to.imageSmoothingQuality = "high";
    to.drawImage(picture, 0, 0, width, height);
    picture.close();
    return (await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/jpeg", quality))) ?? undefined;
  } catch {
    return undefined;
  }
}

// "mill-ford-2.jpg": from the name of the point, and free among the files of the ride.
export function photoName(point: string, taken: string[]): string {
  const plain = point.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  const stem = plain.replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 40) || "point";
  const used = new Set(taken.map((name) => name.toLowerCase()));
  for (let n = 1; ; n++) {
    const name = n === 1 ? `${stem}.jpg` : `${stem}-${n}.jpg`;
    if (!used.has(name)) return name;
  }
}
