// What goes wrong says so beside the place, keeps what was entered, and works again.
import assert from "node:assert/strict";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { closeBrowser, openPage } from "./support/browser.mjs";
import { api, demoFolder, hasShared, shared, withServer } from "./support/outbye.mjs";

const folder = mkdtempSync(join(tmpdir(), "outbye-bad-"));
after(async () => {
  await closeBrowser();
  rmSync(folder, { recursive: true, force: true });
});

const input = (page) => page.locator("input[type=file][aria-label='Course and other files']");
function file(name, bytes) {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

async function begin(server) {
  const opened = await openPage(server.address);
  await opened.page.getByRole("button", { name: "Make the first ride" }).click();
  await input(opened.page).waitFor({ state: "attached" });
  return opened;
}

test("a GPX without a track says so, and the next file is taken", () =>
  withServer({}, async (server) => {
    const { page, context } = await begin(server);
    await page.getByLabel("Date and time").fill("2026-06-13T07:00");
    await input(page).setInputFiles(file("empty.gpx", '<?xml version="1.0"?><gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="54.5" lon="-15.4"><name>A</name></wpt></gpx>'));
    await page.getByText(/no track|has no tracks|holds no track/i).first().waitFor();
    assert.equal(await page.getByLabel("Date and time").inputValue(), "2026-06-13T07:00");
    await page.getByRole("button", { name: "Remove empty.gpx" }).click();
    await input(page).setInputFiles(join(demoFolder(), "course.gpx"));
    await page.getByText("3 tracks").waitFor();
    await context.close();
  }));

test("a file of another kind is refused by its bytes, whatever its name", () =>
  withServer({}, async (server) => {
    const { page, context } = await begin(server);
    await input(page).setInputFiles(file("course.gpx", "%PDF-1.7 not a course"));
    await page.getByText(/PDF/).first().waitFor();
    const { body } = await api(server, "/rides");
    assert.deepEqual((await api(server, `/rides/${body.rides[0].id}`)).body.files, []);
    await context.close();
  }));

test("a map of somewhere else says what it covers", { skip: !hasShared && "no reference data beside the repository" }, () =>
  withServer({}, async (server) => {
    const { page, context } = await begin(server);
    await input(page).setInputFiles([join(demoFolder(), "course.gpx"), join(shared, "real", "osm", "rutland.osm.pbf")]);
    await page.getByText("3 tracks").waitFor();
    await page.getByLabel("Date and time").fill("2026-06-13T07:00");
    await page.getByRole("button", { name: "Make the plan" }).click();
    await page.getByText(/it covers/).first().waitFor({ timeout: 60_000 });
    await context.close();
  }));

test("a ride file of a newer version is kept, and says what it is", () =>
  withServer({}, async (server) => {
    const { page, context } = await openPage(server.address);
    await page.locator("input[type=file]").first().setInputFiles(file("ride.json", JSON.stringify({ version: 99, name: "From tomorrow", start: "2026-06-13T07:00:00+01:00", files: { course: ["course.gpx"] } })));
    await page.getByText("Imported: From tomorrow.").waitFor();
    const { body } = await api(server, "/rides");
    assert.equal(body.rides[0].name, "From tomorrow");
    await page.goto(`${server.address}/#/ride/${body.rides[0].id}/details`);
    await page.getByText(/newer|version 99|version is 99/i).first().waitFor();
    await context.close();
  }));
