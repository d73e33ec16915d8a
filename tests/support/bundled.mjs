/** Sources as one module that plain Node loads: for long runs outside the test runner, of code that needs no build before. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";

/** @param {URL} source a TypeScript module @returns its exports */
export async function bundled(source) {
  const folder = mkdtempSync(join(tmpdir(), "bundled-"));
  // What is loaded later lies there too.
  process.on("exit", () => rmSync(folder, { recursive: true }));
  await build({
    configFile: false,
    logLevel: "error",
    ssr: { noExternal: true },
    build: {
      ssr: fileURLToPath(source),
      outDir: folder,
      emptyOutDir: true,
      target: "node20",
      minify: false,
      rolldownOptions: { output: { entryFileNames: "bundled.mjs" } },
    },
  });
  return await import(pathToFileURL(join(folder, "bundled.mjs")).href);
}
