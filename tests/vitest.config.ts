import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

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
    reporters: ["default", fileURLToPath(new URL("./support/closing-line-reporter.ts", import.meta.url))],
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/{validation,laws,browser,shaders}/**"],
          globalSetup: fileURLToPath(new URL("./support/build-library.ts", import.meta.url)),
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: "validation",
          include: ["tests/{validation,laws}/**/*.test.ts"],
          testTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["tests/{browser,shaders}/**/*.test.ts"],
          globalSetup: fileURLToPath(new URL("./support/build-site.ts", import.meta.url)),
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
