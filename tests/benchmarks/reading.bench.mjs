/**
 * Reading photometric files: the worked example's eight, and one table of 181 × 361 values in every format that is
 * written here. Run by `npm run bench:kernels` on the built library. Prints the best of many runs, because other work on
 * the machine only ever adds time.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Bench } from "tinybench";
import { readPhotometry } from "../../dist/photometry/readers/read-photometry.js";
import { writeEulumdat } from "../../dist/photometry/writers/eulumdat-writer.js";
import { writeLm63 } from "../../dist/photometry/writers/lm63-writer.js";
import { writeTm33 } from "../../dist/photometry/writers/tm33-writer.js";

const folder = fileURLToPath(new URL("../../fixtures-data/boathouse/photometry/", import.meta.url));
const files = readdirSync(folder).map((name) => ({
  file: name,
  bytes: new Uint8Array(readFileSync(folder + name)),
}));

const rad = Math.PI / 180;
const horizontal = Float64Array.from({ length: 361 }, (_, i) => i * rad);
horizontal[360] = 2 * Math.PI;
const vertical = Float64Array.from({ length: 181 }, (_, i) => i * rad);
const intensity = new Float64Array(361 * 181);
for (let h = 0; h < 361; h++)
  for (let v = 0; v < 181; v++)
    intensity[h * 181 + v] =
      Math.round(1e5 * (1.5 + Math.cos((h % 360) * rad)) * (1.1 + Math.cos(v * rad))) / 100;
const photometry = {
  format: "LM-63",
  edition: "2002",
  distribution: { type: "C", symmetry: "none", horizontal, vertical, intensity },
  opening: { shape: "point", length: 0, width: 0, height: 0 },
  absolute: true,
  lampSets: [{ count: 1, type: "", colourTemperature: "", colourRendering: "" }],
  lampSet: 0,
  labels: [],
  description: "a large table",
};

const bench = new Bench({ time: 400 });
bench.add("worked example, 8 files", () => {
  for (const { bytes, file } of files) readPhotometry(bytes, { file });
});
for (const [name, write] of [
  ["LM-63", writeLm63],
  ["EULUMDAT", writeEulumdat],
  ["TM-33", writeTm33],
]) {
  const bytes = new TextEncoder().encode(write(photometry).value);
  bench.add(`${name}, 361 × 181, ${(bytes.length / 1e6).toFixed(2)} MB`, () => {
    const outcome = readPhotometry(bytes, { file: "large" });
    if (!outcome.ok) throw new Error(outcome.issues[0].message);
  });
}
await bench.run();
for (const { name, result } of bench.tasks) console.log(`${name}: ${result.latency.min.toFixed(2)} ms`);
