/**
 * Coverage of the stated intervals, class by class, over random kitchens. Some 0.1 s a draw on one core.
 * node tests/validation/coverage.mjs [--count KITCHENS] [--draws DRAWS] [--seed SEED] [--record FILE] [class …]
 * Class A to F: level, lobe and the rest drawn as stated; `lamps`: flux and beam with five measured lobes.
 */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { runnerImport } from "vite";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    count: { type: "string", default: "60" },
    draws: { type: "string", default: "24" },
    seed: { type: "string", default: "2026" },
    record: { type: "string" },
  },
});
const load = async (path) => (await runnerImport(fileURLToPath(new URL(path, import.meta.url)))).module;
const { coverage, FIGURES } = await load("../support/coverage.ts");
const { measuredLobe } = await load("../support/uncertain-kitchen.ts");

const classes = positionals.length > 0 ? positionals : ["A", "B", "C", "D", "E", "F", "lamps"];
const recorded = {
  date: new Date().toISOString().slice(0, 10),
  seed: Number(values.seed),
  kitchens: Number(values.count),
  draws: Number(values.draws),
  classes: [],
};
console.log("class   figure      inside 95 %   half-width   meets   of them right");
for (const name of classes) {
  const found = coverage({
    evidence: name === "lamps" ? "D" : name,
    kitchens: Number(values.count),
    draws: Number(values.draws),
    seed: Number(values.seed),
    ...(name === "lamps" ? { lobe: measuredLobe } : {}),
  });
  recorded.classes.push({ name, ...found });
  if (values.record !== undefined) writeFileSync(values.record, `${JSON.stringify(recorded)}\n`);
  for (const figure of FIGURES) {
    const { inside, halfWidth, meets, right } = found[figure];
    const cells = [
      name.padEnd(7),
      figure.padEnd(11),
      `${(100 * inside).toFixed(1)} %`.padStart(10),
      `±${(100 * halfWidth).toFixed(1)} %`.padStart(13),
      String(meets).padStart(8),
      `${(100 * right).toFixed(1)} %`.padStart(12),
    ];
    console.log(cells.join(" "));
  }
}
