/**
 * A long session of random edits, without a page:
 *
 *     node --expose-gc tests/fuzz/session.mjs [--edits 10000] [--seed 1]
 */
import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { bundled } from "../support/bundled.mjs";

const { values } = parseArgs({
  options: { edits: { type: "string", default: "10000" }, seed: { type: "string", default: "1" } },
});
const { longSession } = await bundled(new URL("./long-session.ts", import.meta.url));
const { plainBoathouse } = await bundled(new URL("./plain-boathouse.ts", import.meta.url));
const example = JSON.parse(
  readFileSync(new URL("../../fixtures-data/boathouse/boathouse.study.json", import.meta.url)),
);
const session = await longSession(plainBoathouse(example), Number(values.edits), Number(values.seed));
console.log(JSON.stringify(session, null, 1));
if (session.faults.length > 0) process.exitCode = 1;
