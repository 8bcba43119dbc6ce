// Writes src/engine/answers/*.ts: the types of the ride file and of every answer, from the schemas in docs/schema. The
// schemas are checked against the engine's own output by its tests, so that a field renamed there fails the type check here.
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { compile } from "json-schema-to-typescript";

const types = {
  check: "CheckAnswer",
  heat: "HeatAnswer",
  jobs: "JobsAnswer",
  kit: "KitAnswer",
  load: "LoadAnswer",
  plan: "PlanAnswer",
  ride: "RideDocument",
};

// Tuples of a fixed length would be spelled out item by item, and `if`/`then` is nothing that a type can say.
const options = {
  additionalProperties: false,
  ignoreMinAndMaxItems: true,
  bannerComment: "// Made from docs/schema by tools/make_answers.mjs: not to be edited.",
  format: false,
};

const fromHere = (path) => fileURLToPath(new URL(path, import.meta.url));

await mkdir(fromHere("../src/engine/answers"), { recursive: true });
for (const [name, type] of Object.entries(types)) {
  const schema = JSON.parse(await readFile(fromHere(`../../docs/schema/${name}-1.json`), "utf8"));
  schema.title = type;
  delete schema.$id;
  const text = await compile(schema, type, options);
  const file = fromHere(`../src/engine/answers/${name}.ts`);
  const before = await readFile(file, "utf8").catch(() => "");
  if (before !== text) await writeFile(file, text);
}
