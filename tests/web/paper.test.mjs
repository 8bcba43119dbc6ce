// Sheets of paper: chosen, looked through, printed and saved; telephone numbers typed in are on them.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { closeBrowser, openPage, violations } from "./support/browser.mjs";
import { api, demoFolder, withServer } from "./support/outbye.mjs";
import { shot } from "./support/shots.mjs";

after(closeBrowser);

async function atTheDesk(work, options = {}) {
  await withServer({ args: ["--demo", join(demoFolder(), "ride.json")] }, async (server) => {
    const id = (await api(server, "/rides")).body.rides[0].id;
    const opened = await openPage(`${server.address}/#/ride/${id}/paper`, options);
    opened.page.setDefaultTimeout(60_000); // thirty pages are much to draw for a slow machine
    await opened.page.getByRole("img", { name: /^Crew book, page 1 of/ }).waitFor({ timeout: 60_000 });
    await work({ ...opened, server, id });
    opened.noFaults();
    await opened.context.close();
  });
}
const settled = (page) => page.getByText("Setting the pages …").waitFor({ state: "hidden", timeout: 60_000 });

function pagesOf(bytes) {
  const file = join(mkdtempSync(join(tmpdir(), "outbye-pdf-")), "sheet.pdf");
  writeFileSync(file, bytes);
  const text = execFileSync("pdftotext", [file, "-"], { encoding: "utf8" });
  return { text, count: Number(/Pages:\s+(\d+)/.exec(execFileSync("pdfinfo", [file], { encoding: "utf8" }))[1]) };
}

for (const [window, colorScheme] of [["wide", "light"], ["phone", "dark"]]) {
  test(`sheets are chosen and looked through, with nothing that axe-core finds (${window})`, () =>
    atTheDesk(
      async ({ page }) => {
        await page.getByRole("checkbox", { name: /^Rider card/ }).check();
        await page.getByRole("img", { name: /^Rider card, page 1 of/ }).waitFor({ timeout: 60_000 });
        await settled(page);
        await shot(page, `paper-${window}`, { fullPage: false });
        assert.deepEqual(await violations(page), []);
        const pictures = await page.locator("figure img").count();
        assert.equal(await page.locator("nav ol li").count(), pictures, "the list beside it has every page");
        await page.getByRole("radio", { name: /^Pocket cards/ }).check();
        await page.getByText("No room on a pocket card.").first().waitFor();
        await page.getByRole("img", { name: /^Rider card, page 1 of/ }).waitFor({ timeout: 60_000 });
        await settled(page);
        assert.equal(await page.getByRole("img", { name: /^Crew book/ }).count(), 0);
        // Every picture is there, and none is wider than the window.
        const broken = await page.evaluate(() => [...document.images].filter((image) => image.complete && image.naturalWidth === 0).length);
        assert.equal(broken, 0);
        const wider = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.ok(wider <= 0, `${wider} px wider than the window`);
      },
      { window, colorScheme, reducedMotion: "reduce" },
    ));
}

test("a page of the list is gone to by keyboard", () =>
  atTheDesk(async ({ page }) => {
    const entry = page.getByRole("button", { name: /Telephone and emergency/ });
    await entry.focus();
    await page.keyboard.press("Enter");
    const alt = await page.evaluate(() => document.activeElement.querySelector("img")?.alt);
    assert.match(alt, /Telephone and emergency/);
  }));

test("what is printed is the pages and nothing else, each on a sheet of its own", () =>
  atTheDesk(async ({ page }) => {
    await settled(page);
    const pictures = await page.locator("figure img").count();
    // The button waits until every page is drawn, then asks the browser to print.
    await page.evaluate(() => (window.print = () => (document.title = "printing")));
    await page.getByRole("button", { name: "Print", exact: true }).focus();
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.title === "printing", undefined, { timeout: 60_000 });
    const { text, count } = pagesOf(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
    assert.equal(count, pictures);
    assert.equal(text.trim(), "", "only pictures: no menu, no button");
  }));

test("a number typed under Ride details is in the PDF that is saved", () =>
  atTheDesk(async ({ page, server, id }) => {
    await page.goto(`${server.address}/#/ride/${id}/details`);
    const contacts = (await api(server, `/rides/${id}`)).body.ride.emergency.contacts.length; // the new one comes behind these
    await page.getByRole("button", { name: "Add a number" }).click();
    const phone = page.locator(`[id="at-emergency.contacts[${contacts}].phone"]`);
    await phone.fill("ask at the desk");
    await page.getByText(/is no telephone number/).first().waitFor();
    await phone.fill("07700 900177");
    await page.goto(`${server.address}/#/ride/${id}/paper`);
    await page.getByRole("img", { name: /^Crew book, page 1 of/ }).waitFor({ timeout: 60_000 });
    await settled(page);
    const waiting = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save Crew book as PDF" }).click();
    const download = await waiting;
    assert.equal(download.suggestedFilename(), "crew-book.pdf");
    const { text, count } = pagesOf(readFileSync(await download.path()));
    assert.match(text, /07700 900177/);
    assert.equal(count, await page.locator("figure img").count(), "as many pages as were shown");
    await page.getByText("Crew book is saved.").waitFor();
  }));
