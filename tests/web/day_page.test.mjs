// The page of the day in the hand: network off, tabs that die, clocks that jump, storage that refuses; nothing that showed as
// kept is lost, and what the page answers is what the native engine answers to the exported log.
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, test } from "node:test";
import { pathToFileURL } from "node:url";
import { violations } from "./support/browser.mjs";
import { cannotPack, nativeAnswer, packed, packedPage, renamed, rideStarting } from "./support/day_folder.mjs";
import { serveFolder } from "./support/folder.mjs";
import { aPhone, begin, closePhones, eventsOf, exportedLog, kept, keptOffline, noteNumber, part, saved, tile } from "./support/phone.mjs";
import { shot } from "./support/shots.mjs";

after(closePhones);
const skip = cannotPack();

// From a summer evening into the night in which the clocks are put back: 20:00 to 03:00, two o'clock comes twice.
const start = "2026-10-24T20:00:00+01:00";
let made;
function folder() {
  made ??= (() => {
    const ride = rideStarting(start);
    return { ride, folder: process.env.OUTBYE_DAY_FOLDER ?? packed(ride) };
  })();
  return made;
}

async function withPhone(options, work) {
  const server = await serveFolder(folder().folder);
  const phone = await aPhone(server.address, options);
  try {
    return await work(phone, server);
  } finally {
    await phone.close();
    await server.stop();
  }
}
// All that follows from the log. Who does what, and with which things, is the plan's work and is searched natively.
function fromLog(answer) {
  for (const { next_action } of answer.cars) {
    delete next_action.duties;
    delete next_action.get_out;
  }
  return answer;
}
const answered = (page) => page.waitForFunction(() => {
  const main = document.querySelector("main[data-kept]");
  return main && Number(main.dataset.answered) >= Number(main.dataset.kept);
});

test("a day is noted and answered with the network off, over midnight and a change of clocks, as the native engine answers", { skip }, () =>
  withPhone({ at: "2026-10-24T19:30:00+01:00" }, async (phone, server) => {
    let page = await phone.open();
    await begin(page);
    await keptOffline(page);
    await page.reload();
    await phone.offline();
    server.asked.length = 0;
    await page.reload();
    await page.getByRole("navigation").waitFor();
    await answered(page);
    await shot(page, "day-now");
    await shot(page, "day-now-top", { fullPage: false });

    const at = async (time) => {
      await phone.setClock(time);
      await page.clock.runFor(1100);
    };
    await at("2026-10-24T20:00:30+01:00");
    await part(page, "Note");
    await tile(page, "Gate");
    await page.getByRole("button", { name: "She has started" }).click();
    await tile(page, "Car left");
    await at("2026-10-24T20:20:00+01:00");
    await tile(page, "Car parked");
    await tile(page, "Watch");
    await page.getByRole("button", { name: /^Watch .* from now on$/ }).click();
    await at("2026-10-24T20:25:00+01:00");
    await noteNumber(page, "17");
    await page.getByRole("button", { name: "Back", exact: true }).click();
    await at("2026-10-24T20:28:10+01:00");
    await tile(page, "Zummelkin in");
    await tile(page, "Drink");
    await page.getByRole("button", { name: "5 L", exact: true }).click();
    await at("2026-10-24T20:29:10+01:00");
    await tile(page, "Zummelkin out");
    await at("2026-10-24T23:59:40+01:00");
    await noteNumber(page, "4");
    await at("2026-10-25T00:00:20+01:00"); // over midnight
    await noteNumber(page, "5");
    await at("2026-10-25T01:59:50+01:00");
    await noteNumber(page, "6");
    await at("2026-10-25T01:00:10+00:00"); // 20 s later; the clock shows 01:00 again
    await noteNumber(page, "7");
    await at("2026-10-25T00:10:00+00:00"); // somebody puts the phone's clock back by 50 minutes
    await noteNumber(page, "8");
    await at("2026-10-25T01:05:00+00:00");
    await answered(page);

    const log = await exportedLog(page);
    const events = eventsOf(log);
    assert.deepEqual(events.filter((it) => it.number).map((it) => it.number), ["17", "4", "5", "6", "7", "8"]);
    for (let i = 1; i < events.length; ++i) {
      const [a, b] = [events[i - 1].noted, events[i].noted];
      assert.ok(a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]), `${a} is not before ${b}`);
    }
    assert.match(events.find((it) => it.number === "7").at, /^2026-10-25T01:00:1\d\+00:00$/);
    await page.getByRole("button", { name: "This phone" }).click();
    const answer = JSON.parse(await saved(page, "Save the engine's last answer"));
    assert.deepEqual(fromLog(answer), fromLog(nativeAnswer(folder().ride, log, answer.now)));
    assert.deepEqual(server.asked.filter((path) => path !== "/files.json" && path !== "/sw.js"), []); // what the browser looks for by itself
    phone.noFaults();
  }));

