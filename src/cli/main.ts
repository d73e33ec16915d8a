#!/usr/bin/env node
import { run } from "./run.ts";

// A reader that has seen enough (`| head`) closes the pipe; that is its right and not a fault.
for (const stream of [process.stdout, process.stderr])
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(process.exitCode ?? 0);
    throw error;
  });

// The exit code is set, not forced: a pipe drains asynchronously and process.exit would cut the result short.
process.exitCode = await run(process.argv.slice(2), {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  interactive: process.stderr.isTTY === true,
});
