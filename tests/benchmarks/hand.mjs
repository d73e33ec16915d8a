/**
 * What the viewer's workers are asked, over a pendant of the worked example that is dragged: processor time (ms) of a
 * step of the hand and of the light after it, as JSON. Usage: hand.mjs FOLDER, that of a built checkout.
 */
import { readdirSync, readFileSync } from "node:fs";

const root = process.argv[2];
const { answers } = await import(`${root}/dist/workers/answers.js`);
const example = `${root}/fixtures-data/boathouse/`;
const document = JSON.parse(readFileSync(`${example}boathouse.study.json`, "utf8"));
const files = readdirSync(`${example}photometry`).map((name) => ({
  path: `photometry/${name}`,
  content: new Uint8Array(readFileSync(`${example}photometry/${name}`)),
}));
const STEPS = 60;

async function timed(ask) {
  const before = process.cpuUsage();
  const answer = await ask();
  const { user, system } = process.cpuUsage(before);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return { time: (user + system) / 1000, value: answer.value };
}

const [hand, calm] = [answers(), answers()];
for (const worker of [hand, calm]) await worker.files({ files }, {});
const light = (worker, of, quality, interreflected) =>
  timed(() => worker.light({ document: of, arrangement: 0, quality, interreflected }, {}));
await light(hand, document, "first");
const rest = await light(calm, document, "full");
const { scene } = (await light(hand, document, "quick")).value;
const places = scene.layers[0].luminaires.map(({ frame }) => frame.origin);

/** The document with its second pendant where the hand is. */
function moved(step) {
  const study = structuredClone(document);
  const [layer] = study.arrangements[0].layers;
  delete layer.row;
  layer.at = places.map(([x, y, z], k) => ({
    position: k === 1 ? [x + 0.3 * Math.sin(step / 12), y + 0.1 * Math.sin(step / 7), z] : [x, y, z],
  }));
  return study;
}

const steps = [];
for (let step = 1; step <= STEPS; step++)
  steps.push((await light(hand, moved(step), "quick", rest.value.interreflected)).time);
steps.sort((a, b) => a - b);
const { time } = await light(calm, moved(STEPS), "full");
console.log(JSON.stringify({ middle: steps[STEPS / 2], late: steps[Math.floor(0.95 * STEPS)], rest: time }));
