// A phone in the hand: the page of the day on a small screen, its network on and off, its clock, its tabs that die.
import assert from "node:assert/strict";
import { chromium } from "playwright-core";
import { windows } from "./browser.mjs";

let browser;
export async function aPhone(address, { at, colorScheme = "light", scripts = [] } = {}) {
  browser ??= await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
  const context = await browser.newContext({ ...windows.phone, colorScheme, locale: "en-GB", timezoneId: "Europe/London", acceptDownloads: true });
  if (at) await context.clock.install({ time: new Date(at) });
  for (const script of scripts) await context.addInitScript(script);
  const faults = [];
  return {
    context,
    faults,
    noFaults: () => assert.deepEqual(faults, []),
    async open() {
      const page = await context.newPage();
      page.setDefaultTimeout(90_000); // an engine that opens on a busy machine
      page.on("pageerror", (error) => faults.push(`error: ${error.message}`));
      page.on("console", (message) => {
        if (message.type() === "error") faults.push(`console: ${message.text()}`);
      });
      page.on("request", (request) => {
        if (/^https?:/.test(request.url()) && !request.url().startsWith(address)) faults.push(`asked another host: ${request.url()}`);
      });
      await page.goto(address);
      return page;
    },
    setClock: (time) => context.clock.setSystemTime(new Date(time)),
    async offline() {
      await context.setOffline(true);
    },
    close: () => context.close(),
  };
}

export async function closePhones() {
  await browser?.close();
  browser = undefined;
}

export async function begin(page, who = "Odda") {
  await page.getByRole("textbox", { name: /^(Your name|Somebody else)$/ }).fill(who);
  await page.getByRole("button", { name: "Begin" }).click();
  await page.getByRole("navigation").waitFor();
}
// The service worker keeps the folder: from here on the network is not needed.
export const keptOffline = (page) => page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
export const part = (page, name) => page.getByRole("navigation").getByRole("button", { name, exact: true }).click();
export const tile = (page, name) => page.getByRole("main").getByRole("button", { name, exact: true }).click();
export const kept = (page) => page.locator("main[data-kept]").getAttribute("data-kept").then(Number);

export async function noteNumber(page, number) {
  await part(page, "Note");
  await tile(page, "Number");
  for (const digit of number) await page.getByRole("button", { name: digit, exact: true }).click();
  await page.getByRole("button", { name: "Keep", exact: true }).click();
}

export async function exportedLog(page) {
  await part(page, "Book");
  return saved(page, "Save the log as a file");
}
export async function saved(page, button) {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: button }).first().click();
  const { readFile } = await import("node:fs/promises");
  return readFile(await (await download).path(), "utf8");
}
export const eventsOf = (log) => log.trim().split("\n").slice(1).map((line) => JSON.parse(line));
