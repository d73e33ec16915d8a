/** The worked example, run as a visitor would run it: `npm run demo`. */

import { fileURLToPath } from "node:url";
import { orThrow } from "../diagnostics/candlespan-error.ts";
import { EXIT } from "./command.ts";
import { writeWhole } from "./files/write.ts";
import { run } from "./run.ts";

const STUDY = "fixtures-data/boathouse/boathouse.study.json";
const FOLDER = "demo-output";

process.chdir(fileURLToPath(new URL("../..", import.meta.url)));
const text = await captured(["check", STUDY]);
const steps: readonly (readonly [string, string, string])[] = [
  ["check.txt", "the verdict on every arrangement, as shown above", text],
  ["check.json", "the same for a program", await captured(["check", STUDY, "--json"])],
  ["isolux.svg", "the plan of the island with its isolux lines", await captured(["isolux", STUDY])],
];
process.stdout.write(`${text}\n`);
for (const [name, , content] of steps) orThrow(writeWhole(`${FOLDER}/${name}`, content, "make folders"));
process.stdout.write(
  `Written to ${FOLDER}/:\n${steps.map(([name, what]) => `  ${name.padEnd(12)}${what}`).join("\n")}\n` +
    `Try it yourself: npm run -s candlespan -- check ${STUDY}\n`,
);

async function captured(argv: readonly string[]): Promise<string> {
  let out = "";
  const code = await run(argv, {
    out: (words) => {
      out += words;
    },
    err: (words) => void process.stderr.write(words),
  });
  // A verdict that falls short is what the example is there to show.
  if (code !== EXIT.met && code !== EXIT.notMet) process.exit(code);
  return out;
}
