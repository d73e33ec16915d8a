// Packs every .glsl file of this folder into one typed module, so that shaders stay files for people and
// become plain strings for tsc, Node and bundlers alike.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const target = join(here, "../src/preview/shaders.gen.ts");
const files = readdirSync(here, { recursive: true })
  .map((name) => String(name).replaceAll("\\", "/"))
  .filter((name) => name.endsWith(".glsl"))
  .sort();
const entries = files.map(
  (name) =>
    `  ${JSON.stringify(name.replace(/\.glsl$/, ""))}: ${JSON.stringify(readFileSync(join(here, name), "utf8"))},`,
);
const text = `// Written by shaders/pack.mjs from shaders/*.glsl; not under version control.\nexport const shaderFiles = {\n${entries.join("\n")}\n} as const;\n`;
mkdirSync(dirname(target), { recursive: true });
if (!existsSync(target) || readFileSync(target, "utf8") !== text) writeFileSync(target, text);
