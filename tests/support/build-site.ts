import { fileURLToPath } from "node:url";
import { build } from "vite";

/** Builds the site once before the browser tests, so that they never look at a stale one. */
export default async function buildSite(): Promise<void> {
  await build({
    configFile: fileURLToPath(new URL("../../site/vite.config.ts", import.meta.url)),
    logLevel: "warn",
  });
}
