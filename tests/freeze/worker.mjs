/**
 * Runs command lines one after another in this process, through the entry of the built program alone: the entry
 * is evaluated anew for each, what it loads stays loaded. Starting a process for each takes three times as long.
 */
import { fileURLToPath, pathToFileURL } from "node:url";

const ENTRY = pathToFileURL(fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url))).href;
const send = process.send.bind(process);
const write = { out: process.stdout.write, err: process.stderr.write };
process.stdout.setMaxListeners(0);
process.stderr.setMaxListeners(0);

let runs = 0;

async function run(args) {
  const text = { out: "", err: "" };
  process.argv = [process.argv[0], "candlespan", ...args];
  process.exitCode = undefined;
  process.stdout.write = (chunk) => {
    text.out += chunk;
    return true;
  };
  process.stderr.write = (chunk) => {
    text.err += chunk;
    return true;
  };
  try {
    runs++;
    await import(`${ENTRY}?run=${runs}`);
  } finally {
    process.stdout.write = write.out;
    process.stderr.write = write.err;
  }
  const code = Number(process.exitCode ?? 0);
  process.exitCode = undefined;
  return { code, ...text };
}

process.on("message", async ({ args, cwd }) => {
  process.chdir(cwd);
  const before = process.cpuUsage();
  const answer = await run(args);
  const { user, system } = process.cpuUsage(before);
  send({ ...answer, seconds: (user + system) / 1e6 });
});
