// Writes src/engine/answers/*.ts: the types of the ride file and of every answer, from the schemas in docs/schema. The
// schemas are checked against the engine's own output by its tests, so that a field renamed there fails the type check here.
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { compile } from "json-schema-to-typescript";

const types = {
  check: "CheckAnswer",
  day: "DayAnswer",
  "day-log": "DayLogLine",
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

// What the ride file's schema says of each field that has one value, by its pattern: "loops[].speed_kmh". Fields take their
// ranges and choices from here.
const ride = JSON.parse(await readFile(fromHere("../../docs/schema/ride-1.json"), "utf8"));
const limits = {};
const followed = (node) => (node.$ref ? ride.$defs[node.$ref.replace("#/$defs/", "")] : node);
const walk = (node, pattern) => {
  const of = followed(node);
  for (const [name, inner] of Object.entries(of.properties ?? {})) walk(inner, pattern ? `${pattern}.${name}` : name);
  if (of.items) walk(of.items, `${pattern}[]`);
  if (of.enum || ["string", "number", "integer", "boolean"].includes(of.type)) {
    const { type, minimum, maximum, exclusiveMinimum, minLength } = of;
    limits[pattern] = { type: of.enum ? "choice" : type, choices: of.enum, minimum, maximum, exclusiveMinimum, minLength };
  }
};
walk(ride, "");
const file = fromHere("../src/engine/answers/ride_limits.ts");
const text = `${options.bannerComment}
export interface Limits {
  type: "choice" | "string" | "number" | "integer" | "boolean";
  choices?: string[];
  minimum?: number;
  maximum?: number;
  exclusiveMinimum?: number;
  minLength?: number;
}
export const rideLimits: Record<string, Limits> = ${JSON.stringify(limits, null, 2)};
`;
if ((await readFile(file, "utf8").catch(() => "")) !== text) await writeFile(file, text);
