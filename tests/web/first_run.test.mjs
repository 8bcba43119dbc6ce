// From an empty store to a plan: files, five questions, the plan, as somebody does who has never seen the page.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, test } from "node:test";
import { closeBrowser, openPage, violations } from "./support/browser.mjs";
import { api, demoFolder, withServer } from "./support/outbye.mjs";
import { shot } from "./support/shots.mjs";

after(closeBrowser);

async function dropFiles(page, files) {
  await page.locator("input[type=file][aria-label='Course and other files']").setInputFiles(files);
}

for (const window of ["wide", "phone"]) {
  test(`the first run leads from files and five answers to a plan within a minute (${window})`, () =>
    withServer({}, async (server) => {
      const { page, noFaults, context } = await openPage(server.address, { window });
      const began = Date.now();
      await page.getByRole("heading", { level: 1, name: "Be at the crew point before the horse is" }).waitFor();
      await shot(page, `welcome-${window}`);
      await page.getByRole("button", { name: "Make the first ride" }).click();
      const demo = demoFolder();
      await dropFiles(page, ["course.gpx", "roads.osm.pbf", "N54W016.hgt", "weather.csv"].map((name) => join(demo, name)));
      await page.getByText("3 tracks").waitFor();
      await page.getByLabel("Date and time").fill("2026-06-13T07:00");
      await page.getByLabel("Average speed").fill("12.5");
      await page.getByLabel("Name of a helper").first().fill("Odda");
      await page.getByLabel("Name of a car").first().fill("Green van");
      await page.getByRole("group", { name: "Which horse?" }).getByLabel("Name").fill("Zummelkin");
      await page.getByRole("button", { name: "Make the plan" }).click();
      await page.getByRole("heading", { name: "The plan", exact: true }).waitFor();
      await page.getByText("What was assumed").waitFor();
      assert.ok(Date.now() - began < 60_000, `took ${Date.now() - began} ms`);
      await shot(page, `first-plan-${window}`);
      assert.deepEqual(await violations(page), []);
      // What was typed is in the store, not only on the screen.
      const { body } = await api(server, "/rides");
      const ride = (await api(server, `/rides/${body.rides[0].id}`)).body.ride;
      assert.equal(ride.helpers[0].name, "Odda");
      assert.equal(ride.cars[0].name, "Green van");
      assert.equal(ride.horses[0].name, "Zummelkin");
      assert.match(ride.start, /^2026-06-13T07:00:00\+01:00$/);
      noFaults();
      await context.close();
    }));
}
