// Every view of the demo ride, in both windows and both schemes: nothing that axe-core finds, no fault, no other host asked.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, test } from "node:test";
import { closeBrowser, openPage, violations } from "./support/browser.mjs";
import { api, demoFolder, withServer } from "./support/outbye.mjs";
import { shot } from "./support/shots.mjs";

after(closeBrowser);

const views = ["day", "points", "people", "kit", "jobs", "heat", "paper", "details", "states", "start"];

// Set of strings that say that something is still worked out.
async function settled(page) {
  await page.locator("h1").first().waitFor();
  await page.waitForFunction(() => !/Planning (the load )?…|Opening the ride …|Working out|Sharing out|Setting the pages/.test(document.body.innerText), undefined, { timeout: 60_000 });
  await page.waitForTimeout(500);
}

for (const [window, colorScheme] of [["wide", "light"], ["phone", "dark"]]) {
  test(`every view is free of what axe-core finds (${window}, ${colorScheme})`, () =>
    withServer({ args: ["--demo", join(demoFolder(), "ride.json")] }, async (server) => {
      const { body } = await api(server, "/rides");
      const { page, noFaults, context } = await openPage(server.address, { window, colorScheme, reducedMotion: "reduce" });
      const found = {};
      await page.locator("h1").first().waitFor();
      await shot(page, `rides-${window}`);
      found.rides = await violations(page);
      for (const view of views) {
        await page.goto(`${server.address}/#/ride/${body.rides[0].id}/${view}`);
        await settled(page);
        await shot(page, `${view}-${window}`);
        found[view] = await violations(page);
      }
      await page.goto(`${server.address}/#/kept`);
      await settled(page);
      found.kept = await violations(page);
      // No view is wider than its window: nothing to scroll sideways for.
      const wider = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.ok(wider <= 0, `${wider} px wider than the window`);
      assert.deepEqual(Object.fromEntries(Object.entries(found).filter(([, list]) => list.length > 0)), {});
      noFaults();
      await context.close();
    }));
}
