/**
 * Compares the engine with an independent path trace over random kitchens:
 *
 *     node tests/validation/random-kitchens.mjs --family bare|bodies|people|all --count 30 --seed 1 --threads 2 [--first 0] [--small] [--record FILE]
 *
 * Prints every zone's interreflected light, every point out of bounds, and a summary a family. Exit code 1 when a
 * zone or point is out of bounds. The sources are bundled first, so nothing has to be built before.
 */

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { parseArgs } from "node:util";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";

if (isMainThread) await main();
else {
  const { compareKitchen, USUAL_EFFORT, SMALL_EFFORT } = await import(workerData.bundle);
  const effort = workerData.small ? SMALL_EFFORT : USUAL_EFFORT;
  parentPort.on("message", ({ family, seed, index }) => {
    try {
      parentPort.postMessage({ index, comparison: compareKitchen(family, seed, index, effort) });
    } catch (error) {
      parentPort.postMessage({ index, fault: String(error?.stack ?? error) });
    }
  });
}

async function main() {
  const { values } = parseArgs({
    options: {
      family: { type: "string", default: "all" },
      count: { type: "string", default: "30" },
      first: { type: "string", default: "0" },
      seed: { type: "string", default: "1" },
      threads: { type: "string", default: "2" },
      small: { type: "boolean", default: false },
      record: { type: "string" },
    },
  });
  const folder = mkdtempSync(join(tmpdir(), "random-kitchens-"));
  try {
    const { build } = await import("vite");
    await build({
      configFile: false,
      logLevel: "error",
      ssr: { noExternal: true },
      build: {
        ssr: fileURLToPath(new URL("../support/path-trace/compare-kitchen.ts", import.meta.url)),
        outDir: folder,
        emptyOutDir: true,
        target: "node20",
        minify: false,
        rolldownOptions: { output: { entryFileNames: "compare.mjs" } },
      },
    });
    const bundle = pathToFileURL(join(folder, "compare.mjs")).href;
    const { summaryOf, summaryText, table } = await import(bundle);
    const families = values.family === "all" ? ["bare", "bodies", "people"] : [values.family];
    const recorded = [];
    for (const family of families) {
      const started = performance.now();
      const all = await compareAll(family, values, bundle, (comparison) => {
        for (const line of table(comparison)) console.log(line);
      });
      const summary = summaryOf(all);
      console.log(summaryText(family, summary));
      const sum = (of) => all.reduce((total, each) => total + of(each), 0);
      console.log(
        `${family}: ${((performance.now() - started) / 1000).toFixed(0)} s; engine ${sum((k) => k.engineSeconds).toFixed(1)} s,` +
          ` trace ${sum((k) => k.traceSeconds).toFixed(1)} s, ${(sum((k) => k.segments) / sum((k) => k.traceSeconds) / 1e3).toFixed(0)} thousand segments` +
          ` and ${(sum((k) => k.shadowRays) / sum((k) => k.traceSeconds) / 1e3).toFixed(0)} thousand shadow rays a second and thread;` +
          ` ${sum((k) => k.hitsWithoutSurface)} hits on faces without a surface\n`,
      );
      recorded.push(recordOf(family, values, all));
      if (values.record !== undefined) writeFileSync(values.record, `${JSON.stringify(recorded)}\n`);
      if (summary.zonesWithin < summary.zones || summary.pointsWithin < summary.points) process.exitCode = 1;
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** What the accuracy book keeps of a family: lx of trace, its standard error, and lx of the engine, figure by figure. */
function recordOf(family, { seed }, kitchens) {
  const zones = kitchens.flatMap((kitchen) => kitchen.zones);
  const row = ({ trace, engine }) => [trace.mean, trace.error, engine].map((lux) => Number(lux.toFixed(3)));
  return {
    family,
    date: new Date().toISOString().slice(0, 10),
    seed: Number(seed),

    kitchens: kitchens.length,
    zones: zones.map(({ interreflected }) => row(interreflected)),
    points: zones.flatMap(({ points }) => points.map(row)),
  };
}

/** Comparisons in the order of their index, each handed to `each` when those before it are done. */
function compareAll(family, { count, first, seed, threads, small }, bundle, each) {
  const [from, n] = [Number(first), Number(count)];
  const done = new Map();
  let next = from;
  let shown = from;
  return new Promise((resolve, reject) => {
    const workers = Array.from({ length: Math.min(Number(threads), n) }, () => {
      const worker = new Worker(new URL(import.meta.url), { workerData: { bundle, small } });
      const give = () => {
        if (next < from + n) worker.postMessage({ family, seed: Number(seed), index: next++ });
      };
      worker.on("error", reject);
      worker.on("message", ({ index, comparison, fault }) => {
        if (fault !== undefined) {
          reject(new Error(`kitchen ${index}: ${fault}`));
          return;
        }
        done.set(index, comparison);
        while (done.has(shown)) each(done.get(shown++));
        give();
        if (done.size < n) return;
        for (const other of workers) other.terminate();
        resolve([...done.entries()].sort(([a], [b]) => a - b).map(([, value]) => value));
      });
      give();
      return worker;
    });
  });
}
