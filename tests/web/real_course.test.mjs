// A published course and the published map of its country (see SOURCES.md beside them), from an empty store to a plan: once with a
// pointer, once with the keyboard alone.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, test } from "node:test";
import { closeBrowser, openPage } from "./support/browser.mjs";
import { api, hasShared, shared, withServer } from "./support/outbye.mjs";
import { shot } from "./support/shots.mjs";

after(closeBrowser);
const skip = !hasShared && "no reference data beside the repository";
const files = [join(shared, "real", "course", "three-spinneys-85.gpx"), join(shared, "real", "osm", "rutland.osm.pbf")];

async function planOf(server) {
  const { body } = await api(server, "/rides");
  // The page shows the plan of what it has; what it has is stored a moment later.
  let answer;
  for (let i = 0; i < 50; ++i) {
    answer = await api(server, `/rides/${body.rides[0].id}/engine/planRide`, { method: "POST", body: {} });
    if (answer.status === 200) break;
    await new Promise((done) => setTimeout(done, 200));
  }
  assert.equal(answer.status, 200, JSON.stringify(answer.body));
  return answer.body.value;
}

for (const window of ["wide", "phone"]) {
  test(`a real course is imported and planned (${window}, reduced motion)`, { skip }, () =>
    withServer({}, async (server) => {
      const { page, noFaults, context } = await openPage(server.address, { window, reducedMotion: "reduce" });
      await page.getByRole("button", { name: "Make the first ride" }).click();
      await page.locator("input[type=file][aria-label='Course and other files']").setInputFiles(files);
      await page.getByText(/tracks?, 8\d\.\d\skm/).waitFor({ timeout: 60_000 });
      await page.getByLabel("Date and time").fill("2026-05-16T06:30");
      await page.getByRole("button", { name: "Make the plan" }).click();
      await page.getByText("What was assumed").waitFor({ timeout: 60_000 });
      await shot(page, `real-${window}`);
      const { plan, drawing } = await planOf(server);
      assert.ok(plan.cars[0].stops.length >= 5, "few stops");
      assert.ok(Math.abs(drawing.length_km - plan.course.length_km) < 0.01);
      assert.equal(plan.ride.time_zone, "Europe/London");
      noFaults();
      await context.close();
    }));
}

test("the first plan can be made with the keyboard alone", { skip }, () =>
  withServer({}, async (server) => {
    const { page, context } = await openPage(server.address);
    // Tab to the thing of that name; what is reached must be seen to have the focus.
    const tabTo = async (name) => {
      for (let i = 0; i < 80; ++i) {
        await page.keyboard.press("Tab");
        const at = await page.evaluate(() => {
          const e = document.activeElement;
          const label = e.getAttribute("aria-label") ?? e.labels?.[0]?.textContent ?? e.textContent ?? "";
          const style = getComputedStyle(e);
          return { label: label.trim(), ring: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2 };
        });
        if (!name.test(at.label)) continue;
        assert.ok(at.ring, `no focus ring on ${at.label}`);
        return;
      }
      assert.fail(`Tab never came to ${name}`);
    };
    await page.getByRole("heading", { level: 1 }).waitFor();
    await tabTo(/Make the first ride/);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: "First plan" }).waitFor();
    const chooser = page.waitForEvent("filechooser");
    await tabTo(/Choose files/);
    await page.keyboard.press("Enter");
    await (await chooser).setFiles(files);
    await page.getByText(/tracks?, 8\d\.\d\skm/).waitFor({ timeout: 60_000 });
    await tabTo(/Date and time/);
    await page.keyboard.type("05162026");
    await page.keyboard.press("Tab");
    await page.keyboard.type("0630AM");
    await tabTo(/Make the plan/);
    await page.keyboard.press("Enter");
    await page.getByText("What was assumed").waitFor({ timeout: 60_000 });
    const { plan } = await planOf(server);
    assert.match(plan.ride.start, /^2026-05-16T06:30/);
    await context.close();
  }));
