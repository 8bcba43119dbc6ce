// The goldens of the day's calls in WebAssembly: tests/wasm/day_calls.golden.json, as formats/day_calls/day_calls_test.cpp compares
// them natively. Run by `./run wasm`.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import test from "node:test";

const here = (file) => new URL(file, import.meta.url);
const built = (file) => here(`../../build/wasm/${file}`);
const { outbyeDay } = createRequire(import.meta.url)(built("outbye_day.js").pathname);
const engine = await outbyeDay(readFileSync(built("outbye_day.wasm")));
const call = (name, request) => JSON.parse(engine.call(name, JSON.stringify(request)));

const golden = JSON.parse(readFileSync(here("day_calls.golden.json"), "utf8"));
const packed = JSON.parse(readFileSync(here("small.packed.json"), "utf8"));

const isTime = (text) => /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$/.test(text);

function compare(expected, actual, where) {
  const both = `${where}: ${JSON.stringify(actual)}, golden ${JSON.stringify(expected)}`;
  if (Array.isArray(expected)) {
    assert.ok(Array.isArray(actual) && actual.length >= expected.length, both);
    if (!where.endsWith("by_waiting")) assert.equal(actual.length, expected.length, `${where} has another length`);
    expected.forEach((item, i) => compare(item, actual[i], `${where}[${i}]`));
  } else if (expected !== null && typeof expected === "object") {
    for (const [name, value] of Object.entries(expected)) {
      assert.ok(name in (actual ?? {}), `${where}.${name} is missing`);
      compare(value, actual[name], `${where}.${name}`);
    }
  } else if (typeof expected === "number" && typeof actual === "number") {
    assert.ok(Math.abs(expected - actual) <= golden.tolerance.number, both);
  } else if (typeof expected === "string" && isTime(expected) && isTime(actual)) {
    assert.ok(Math.abs(Date.parse(expected) - Date.parse(actual)) <= 1000 * golden.tolerance.seconds, both);
    assert.equal(actual.slice(19), expected.slice(19), both);
  } else {
    assert.equal(actual, expected, both);
  }
}

assert.ok(golden.calls.length >= 5);
for (const { about, name, request, reply } of golden.calls) {
  test(`${name} answers as in the golden: ${about}`, () => {
    compare(reply, call(name, name === "open" ? { ...request, packed } : request), about);
  });
}

test("what is no JSON is refused, and the engine goes on", () => {
  const refused = JSON.parse(engine.call("answer", "{"));
  assert.equal(refused.problem.kind, "bad_input");
  assert.match(refused.problem.what, /is not JSON/);
  assert.ok("cars" in call("answer", golden.calls[1].request));
});

test("a time zone by name is refused with how to write it, for there is no database of them", () => {
  const reply = call("open", { packed: { ...packed, ride: { ...packed.ride, time_zone: "Europe/London" } } });
  assert.match(reply.problem.what, /write an offset/);
});

test("a ride can be opened again and again without the memory growing on", () => {
  const open = () => assert.ok("names" in call("open", { packed }));
  for (let i = 0; i < 3; i++) open();
  const after3 = engine.bytes();
  for (let i = 0; i < 10; i++) open();
  assert.equal(engine.bytes(), after3);
});
