// Nothing typed is lost: saved as it is typed, undone and brought back, kept over a killed server, and never overwritten silently by
// another tab.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, test } from "node:test";
import { closeBrowser, openPage } from "./support/browser.mjs";
import { api, demoFolder, startServer, withServer } from "./support/outbye.mjs";

after(closeBrowser);

const demo = () => ({ args: ["--demo", join(demoFolder(), "ride.json")] });
const rideOf = async (server, id) => (await api(server, `/rides/${id}`)).body;
const firstId = async (server) => (await api(server, "/rides")).body.rides[0].id;

async function eventually(what, is) {
  for (let i = 0; i < 100; ++i) {
    if (await is()) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  assert.fail(`never so: ${what}`);
}

const nameField = (page) => page.getByLabel("Name of the ride");

test("what is typed is saved by itself, undone and redone", () =>
  withServer(demo(), async (server) => {
    const id = await firstId(server);
    const { page, context, noFaults } = await openPage(`${server.address}/#/ride/${id}/details`);
    await nameField(page).fill("Spring Eighty");
    await eventually("the new name is stored", async () => (await rideOf(server, id)).ride.name === "Spring Eighty");
    await page.getByRole("button", { name: /^Undo/ }).click();
    await eventually("the old name is stored again", async () => (await rideOf(server, id)).ride.name === "Twuskholm Eighty");
    await page.getByRole("button", { name: /^Redo/ }).click();
    await eventually("the new name is back", async () => (await rideOf(server, id)).ride.name === "Spring Eighty");
    noFaults();
    await context.close();
  }));

test("what is no value yet is kept as it was typed, over a reload", () =>
  withServer(demo(), async (server) => {
    const id = await firstId(server);
    const { page, context } = await openPage(`${server.address}/#/ride/${id}/details`);
    const field = page.getByLabel("To set up").first();
    await field.fill("four");
    await eventually("the draft is stored", async () => JSON.stringify((await rideOf(server, id)).drafts).includes("four"));
    assert.equal((await rideOf(server, id)).ride.setup_min, 4);
    await page.reload();
    await page.getByLabel("To set up").first().waitFor();
    assert.equal(await page.getByLabel("To set up").first().inputValue(), "four");
    await context.close();
  }));

test("what is typed while the server is away is sent when it is back", async () => {
  const first = await startServer(demo());
  const id = await firstId(first);
  const { page, context } = await openPage(`${first.address}/#/ride/${id}/details`);
  await nameField(page).waitFor();
  await first.kill();
  await nameField(page).fill("Typed without a server");
  await page.getByText(/away/i).first().waitFor();
  const second = await startServer({ store: first.store, port: first.port });
  await eventually("it is stored once the server is back", async () => (await rideOf(second, id)).ride.name === "Typed without a server");
  await context.close();
  await second.stop();
});

test("two tabs that edit one ride do not overwrite each other silently", () =>
  withServer(demo(), async (server) => {
    const id = await firstId(server);
    const one = await openPage(`${server.address}/#/ride/${id}/details`);
    const two = await openPage(`${server.address}/#/ride/${id}/details`);
    await nameField(one.page).waitFor();
    await nameField(two.page).waitFor();
    await nameField(one.page).fill("By the first");
    await eventually("the first is stored", async () => (await rideOf(server, id)).ride.name === "By the first");
    await nameField(two.page).fill("By the second");
    // Another context has no channel to the first, as two browsers would.
    await two.page.getByText(/another window|other window|meanwhile/i).first().waitFor();
    assert.equal((await rideOf(server, id)).ride.name, "By the first");
    await one.context.close();
    await two.context.close();
  }));

test("every saved state can be brought back", () =>
  withServer(demo(), async (server) => {
    const id = await firstId(server);
    const { page, context } = await openPage(`${server.address}/#/ride/${id}/details`);
    await nameField(page).fill("Changed");
    await eventually("the change is stored", async () => (await rideOf(server, id)).ride.name === "Changed");
    await page.goto(`${server.address}/#/ride/${id}/states`);
    await page.getByRole("main").getByRole("listitem").last().getByRole("button").first().click();
    await page.getByRole("button", { name: "Bring this back" }).click();
    await eventually("the first state is back", async () => (await rideOf(server, id)).ride.name === "Twuskholm Eighty");
    await context.close();
  }));
