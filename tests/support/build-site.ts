import { fileURLToPath } from "node:url";
import { build } from "vite";

/** Builds the site once before the browser tests, so that they never look at a stale one. */
export default async function buildSite(): Promise<void> {
  // The test runner says "test", which would build what developers see: other code, and no offline copy.
  const environment = process.env.NODE_ENV;
  process.env.NODE_ENV = "production";
  try {
    await build({
      configFile: fileURLToPath(new URL("../../site/vite.config.ts", import.meta.url)),
      mode: "production",
      logLevel: "warn",
    });
  } finally {
    process.env.NODE_ENV = environment;
  }
}
