/**
 * The long runs: random studies answered whole, and nearly valid ones refused.
 *
 *     npm run long -- [--count 10000] [--first 0] [--minutes 30] [--papers 10] [--traced]
 *
 * Every `--papers`-th study is handed over too. `--traced` lets luminaires be lamp and shade. Exit code 1 on a fault.
 */
import { parseArgs } from "node:util";
import { bundled } from "../support/bundled.mjs";

const { values } = parseArgs({
  options: {
    count: { type: "string", default: "10000" },
    first: { type: "string", default: "0" },
    minutes: { type: "string", default: "30" },
    papers: { type: "string", default: "10" },
    traced: { type: "boolean", default: false },
  },
});
const { answerOfStudy, faultOfSpoiltStudy } = await bundled(new URL("./checked-studies.ts", import.meta.url));
const [first, count, papers] = [values.first, values.count, values.papers].map(Number);

let faults = 0;
for (let seed = first; seed < first + count; seed++) {
  const what = faultOfSpoiltStudy(seed);
  if (what !== undefined) console.log(`FAULT spoilt study ${seed}: ${what}`);
  if (what !== undefined) faults++;
}
console.log(`${count} nearly valid studies, ${faults} faults`);

const kinds = { refused: 0, answered: 0, fault: 0 };
const verdicts = {};
let slowest = { seconds: 0, seed: -1 };
const until = Date.now() + 60_000 * Number(values.minutes);
let seed = first;
for (; seed < first + count && Date.now() < until; seed++) {
  const answer = await answerOfStudy(seed, seed % papers === 0, values.traced);
  kinds[answer.kind]++;
  if (answer.kind === "fault") console.log(`FAULT study ${seed}: ${answer.what}`);
  if (answer.kind !== "answered") continue;
  if (answer.seconds > slowest.seconds) slowest = { seconds: answer.seconds, seed };
  for (const verdict of answer.verdicts) verdicts[verdict] = (verdicts[verdict] ?? 0) + 1;
}
console.log(
  JSON.stringify({ studies: seed - first, ...kinds, verdicts, slowest, memory: process.memoryUsage.rss() }),
);
if (faults + kinds.fault > 0) process.exitCode = 1;
