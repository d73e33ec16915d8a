/** What is packed does not depend on where it is built or on the order in which a disk lists its files. The whole proof, two clean builds
 * compared byte by byte, is `npm run same-bytes`. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));

it("bundles the same bytes in folders of different names and depths", async () => {
  const folder = mkdtempSync(join(tmpdir(), "candlespan-same-bytes-"));
  try {
    const bundles: string[] = [];
    for (const name of ["a", join("another", "folder of another name")]) {
      const at = join(folder, name);
      mkdirSync(at, { recursive: true });
      symlinkSync(join(root, "node_modules"), join(at, "node_modules"), "junction");
      writeFileSync(join(at, "norm.ts"), "export const norm = (x: number): number => Math.hypot(x, 1);\n");
      writeFileSync(
        join(at, "entry.ts"),
        'export { mat3 } from "gl-matrix";\nexport { unzipSync } from "fflate";\nexport * from "./norm.ts";\n',
      );
      await build({
        configFile: join(root, "site/elements.vite.config.ts"),
        root: at,
        logLevel: "error",
        build: {
          outDir: join(at, "dist"),
          lib: { entry: join(at, "entry.ts"), formats: ["es"], fileName: () => "bundle.js" },
        },
      });
      bundles.push(readFileSync(join(at, "dist/bundle.js"), "utf8"));
    }
    expect(bundles[0].length).toBeGreaterThan(1000);
    expect(bundles[1]).toBe(bundles[0]);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

it("lists the elements in one order, whatever the order of the files", async () => {
  // Neither has types.
  const [{ create, ts }, { default: manifest }] = await Promise.all(
    [
      "node_modules/@custom-elements-manifest/analyzer/index.js",
      "site/build/elements-manifest.config.mjs",
    ].map((path) => import(pathToFileURL(join(root, path)).href)),
  );
  const files = ["plan/plan.ts", "scale/scale.ts", "figures/figures.ts"];
  const analysed = (names: readonly string[]): string => {
    const modules = names.map((name) => {
      const path = `src/elements/${name}`;
      return ts.createSourceFile(path, readFileSync(join(root, path), "utf8"), ts.ScriptTarget.ES2015, true);
    });
    return JSON.stringify(create({ modules, plugins: manifest.plugins, dev: false, context: {} }));
  };
  const listed = analysed(files);
  expect(JSON.parse(listed).modules).toHaveLength(3);
  expect(analysed([...files].reverse())).toBe(listed);
});
