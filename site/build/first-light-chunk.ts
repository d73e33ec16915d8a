import { dirname, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

const slashes = (path: string): string => path.replaceAll("\\", "/");
/** Folder of the app's own modules, wherever the project lies. */
const SITE = slashes(fileURLToPath(new URL("..", import.meta.url)));
/** The app's modules of functions alone that chunks loaded later share; each would else be a file of its own. */
const SHARED = /\/site\/(components\/(typed-value|words)|store\/pointer|storage\/embedded)\.ts$/;
/** The library's entry for applications: a list of exports, of which a module needs those that it names. */
const APP_ENTRY = slashes(fileURLToPath(new URL("../../src/app.ts", import.meta.url)));

/** Notes what the first light needs once the modules are known, before they are put into chunks.
 * @param needed everything the entry needs for it, found by following its static imports */
function neededFor(entry: string, needed: Set<string>): Plugin {
  return {
    name: "first-light-chunk",
    apply: "build",
    buildEnd() {
      const codeOf = (id: string): string => this.getModuleInfo(id)?.code ?? "";
      const homes = exportedFrom(
        codeOf([...this.getModuleIds()].find((id) => slashes(id) === APP_ENTRY) ?? ""),
      );
      const waiting = [...this.getModuleIds()].filter((id) => slashes(id).endsWith(entry));
      for (const id of waiting) {
        if (needed.has(id)) continue;
        needed.add(id);
        for (const imported of this.getModuleInfo(id)?.importedIds ?? []) {
          if (slashes(imported) !== APP_ENTRY) waiting.push(imported);
          else waiting.push(...namedImports(codeOf(id)).map((name) => homes.get(name) ?? imported));
        }
      }
    },
  };
}

/** Module of each name that an entry hands on by `export { … } from`. */
function exportedFrom(code: string): ReadonlyMap<string, string> {
  const homes = new Map<string, string>();
  for (const [, names, from] of code.matchAll(/export\s*\{([^}]*)\}\s*from\s*"([^"]+)"/g))
    for (const name of names.split(","))
      homes.set(name.trim().split(" as ").at(-1) ?? "", resolve(dirname(APP_ENTRY), from));
  return homes;
}

/** Names that a module imports from the entry for applications. */
function namedImports(code: string): string[] {
  return [...code.matchAll(/import\s*\{([^}]*)\}\s*from\s*"[^"]*\/src\/app\.ts"/g)].flatMap(([, names]) =>
    names.split(",").map((name) => name.trim().split(" as ")[0]),
  );
}

/** Packs what an entry needs for its first light into one file instead of a dozen small ones that compress badly and
 * are asked for one by one. Of the app's own modules only those that other chunks share: the rest runs when loaded. */
export function firstLightChunk(entry: string) {
  const needed = new Set<string>();
  return {
    plugin: neededFor(entry, needed),
    group: {
      name: "first-light",
      test: (id: string): boolean =>
        needed.has(id) && (!slashes(id).startsWith(SITE) || SHARED.test(slashes(id))),
    },
  };
}
