/** The library and its elements as one file, for pages without a build: `dist/candlespan.bundle.js`. */
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: here("."),
  publicDir: false,
  build: {
    target: "es2022",
    outDir: here("../dist"),
    emptyOutDir: false,
    lib: { entry: here("./bundle.ts"), formats: ["es"], fileName: () => "candlespan.bundle.js" },
    rolldownOptions: {
      // A comment above each module would name where the dependencies lie on the machine that builds.
      experimental: { attachDebugInfo: "none" },
      output: { codeSplitting: false },
    },
  },
});
