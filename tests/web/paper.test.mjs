// Sheets of paper: chosen, looked through, gone through by keyboard.
import assert from "node:assert/strict";
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
