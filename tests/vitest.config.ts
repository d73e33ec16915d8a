import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import LongestFirst from "./support/longest-first.ts";

const root = fileURLToPath(new URL("..", import.meta.url));

export default defineConfig({
  root,
  resolve: {
    alias: [
      {
        find: /^fast-check$/,
        replacement: fileURLToPath(new URL("./support/fast-check.ts", import.meta.url)),
      },
    ],
  },
  test: {
    // So long that only a test that hangs meets it, on any machine.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    // A file on every core: by default one is left free, which of two is half.
    maxWorkers: "100%",
    sequence: { sequencer: LongestFirst },
    reporters: ["default", fileURLToPath(new URL("./support/closing-line-reporter.ts", import.meta.url))],
    // Files that stand on functions alone share a process: each loaded the library anew, half a second of processor. What
    // a test changes of the world around it, it puts back.
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          isolate: false,
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/{validation,laws,browser,shaders}/**"],
          globalSetup: fileURLToPath(new URL("./support/build-library.ts", import.meta.url)),
        },
      },
      {
        extends: true,
        test: {
          name: "validation",
          isolate: false,
          include: ["tests/{validation,laws}/**/*.test.ts"],
        },
      },
      // The files of a process share its browser, each in contexts of its own.
      {
        extends: true,
        test: {
          name: "browser",
          isolate: false,
          include: ["tests/{browser,shaders}/**/*.test.ts"],
          exclude: ["tests/browser/figures.test.ts", "tests/shaders/room-in-app.test.ts"],
          globalSetup: fileURLToPath(new URL("./support/build-site.ts", import.meta.url)),
        },
      },
      // Measure times, or count frames: one after another, after all others.
      {
        extends: true,
        test: {
          name: "figures",
          include: ["tests/browser/figures.test.ts", "tests/shaders/room-in-app.test.ts"],
          globalSetup: fileURLToPath(new URL("./support/build-site.ts", import.meta.url)),
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
