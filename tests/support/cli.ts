/** The command line: built, run as a person runs it; or its source called in this process, where what is asked is how
 * it takes its arguments and not how it starts, reads its input or ends. */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { run } from "../../src/cli/run.ts";

const MAIN = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));

export interface CliRun {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
  /** Largest memory the process held (bytes), where it was asked for. */
  readonly memory?: number;
}

export function candlespan(
  args: readonly string[],
  options: { readonly input?: string | Uint8Array; readonly cwd?: string } = {},
): CliRun {
  const { status, stdout, stderr } = spawnSync(process.execPath, [MAIN, ...args], {
    encoding: "utf8",
    cwd: options.cwd,
    input: options.input,
    maxBuffer: 1 << 28,
  });
  return { code: status, out: stdout, err: stderr };
}

/** The same answer from the source, in this process. */
export async function called(...args: readonly string[]): Promise<CliRun & { readonly code: number }> {
  const said = { out: "", err: "" };
  const code = await run(args, {
    out: (text) => {
      said.out += text;
    },
    err: (text) => {
      said.err += text;
    },
  });
  return { code, ...said };
}

/**
 * The same, watched for memory: the process reports its own high-water mark as the last line of standard error. On Linux
 * `maxRSS` also holds what the process that started it held at that moment (it survives exec), so the mark of this program
 * alone is read where the kernel keeps it.
 */
export function candlespanMemory(args: readonly string[]): CliRun & { readonly memory: number } {
  const watch = `import { readFileSync } from "node:fs";
function peak() {
  try {
    return 1024 * Number(/VmHWM:\\s*(\\d+)/.exec(readFileSync("/proc/self/status", "utf8"))[1]);
  } catch {
    return 1024 * process.resourceUsage().maxRSS;
  }
}
process.on("exit", () => process.stderr.write("\\n" + peak()));`;
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ["--import", `data:text/javascript,${encodeURIComponent(watch)}`, MAIN, ...args],
    { encoding: "utf8", maxBuffer: 1 << 28 },
  );
  const lines = stderr.split("\n");
  const memory = Number(lines.pop());
  return { code: status, out: stdout, err: lines.join("\n"), memory };
}