test("nothing that showed as kept is lost when the tab is killed 50 times", { skip }, () =>
  withPhone({}, async (phone) => {
    const shown = new Set();
    await phone.context.exposeBinding("showsAsKept", (_, id) => shown.add(id));
    await phone.context.addInitScript(() => {
      new MutationObserver(() => {
        const id = document.querySelector("[data-last]")?.getAttribute("data-last");
        if (id) globalThis.showsAsKept(id);
      }).observe(document, { subtree: true, childList: true, attributes: true });
    });
    let page = await phone.open();
    await begin(page);
    await keptOffline(page);
    await phone.offline();
    let seed = 20261125;
    const random = () => (seed = (seed * 48271) % 2147483647) / 2147483647;
    for (let kill = 0; kill < 50; ++kill) {
      // Taps as fast as the page takes them, from within, so that the death comes between any two of its steps.
      await page.evaluate((number) => {
        const tap = (selector, text) => [...document.querySelectorAll(selector)].find((it) => it.textContent.trim() === text)?.click();
        tap("nav button", "Note");
        const keys = ["Number", ...number, "Keep"];
        let next = 0;
        setInterval(() => {
          if (next === keys.length) next = 1; // the keypad stays open
          tap("main button", keys[next++]);
        }, 12);
      }, String(100 + kill));
      await new Promise((resolve) => setTimeout(resolve, 150 + 700 * random()));
      const devtools = await phone.context.newCDPSession(page);
      const died = new Promise((resolve) => page.once("crash", resolve));
      void devtools.send("Page.crash").catch(() => {});
      await died;
      await page.close();
      page = await phone.open();
      await page.getByRole("navigation").waitFor();
    }
    const ids = eventsOf(await exportedLog(page)).map(({ id }) => id);
    assert.equal(new Set(ids).size, ids.length);
    assert.ok(shown.size >= 50, `only ${shown.size} events were shown as kept`);
    assert.deepEqual([...shown].filter((id) => !ids.includes(id)), []);
    console.log(`killed 50 times: ${shown.size} events shown as kept, ${ids.length} in the log`);
  }));

test("a browser that refuses storage is said at once, and the log can be saved as a file", { skip }, () =>
  withPhone({ scripts: ["delete Window.prototype.indexedDB; Object.defineProperty(globalThis, 'indexedDB', { get() { throw new DOMException('no', 'SecurityError'); } });"] }, async (phone) => {
    const page = await phone.open();
    await page.getByRole("heading", { name: "Who holds this phone?" }).waitFor();
    await begin(page);
    await page.getByText("This browser keeps nothing for this page.").waitFor();
    await noteNumber(page, "17");
    await page.getByText("NOT kept yet").waitFor();
    assert.equal(eventsOf(await exportedLog(page)).at(-1).number, "17");
  }));

test("storage that runs full is said at once, and what is only on the screen is kept once there is room", { skip }, () =>
  withPhone({ scripts: [`const add = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = function (...it) { if (globalThis.isFull) throw new DOMException("full", "QuotaExceededError"); return add.apply(this, it); };`] }, async (phone) => {
    const page = await phone.open();
    await begin(page);
    await page.evaluate(() => (globalThis.isFull = true));
    await noteNumber(page, "17");
    await page.getByText("The phone is full.").waitFor();
    await page.evaluate(() => (globalThis.isFull = false));
    await page.getByRole("button", { name: "Try again" }).click();
    await page.getByText("The phone is full.").waitFor({ state: "detached" });
    await page.reload();
    await page.getByRole("navigation").waitFor();
    assert.equal(await kept(page), 1);
  }));

test("a plan packed anew is fetched beside the old one, said, and shown once wanted; the log stays", { skip }, () =>
  withPhone({}, async (phone, server) => {
    let page = await phone.open();
    await begin(page);
    await keptOffline(page);
    await noteNumber(page, "17");
    server.nowServe(renamed(folder().folder, "The new plan"));
    page = await phone.open();
    await page.getByText("A new plan has been packed").waitFor();
    assert.equal(await page.getByText("The new plan").count(), 0);
    await page.getByRole("button", { name: "Show it" }).click();
    await page.getByRole("banner").getByText("The new plan").waitFor();
    assert.equal(await kept(page), 1);
  }));

