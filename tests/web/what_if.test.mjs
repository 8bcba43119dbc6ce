// Changes by hand: each is an edit of the ride, answered with what changed and by how much, undone and redone, and compared.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, test } from "node:test";
import { closeBrowser, openPage, violations } from "./support/browser.mjs";
import { api, demoFolder, withServer } from "./support/outbye.mjs";
import { shot } from "./support/shots.mjs";

after(closeBrowser);

async function onTheDay(work, options = {}) {
  await withServer({ args: ["--demo", join(demoFolder(), "ride.json")] }, async (server) => {
    const id = (await api(server, "/rides")).body.rides[0].id;
    const opened = await openPage(`${server.address}/#/ride/${id}/day`, options);
    await opened.page.getByText("Weakest link").first().waitFor({ timeout: 60_000 });
    const stored = async () => (await api(server, `/rides/${id}`)).body.ride;
    await work({ ...opened, stored });
    opened.noFaults();
    await opened.context.close();
  });
}

async function eventually(what, is) {
  for (let i = 0; i < 100; ++i) {
    if (await is()) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  assert.fail(`never so: ${what}`);
}

// Milliseconds from a click to the answer on the screen.
async function timed(page, locator) {
  const handle = await locator.elementHandle();
  return page.evaluate(
    (button) =>
      new Promise((resolve) => {
        const answer = document.querySelector(".answer");
        const began = performance.now();
        const observer = new MutationObserver(() => {
          if (answer.querySelectorAll("li").length === 0 && !/worth|points/i.test(answer.textContent)) return;
          observer.disconnect();
          requestAnimationFrame(() => resolve(performance.now() - began));
        });
        observer.observe(answer, { childList: true, subtree: true, characterData: true });
        button.click();
      }),
    handle,
  );
}

test("a later start is answered with what changed, undone and redone", () =>
  onTheDay(async ({ page, stored }) => {
    const times = [];
    const later = page.getByRole("button", { name: /^15.min later$/ });
    for (let i = 0; i < 5; ++i) {
      times.push(await timed(page, later));
      await page.waitForTimeout(700);
    }
    times.sort((a, b) => a - b);
    console.log(`from click to answer, demo ride, 5 changes: median ${times[2].toFixed(0)} ms, worst ${times[4].toFixed(0)} ms`);
    await eventually("the start is 75 minutes later", async () => (await stored()).start === "2026-06-13T08:15:00+01:00");
    await page.getByRole("button", { name: /^Undo/ }).first().click();
    await eventually("one step back", async () => (await stored()).start !== "2026-06-13T08:15:00+01:00");
    await page.getByRole("button", { name: /^Redo/ }).first().click();
    await eventually("and forward", async () => (await stored()).start === "2026-06-13T08:15:00+01:00");
    await shot(page, "what-if-start");
  }));

test("a point is closed, a car is added, and both plans stand side by side", () =>
  onTheDay(async ({ page, stored }) => {
    await page.getByRole("button", { name: "Keep this plan as A" }).click();
    await page.getByRole("button", { name: "Close Threzzley Green" }).click();
    await eventually("the point is closed", async () => (await stored()).crew_points.find((point) => point.name === "Threzzley Green").closed === true);
    await page.getByRole("button", { name: "Add a car" }).click();
    await eventually("there are two cars", async () => (await stored()).cars.length === 2);
    await page.waitForTimeout(1500);
    await shot(page, "what-if-compare");
    assert.deepEqual(await violations(page), []);
  }));

test("a speed is changed with the keyboard alone", () =>
  onTheDay(async ({ page, stored }) => {
    const slider = page.getByRole("slider", { name: /Red loop/ });
    const before = (await stored()).loops[0].speed_kmh;
    await slider.focus();
    for (let i = 0; i < 3; ++i) await page.keyboard.press("ArrowRight");
    await eventually("the speed is higher", async () => (await stored()).loops[0].speed_kmh > before);
  }));
