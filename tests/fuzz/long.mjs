/**
 * The long runs: random studies answered, and nearly valid ones refused.
 *
 *     npm run long -- [--count 10000] [--first 0] [--minutes 30] [--coarse] [--papers 10] [--traced] [--state FILE]
 *
 * Every `--papers`-th study is handed over too. `--coarse` asks small studies on few patches: the same questions of thousands. `--traced`
 * lets luminaires be lamp and shade. With `--state` a run goes on where the last one stopped, and adds up. Exit code 1 on a fault.
 */
import { existsSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { bundled } from "../support/bundled.mjs";

const { values } = parseArgs({
  options: {
    count: { type: "string", default: "10000" },
    first: { type: "string", default: "0" },
    minutes: { type: "string", default: "30" },
    coarse: { type: "boolean", default: false },
    papers: { type: "string", default: "10" },
    traced: { type: "boolean", default: false },
    state: { type: "string" },
  },
});
const { answerOfStudy, faultOfSpoiltStudy } = await bundled(new URL("./checked-studies.ts", import.meta.url));
const [first, count, papers] = [values.first, values.count, values.papers].map(Number);
const { coarse, traced, state } = values;
/** The slowest, and those that kept silent longest, that are remembered. */
const NAMED = 20;

const kept = state !== undefined && existsSync(state) ? JSON.parse(readFileSync(state, "utf8")) : undefined;
const sum = kept ?? {
  next: first,
  spoilt: 0,
  ...{ refused: 0, answered: 0, fault: 0, handedOver: 0, seconds: 0 },
  ...{ verdicts: {}, faults: [], slowest: [], mostSilent: [], memory: 0 },
};
const until = Date.now() + 60_000 * Number(values.minutes);
for (; sum.next < first + count && Date.now() < until; sum.next++) {
  const spoilt = faultOfSpoiltStudy(sum.next);
  if (spoilt !== undefined) note("spoilt study", spoilt);
  sum.spoilt++;
  const handsOver = sum.next % papers === 0;
  const answer = await answerOfStudy(sum.next, { papers: handsOver, traced, coarse });
  sum[answer.kind]++;
  if (answer.kind === "fault") note("study", answer.what);
  if (answer.kind === "answered") add(answer, handsOver);
  if (sum.next % 20 === 19) keep(sum.next + 1);
}
keep(sum.next);
console.log(JSON.stringify(sum, null, 1));
if (sum.faults.length > 0) process.exitCode = 1;

function add({ seconds, silence, verdicts }, handsOver) {
  if (handsOver) sum.handedOver++;
  sum.seconds += seconds;
  for (const verdict of verdicts) sum.verdicts[verdict] = (sum.verdicts[verdict] ?? 0) + 1;
  sum.slowest = most(sum.slowest, seconds);
  sum.mostSilent = most(sum.mostSilent, silence);
}

function most(list, seconds) {
  const all = [...list, { seed: sum.next, seconds: Number(seconds.toFixed(2)) }];
  return all.sort((a, b) => b.seconds - a.seconds).slice(0, NAMED);
}

function note(kind, what) {
  console.log(`FAULT ${kind} ${sum.next}: ${what}`);
  sum.faults.push(`${kind} ${sum.next}: ${what.slice(0, 300)}`);
}

function keep(next) {
  sum.memory = Math.max(sum.memory, process.memoryUsage.rss());
  if (state === undefined) return;
  writeFileSync(`${state}.new`, JSON.stringify({ ...sum, next }));
  renameSync(`${state}.new`, state);
}
