// How long the engine takes in WebAssembly: node tests/wasm/measure.mjs RIDE.packed.json [...]. Opens each ride and plays a day
// on it, in which the first horse comes four minutes late to every pass and gate and stands as planned; asks after each note.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const built = (file) => new URL(`../../build/wasm/${file}`, import.meta.url);
const { outbyeDay } = createRequire(import.meta.url)(built("outbye_day.js").pathname);

const timed = (work) => {
  const before = performance.now();
  const value = work();
  return { value, ms: performance.now() - before };
};
const quantile = (times, p) => [...times].sort((a, b) => a - b)[Math.min(times.length - 1, Math.floor(p * times.length))];
const shown = (ms) => ms.toFixed(1);
const iso = (ms) => `${new Date(ms).toISOString().slice(0, 19)}Z`;

for (const file of process.argv.slice(2)) {
  const bytes = readFileSync(built("outbye_day.wasm"));
  const before = performance.now();
  const engine = await outbyeDay(bytes);
  const started = performance.now() - before;
  const call = (name, request) => {
    const { value, ms } = timed(() => engine.call(name, request));
    const reply = JSON.parse(value);
    if (reply.problem) throw new Error(JSON.stringify(reply.problem));
    return { reply, ms };
  };
  const packed = readFileSync(file, "utf8");
  const { reply: opened, ms: opening } = call("open", `{"packed":${packed}}`);
  const horse = opened.names.horses[0].name;
  const car = opened.names.cars[0].name;
  const log = [];
  const note = (kind, at, fields) => {
    log.push(JSON.stringify({ id: `a-${log.length}`, device: "a", noted: [at, 0], kind, at: iso(at), horse, ...fields }));
  };
  const times = [];
  const ask = (at) => times.push(call("answer", JSON.stringify({ log, now: iso(at) })).ms);
  const start = Date.parse(opened.names.start);
  note("gate_out", start, { loop: 0 });
  ask(start + 60_000);
  const passes = opened.plan.passes.filter((pass) => pass.horse === horse);
  let rest = 0;
  passes.forEach((pass, i) => {
    const due = Date.parse(pass.due.p50) + 240_000;
    note("car_at", due - 900_000, { car, place: pass.name, horse: undefined });
    note("watch_begin", due - 840_000, { place: pass.name, who: "A", horse: undefined });
    ask(due - 60_000); // still waiting, watched for a quarter of an hour
    note("number_seen", due - 30_000, { place: pass.name, number: "17", horse: undefined });
    note("horse_in", due, { place: pass.name, loop: pass.loop });
    ask(due + 10_000);
    if (i === Math.floor(passes.length / 2)) rest = call("rest", JSON.stringify({ log, now: iso(due + 10_000) })).ms;
  });
  console.log(
    `${file}: ${passes.length} events, ${packed.length} bytes; start ${shown(started)} ms, open ${shown(opening)} ms; ` +
      `${times.length} answers: median ${shown(quantile(times, 0.5))}, p95 ${shown(quantile(times, 0.95))}, ` +
      `worst ${shown(Math.max(...times))} ms; rest ${shown(rest)} ms; ${engine.bytes() / 1048576} MB`,
  );
}
