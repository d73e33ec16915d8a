import { execSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { TestProject } from "vitest/node";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** Builds the library before the tests that run it as it is installed, and again before each run of a watch. The build
 * is incremental: where nothing changed it takes a second. */
export default function buildLibrary(project: TestProject): void {
  build();
  project.onTestsRerun(async () => build());
}

function build(): void {
  try {
    execSync("npm run -s build", { cwd: root, stdio: "pipe", encoding: "utf8" });
  } catch (error) {
    const { stdout, stderr } = error as { stdout: string; stderr: string };
    throw new Error(`The library does not build, so no test would run what src holds:\n${stdout}${stderr}`);
  }
}
