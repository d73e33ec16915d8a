#!/usr/bin/env node
import { createInterface } from "node:readline/promises";
import { setFlagsFromString } from "node:v8";
import { run } from "./run.ts";
import { isRewritable, shown } from "./terminal.ts";

// Of use, not needed, and known to help in this version alone: functions run as baseline code at once and are optimised later,
// when their types are settled, so that half as many are compiled a second time. Results are the same bits.
if (process.versions.v8.startsWith("11."))
  for (const flag of ["--always-sparkplug", "--interrupt-budget=500000"]) setFlagsFromString(flag);

// npm starts a script in the package's folder; paths are meant from where the user stands.
const { INIT_CWD, npm_lifecycle_event: script } = process.env;
if (INIT_CWD !== undefined && (script === "candlespan" || script === "start")) process.chdir(INIT_CWD);

// A reader that has seen enough (`| head`) closes the pipe; that is its right and not a fault.
for (const stream of [process.stdout, process.stderr])
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(process.exitCode ?? 0);
    throw error;
  });

// The exit code is set, not forced: a pipe drains asynchronously and process.exit would cut the result short.
process.exitCode = await run(process.argv.slice(2), {
  out: (text) => void process.stdout.write(shown(text, process.env, process.stdout.columns)),
  err: (text) => void process.stderr.write(shown(text, process.env, process.stderr.columns)),
  columns: process.stdout.columns,
  interactive: isRewritable(process.env, process.stderr.isTTY === true),
  ...(process.stdin.isTTY === true && process.stderr.isTTY === true ? { ask } : {}),
});

async function ask(question: string): Promise<string> {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return await lines.question(question);
  } finally {
    lines.close();
  }
}