test("a folder that is cut off on its way is not taken: the page that is kept stays", { skip }, () =>
  withPhone({}, async (phone, server) => {
    const page = await phone.open();
    await begin(page);
    await keptOffline(page);
    const other = renamed(folder().folder, "Half a plan");
    writeFileSync(join(other, "page.json"), "{}"); // not what files.json says
    server.nowServe(other);
    await page.reload();
    await page.getByRole("navigation").waitFor();
    await page.waitForTimeout(2000);
    assert.equal(await page.getByText("A new plan has been packed").count(), 0);
    await phone.offline();
    await page.reload();
    await page.getByRole("navigation").waitFor();
  }));

const skipSingle = skip || (process.env.OUTBYE_DAY_FOLDER ? "a folder was given, not a ride to pack" : false);
test("a single file opens from the phone's files, answers, keeps what is noted, and asks no network", { skip: skipSingle }, async () => {
  const address = pathToFileURL(packedPage(folder().ride)).href;
  const phone = await aPhone(address, { at: "2026-10-24T20:10:00+01:00" });
  try {
    await phone.offline();
    const page = await phone.open();
    await begin(page);
    await page.locator("#headline").waitFor();
    await noteNumber(page, "17");
    await answered(page);
    await page.reload();
    await page.locator("main[data-kept='1']").waitFor();
    await answered(page);
    phone.noFaults();
  } finally {
    await phone.close();
  }
});

test("another phone's log is taken in once, and half of one as far as it goes", { skip }, () =>
  withPhone({}, async (phone) => {
    const page = await phone.open();
    await begin(page);
    await noteNumber(page, "17");
    await part(page, "Book");
    const head = '{"format":"outbye day log","version":1}\n';
    const line = (n) => `{"id":"ben-${n}-0","device":"ben","noted":[${n},0],"kind":"number_seen","at":"2026-10-24T19:2${n}:00+00:00","place":"Grebbmarch Cross","number":"${n}"}\n`;
    const takeIn = (text) => page.getByLabel("Take in another phone's log").setInputFiles({ name: "ben.log", mimeType: "text/plain", buffer: Buffer.from(text) });
    await takeIn(head + line(1) + line(2));
    await page.getByText("2 entries were new.").waitFor();
    await takeIn(head + line(1) + line(2));
    await page.getByText("Nothing new in it.").waitFor();
    await takeIn(head + line(3) + line(4).slice(0, 60));
    await page.getByText("1 entry was new. 1 of its lines cannot be read").waitFor();
    await takeIn("<gpx/>");
    await page.getByText("That file is no day log.").waitFor();
    assert.ok((await exportedLog(page)).includes(line(4).slice(0, 60)));
    assert.equal(await kept(page), 4);
  }));

test("an entry is put right and taken back by new events", { skip }, () =>
  withPhone({}, async (phone) => {
    const page = await phone.open();
    await begin(page);
    await noteNumber(page, "71");
    await part(page, "Book");
    await page.getByRole("button", { name: /Number 71/ }).click();
    await page.getByRole("button", { name: "Put right" }).click();
    await page.getByLabel("Number", { exact: true }).fill("17");
    await page.getByRole("button", { name: "Keep what is right" }).click();
    await page.getByText("put right; it was").waitFor();
    await page.getByRole("listitem").getByRole("button", { name: "Take back" }).click();
    await page.getByText("taken back").waitFor();
    assert.deepEqual(eventsOf(await exportedLog(page)).map(({ kind }) => kind), ["number_seen", "correct", "withdraw"]);
  }));

test("while driving there is nothing to tap but a slow hold", { skip }, () =>
  withPhone({}, async (phone) => {
    const page = await phone.open();
    await begin(page);
    await page.getByRole("button", { name: "Lock: we drive" }).click();
    await page.getByText("The co-driver operates this page, never the driver.").waitFor();
    await shot(page, "day-lock");
    assert.equal(await page.locator("button, a, input, select, summary").count(), 1);
    const hold = page.getByRole("button", { name: "Hold to unlock" });
    await hold.click();
    await page.waitForTimeout(300);
    assert.equal(await page.locator("button").count(), 1, "a tap must not unlock");
    await hold.hover();
    await page.mouse.down();
    await page.getByRole("navigation").waitFor({ timeout: 4000 });
    await page.mouse.up();
  }));

