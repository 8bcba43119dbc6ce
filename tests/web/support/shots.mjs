// Screenshots for whoever looks at them, only when SHOTS names a folder.
import { mkdirSync } from "node:fs";
import { join } from "node:path";

export async function shot(page, name, options = {}) {
  const folder = process.env.SHOTS;
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true, ...options });
}
