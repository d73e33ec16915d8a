import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

/** Folder of the app's own modules, wherever the project lies. */
const SITE = fileURLToPath(new URL("..", import.meta.url)).replaceAll("\\", "/");

/** Everything the page needs for its first light, found by following the static imports of its entry. */
const needed = new Set<string>();

/** Notes what the first light needs once the modules are known, before they are put into chunks. */
export function firstLightChunk(entry: string): Plugin {
  return {
    name: "first-light-chunk",
    apply: "build",
    buildEnd() {
      const waiting = [...this.getModuleIds()].filter((id) => id.replaceAll("\\", "/").endsWith(entry));
      for (const id of waiting) {
        if (needed.has(id)) continue;
        needed.add(id);
        waiting.push(...(this.getModuleInfo(id)?.importedIds ?? []));
      }
    },
  };
}

/** Packs it into one file instead of a dozen small ones that compress badly and are asked for one by one. The
 * app's own modules stay out: they run when loaded, and other pages share the rest. */
export const FIRST_LIGHT_GROUP = {
  name: "first-light",
  test: (id: string): boolean => needed.has(id) && !id.replaceAll("\\", "/").startsWith(SITE),
};
