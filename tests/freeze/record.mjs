/** Records what every command answers now: node tests/freeze/record.mjs [group pattern …] */
import { mkdirSync, writeFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { BASELINE } from "./baseline.mjs";
import { chosenGroups, runGroups } from "./run.mjs";

mkdirSync(BASELINE, { recursive: true });
let bytes = 0;
const seconds = await runGroups(chosenGroups(process.argv.slice(2)), (group, answers) => {
  const packed = gzipSync(JSON.stringify(answers), { level: 9 });
  bytes += packed.length;
  writeFileSync(new URL(`${group}.json.gz`, BASELINE), packed);
});
console.log(`Recorded: ${(bytes / 1e6).toFixed(2)} MB, ${seconds.toFixed(0)} s of processor time.`);
