/**
 * Reads mutated inputs of every kind and checks each answer:
 *
 *     npm run fuzz -- [--folder FOLDER] [--seed 1] [--count 100000] [--minutes 5] [--state FILE] [--input NUMBER]
 *
 * `--folder` holds the photometric files to mutate; studies, shades, readings, links and records come from the repository. With `--state`
 * a run goes on where the last one stopped, and adds up. `--input` writes one mutated input to standard output. Exit code 1 on a fault.
 */
import { existsSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { bundled } from "../support/bundled.mjs";

const FIXTURES = fileURLToPath(new URL("../../fixtures-data", import.meta.url));
const { values } = parseArgs({
  options: {
    folder: { type: "string", default: FIXTURES },
    seed: { type: "string", default: "1" },
    count: { type: "string", default: "100000" },
    minutes: { type: "string", default: "5" },
    state: { type: "string" },
    input: { type: "string" },
  },
});

const { emptySummary, MutatedInputs, samplesOf } = await bundled(
  new URL("./mutated-inputs.ts", import.meta.url),
);
const samples = samplesOf(values.folder, FIXTURES);
const inputs = new MutatedInputs(samples, Number(values.seed));

if (values.input !== undefined) process.stdout.write(inputs.input(Number(values.input)).input.bytes);
else run();

function run() {
  const unsound = inputs.unsound();
  for (const line of unsound) console.log(`a sample that is not sound: ${line}`);
  const { next, summary } = resumed();
  const until = Date.now() + 60_000 * Number(values.minutes);
  let index = next;
  for (; index < Number(values.count) && Date.now() < until; index++) {
    const fault = inputs.answer(index, summary);
    if (fault !== undefined) console.log(`FAULT input ${index} of ${fault.sample}: ${fault.what}`);
    if (index % 1000 === 999) keep(index + 1, summary);
  }
  keep(index, summary);
  console.log(JSON.stringify(summary, null, 1));
  if (summary.faults > 0) process.exitCode = 1;
}

/** Where the last run of this seed and these samples stopped. */
function resumed() {
  const fresh = { next: 0, summary: emptySummary() };
  if (values.state === undefined || !existsSync(values.state)) return fresh;
  const kept = JSON.parse(readFileSync(values.state, "utf8"));
  return kept.seed === values.seed && kept.samples === samples.length ? kept : fresh;
}

function keep(next, summary) {
  if (values.state === undefined) return;
  writeFileSync(
    `${values.state}.new`,
    JSON.stringify({ seed: values.seed, samples: samples.length, next, summary }),
  );
  renameSync(`${values.state}.new`, values.state);
}
