// Judges documents by JSON Schemas with ajv in strict mode. Standard input: {schemas: {kind: schema}, documents: [{kind, value}], options};
// standard output: for each document the list of what is wrong with it, empty where nothing is.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const require = createRequire(pathToFileURL(process.cwd() + "/package.json"));
const Ajv = require("ajv/dist/2020").default;

const { schemas, documents, options } = JSON.parse(readFileSync(0, "utf8"));
const ajv = new Ajv({ strict: true, allErrors: true, validateSchema: true, ...options });
const judges = Object.fromEntries(Object.entries(schemas).map(([kind, schema]) => [kind, ajv.compile(schema)]));
const verdicts = documents.map(({ kind, value }) => {
  const judge = judges[kind];
  return judge(value) ? [] : judge.errors.map((error) => `${error.instancePath || "/"} ${error.message}`);
});
process.stdout.write(JSON.stringify(verdicts));
