/**
 * Measures the figures of the README's table and of the guide page on accuracy again, and writes both:
 *
 *     npm run evidence                     # cases, and a few random kitchens to see that the recorded run still holds
 *     npm run evidence -- --quick          # cases alone; prints, writes nothing
 *     npm run evidence -- --kitchens 30 --coverage 300   # the long run: random kitchens a family, kitchens a class
 *
 * A run of fewer random kitchens than recorded is printed and does not replace the longer one.
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { runnerImport } from "vite";

const root = fileURLToPath(new URL("../..", import.meta.url));
const { values } = parseArgs({
  options: {
    quick: { type: "boolean", default: false },
    kitchens: { type: "string", default: "2" },
    coverage: { type: "string", default: "5" },
    seed: { type: "string", default: "2026" },
    threads: { type: "string", default: "2" },
  },
});
const { CASES, ROWS } = (await runnerImport(join(root, "tests/evidence/accuracy-cases.ts"))).module;
const recordFile = join(root, "fixtures-data/accuracy.json");
const recorded = existsSync(recordFile) ? JSON.parse(readFileSync(recordFile, "utf8")) : {};
const folder = mkdtempSync(join(tmpdir(), "evidence-"));
const vitest = (args, env = {}) =>
  node("node_modules/vitest/vitest.mjs", ["run", "-c", "tests/vitest.config.ts", ...args], env);

try {
  const cases = measuredCases(join(folder, "cases.jsonl"));
  for (const [name, { error, where }] of Object.entries(cases))
    console.log(
      `${name.padEnd(34)} bound ${CASES[name].bound.toExponential(1)}  worst ${error.toExponential(2)}  ${where}`,
    );
  if (!values.quick) {
    const kitchens = longer(
      recorded.kitchens,
      randomKitchens(join(folder, "kitchens.json")),
      (all) => all[0].kitchens,
    );
    const coverage = longer(
      recorded.coverage,
      coverageRun(join(folder, "coverage.json")),
      (all) => all.kitchens,
    );
    const record = { date: new Date().toISOString().slice(0, 10), cases, kitchens, coverage };
    writeFileSync(
      recordFile,
      `${JSON.stringify(record, null, 1).replace(/\[\s+([-\d.e]+),\s+([-\d.e]+),\s+([-\d.e]+)\s+\]/g, "[$1, $2, $3]")}\n`,
    );
    vitest(["--project", "unit", "tests/evidence/accuracy-guide.test.ts", "-u"]);
  }
} finally {
  rmSync(folder, { recursive: true });
}

/** The worst error of every case, as the tests find it. */
function measuredCases(file) {
  writeFileSync(file, "");
  vitest(["--project", "unit", "--project", "validation", ...Object.values(ROWS).map(({ test }) => test)], {
    ACCURACY_FILE: file,
  });
  const found = readFileSync(file, "utf8")
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));
  const worst = Object.keys(CASES).map((name) => {
    const all = found.filter((one) => one.name === name);
    if (all.length === 0) throw new Error(`No test measured "${name}".`);
    const { error, where } = all.reduce((most, one) => (one.error > most.error ? one : most));
    return [name, { error: Math.max(0, Number(error.toPrecision(3))), where }];
  });
  return Object.fromEntries(worst);
}

function randomKitchens(file) {
  const { kitchens, seed, threads } = values;
  const args = ["--count", kitchens, "--seed", seed, "--threads", threads, "--record", file];
  node("tests/validation/random-kitchens.mjs", args);
  return JSON.parse(readFileSync(file, "utf8"));
}

function coverageRun(file) {
  const draws = Number(values.coverage) < 300 ? "4" : "6";
  node("tests/validation/coverage.mjs", [
    "--count",
    values.coverage,
    "--draws",
    draws,
    "--seed",
    "13",
    "--record",
    file,
  ]);
  return JSON.parse(readFileSync(file, "utf8"));
}

function longer(before, now, size) {
  return before === undefined || size(now) >= size(before) ? now : before;
}

function node(file, args, env = {}) {
  execFileSync(process.execPath, [join(root, file), ...args], {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, ...env },
  });
}
