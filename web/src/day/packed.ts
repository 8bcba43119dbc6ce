// What was packed with the page: beside it in its folder, or inside it when it is a single file.
import { single_file_ids, type PageData } from "./engine/page_data";

export interface Packed {
  page: PageData;
  ride: string; // the text of the packed ride
  isSingleFile: boolean;
}

export async function loadPacked(document: Document, fetchText: (file: string) => Promise<string>): Promise<Packed> {
  const inside = (id: string) => document.getElementById(id)?.textContent ?? undefined;
  const page = inside(single_file_ids.page);
  const isSingleFile = page !== undefined;
  const [pageText, ride] = await Promise.all([
    page ?? fetchText("page.json"),
    inside(single_file_ids.ride) ?? fetchText("ride.json"),
  ]);
  return { page: JSON.parse(pageText) as PageData, ride, isSingleFile };
}

export async function fetchText(file: string): Promise<string> {
  const answer = await fetch(file);
  if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
  return answer.text();
}
