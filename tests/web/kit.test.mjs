// What is packed stays packed: ticked on the page, kept in the ride, there again after a reload and on the command line.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, test } from "node:test";
import { closeBrowser, openPage } from "./support/browser.mjs";
import { api, demoFolder, withServer } from "./support/outbye.mjs";

after(closeBrowser);

const demo = () => ({ args: ["--demo", join(demoFolder(), "ride.json")] });

test("a thing is ticked as packed, and pumps are told with the fuel", () =>
  withServer(demo(), async (server) => {
    const id = (await api(server, "/rides")).body.rides[0].id;
    const packed = async () => (await api(server, `/rides/${id}`)).body.ride.kit.packed ?? [];
    const { page, context, noFaults } = await openPage(`${server.address}/#/ride/${id}/kit`);
    const rug = page.getByRole("checkbox", { name: /Fleece cooler rug/ });
    await rug.waitFor({ timeout: 60_000 });
    await rug.check();
    await page.getByRole("checkbox", { name: /Blue can/ }).check();
    for (let i = 0; i < 100 && (await packed()).length < 2; ++i) await page.waitForTimeout(100);
    assert.deepEqual((await packed()).sort(), ["blue can", "cooler-rug"]);
    await page.reload();
    await rug.waitFor({ timeout: 60_000 });
    assert.ok(await rug.isChecked());
    await rug.uncheck();
    for (let i = 0; i < 100 && (await packed()).length > 1; ++i) await page.waitForTimeout(100);
    assert.deepEqual(await packed(), ["blue can"]);

    const fuel = page.locator("details", { hasText: "Fuel for Green van" });
    await fuel.locator("summary").click();
    await fuel.getByText(/Filling Station \(map\): .* the drive to .*, about \d\d:\d\d/).first().waitFor();
    noFaults();
    await context.close();
  }));
