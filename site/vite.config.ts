import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { HEADERS } from "../src/cli/content-security.ts";
import { firstLightChunk } from "./build/first-light-chunk.ts";
import { givenLevels } from "./build/given-levels.ts";
import { plainImports } from "./build/plain-imports.ts";
import { pngInPlace } from "./build/png-in-place.ts";
import { policyInPage } from "./build/policy-in-page.ts";
import { precache } from "./build/precache.ts";
import { smallest } from "./build/smallest.ts";
import { example } from "./build/worked-example.ts";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const pages = [
  "index.html",
  "embed.html",
  "guide/study-format.html",
  "guide/accuracy.html",
  "guide/kitchen.html",
].filter((name) => existsSync(here(name)));

const page = firstLightChunk("/site/main.ts");
const worker = firstLightChunk("/src/workers/browser-entry.ts");
const FIRST = /^(index|first-light|browser-entry)$/;

export default defineConfig({
  root: here("."),
  base: "./",
  publicDir: false,
  plugins: [
    plainImports(),
    givenLevels(),
    page.plugin,
    example(),
    pngInPlace(),
    policyInPage(),
    smallest(FIRST),
    precache(),
  ],
  worker: {
    format: "es",
    plugins: () => [worker.plugin, smallest(FIRST)],
    rolldownOptions: { output: { codeSplitting: { groups: [worker.group] } } },
  },
  server: { fs: { allow: [here("..")] } },
  preview: { headers: HEADERS },
  build: {
    target: "es2022",
    outDir: here("../dist-site"),
    emptyOutDir: true,
    // A file small enough to become a data: URL would need a hole in the security policy.
    assetsInlineLimit: 0,
    // What helps a browser ask for chunks of chunks early would itself weigh on the first light, twice.
    modulePreload: false,
    rolldownOptions: {
      input: {
        ...Object.fromEntries(pages.map((name) => [name.replace(".html", ""), here(name)])),
        "service-worker": here("service-worker.ts"),
      },
      output: {
        codeSplitting: { groups: [page.group] },
        entryFileNames: (chunk: { name: string }) =>
          chunk.name === "service-worker" ? "service-worker.js" : "assets/[name]-[hash].js",
      },
    },
  },
});