// A figure to read, not a verdict: the machine that runs this decides it.
test("the time from a tap to the new answer, with the processor slowed four times, is reported", { skip }, async () => {
  const now = new Date(Math.floor(Date.now() / 60_000) * 60_000 - 50 * 60_000);
  const server = await serveFolder(process.env.OUTBYE_DAY_FOLDER ?? packed(rideStarting(`${now.toISOString().slice(0, 19)}+00:00`)));
  const phone = await aPhone(server.address);
  try {
    const page = await phone.open();
    await begin(page);
    await keptOffline(page);
    await phone.offline();
    await page.reload();
    await page.locator("#headline").waitFor();
    const open = await page.evaluate(() => ({ page: performance.getEntriesByName("outbye page")[0]?.startTime, answer: performance.getEntriesByName("outbye answer")[0]?.startTime }));
    console.log(`opened with the network off: the page after ${open.page?.toFixed(0)} ms, the engine's first answer after ${open.answer?.toFixed(0)} ms`);
    await part(page, "Note");
    await tile(page, "Number");
    const devtools = await phone.context.newCDPSession(page);
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: 4 });
    const times = await page.evaluate(async () => {
      const button = (text) => [...document.querySelectorAll("main button")].find((it) => it.textContent.trim() === text);
      const main = document.querySelector("main");
      const seen = (name, least) => new Promise((resolve) => {
        const look = () => Number(main.dataset[name]) >= least && (watch.disconnect(), requestAnimationFrame(() => resolve(performance.now())));
        const watch = new MutationObserver(look);
        watch.observe(main, { attributes: true });
        look();
      });
      const all = [];
      for (let pass = 0; pass < 40; ++pass) {
        for (const digit of String(100 + pass)) button(digit).click();
        await new Promise((resolve) => setTimeout(resolve, 300));
        const before = Number(main.dataset.kept);
        const tapped = performance.now();
        button("Keep").click();
        const [kept, answered] = await Promise.all([seen("kept", before + 1), Promise.race([seen("answered", before + 1), new Promise((resolve) => setTimeout(() => resolve(NaN), 10_000))])]);
        all.push({ kept: kept - tapped, answered: answered - tapped });
      }
      return all;
    });
    const p = (name, share) => times.map((it) => it[name]).sort((a, b) => a - b)[Math.ceil(share * times.length) - 1];
    for (const name of ["kept", "answered"]) {
      console.log(`from tap to ${name}, 40 passes, processor slowed 4 times: median ${p(name, 0.5)?.toFixed(0)} ms, p95 ${p(name, 0.95)?.toFixed(0)} ms`);
    }
    assert.equal(times.length, 40);
    assert.ok(times.every(({ kept }) => kept > 0));
  } finally {
    await phone.close();
    await server.stop();
  }
});

for (const scheme of ["light", "dark", "sun"]) {
  test(`every part is without findings of axe, and every target is 48 px or more (${scheme})`, { skip }, () =>
    withPhone({ colorScheme: scheme === "dark" ? "dark" : "light", at: "2026-10-24T20:10:00+01:00" }, async (phone) => {
      const page = await phone.open();
      const look = async (name) => {
        await shot(page, `day-${scheme}-${name}`);
        assert.deepEqual((await violations(page)).map((it) => `${name}: ${it}`), []);
        const small = await page.evaluate(() =>
          [...document.querySelectorAll("button, a, input, select, summary, textarea")]
            .map((it) => it.closest("label.tick") ?? it)
            .filter((it) => it.checkVisibility())
            .map((it) => ({ what: (it.textContent || it.id).trim(), box: it.getBoundingClientRect() }))
            .filter(({ box }) => box.width < 48 || box.height < 48)
            .map(({ what, box }) => `${what} ${box.width}×${box.height}`));
        assert.deepEqual(small, [], name);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${name} is ${wide} px wider than the screen`);
      };
      await page.getByRole("heading", { name: "Who holds this phone?" }).waitFor();
      await look("first");
      await begin(page);
      if (scheme === "sun") {
        await page.getByRole("button", { name: "This phone" }).click();
        await page.getByRole("button", { name: "full sun" }).click();
        await part(page, "Now");
      }
      await page.waitForFunction(() => !document.body.textContent.includes("Opening the ride"));
      await look("now");
      await part(page, "Note");
      await look("note");
      for (const name of ["Number", "Drink", "Electrolyte", "Feed", "Bottle", "Pulse", "Gate", "Word", "Watch", "Stock", "Words, photo"]) {
        await tile(page, name);
        await look(name.replace(/\W/g, ""));
        await page.getByRole("button", { name: "Back", exact: true }).click();
      }
      await tile(page, "Zummelkin in");
      await part(page, "Book");
      await page.getByRole("button", { name: /Horse in/ }).click();
      await page.getByRole("button", { name: "Put right" }).click();
      await look("book");
      await part(page, "Map");
      await look("map");
      await page.getByRole("button", { name: "This phone" }).click();
      await look("settings");
    }));
}
