import { fileURLToPath } from "node:url";
import { build } from "vite";
import { findBrowser } from "./browser.ts";

const BUILT = Symbol.for("candlespan site built");

/** Builds the site before the browser tests, so that they never look at a stale one, and unpacks the browser that comes from npm,
 * which two files at a time would do into one folder; once for all projects that ask for it. */
export default function buildSite(): Promise<void> {
  const run = globalThis as { [BUILT]?: Promise<void> };
  run[BUILT] ??= built();
  return run[BUILT];
}

async function built(): Promise<void> {
  // The test runner says "test", which would build what developers see: other code, and no offline copy.
  const environment = { ...process.env };
  process.env.NODE_ENV = "production";
  try {
    await findBrowser();
    await build({
      configFile: fileURLToPath(new URL("../../site/vite.config.ts", import.meta.url)),
      mode: "production",
      logLevel: "warn",
    });
  } finally {
    for (const name of Object.keys(process.env)) if (!(name in environment)) delete process.env[name];
    Object.assign(process.env, environment);
  }
}
