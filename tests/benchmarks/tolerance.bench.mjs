/** What the doubt costs beside the plain calculation, on the worked example: `npm run bench`. */
import { fileURLToPath } from "node:url";
import { assess } from "../../dist/assessment/assess.js";
import { toleranceJudge } from "../../dist/assessment/tolerance/tolerance-judge.js";
import { loadStudy } from "../../dist/cli/load-study.js";
import { LightEngine } from "../../dist/engine/light-engine.js";

const { study } = loadStudy(
  fileURLToPath(new URL("../../fixtures-data/boathouse/boathouse.study.json", import.meta.url)),
);
const cpu = () => process.cpuUsage().user / 1000;
let plain = Infinity;
let doubted = Infinity;
for (let run = 0; run < 4; run++) {
  const scene = study.scenes[0];
  const start = cpu();
  const result = new LightEngine().calculate(scene, study.options);
  const middle = cpu();
  const doubting = new LightEngine();
  assess(study, scene, result, {
    judge: toleranceJudge(scene, result, (...asked) => doubting.calculate(...asked)),
  });
  plain = Math.min(plain, middle - start);
  doubted = Math.min(doubted, cpu() - middle);
}
console.log(
  `tolerance: plain calculation ${plain.toFixed(0)} ms, doubt and verdicts ${doubted.toFixed(0)} ms, together ${((plain + doubted) / plain).toFixed(2)} × (processor time, best of 4)`,
);
