// Debian's Chromium in the windows that the page is walked through in.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const axeSource = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

export const windows = {
  wide: { viewport: { width: 1440, height: 900 } },
  phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
};

let browser;
export async function openPage(address, { window = "wide", colorScheme = "light", reducedMotion = "no-preference" } = {}) {
  browser ??= await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--disable-sync",
      "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--in-process-gpu"],
  });
  const context = await browser.newContext({ ...windows[window], colorScheme, reducedMotion, locale: "en-GB", timezoneId: "America/Denver" });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  const faults = [];
  page.on("pageerror", (error) => faults.push(`error: ${error.message}`));
  page.on("console", (message) => {
    // What the browser itself says of an answer of 4xx or 5xx is not a fault of the page.
    if (message.type() === "error" && !/Failed to load resource/.test(message.text())) faults.push(`console: ${message.text()}`);
  });
  page.on("request", (request) => {
    const host = new URL(request.url()).host;
    if (/^https?:/.test(request.url()) && host !== new URL(address).host) faults.push(`asked another host: ${request.url()}`);
  });
  await page.goto(address);
  return { page, context, faults, noFaults: () => assert.deepEqual(faults, []) };
}

export async function closeBrowser() {
  await browser?.close();
  browser = undefined;
}

// Runs axe-core on the page as it stands; the content security policy keeps scripts out, so it is put in by the debugger.
export async function violations(page) {
  const { readFile } = await import("node:fs/promises");
  await page.evaluate(await readFile(axeSource, "utf8"));
  const found = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
  return found.violations.map((v) => `${v.id} (${v.impact}): ${v.nodes.map((n) => n.target.join(" ")).slice(0, 3).join(" | ")}: ${v.help}`);
}
