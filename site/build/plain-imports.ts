import type { Plugin } from "vite";

/** What the bundler puts around an import of a chunk, to load its styles before it. */
const HELPER = "\0vite/preload-helper.js";

/** Imports chunks as they are: no chunk of the site brings styles of its own, and the loader of styles would weigh on the
 * first light. A chunk that does is an error of the build. */
export function plainImports(): Plugin {
  return {
    name: "plain-imports",
    apply: "build",
    enforce: "pre",
    load: (id) => (id === HELPER ? "export const __vitePreload = (load) => load();" : undefined),
    generateBundle(_options, bundle) {
      const hasStyles = (file: string): boolean => {
        const chunk = bundle[file];
        return chunk?.type === "chunk" && (chunk.viteMetadata?.importedCss.size ?? 0) > 0;
      };
      for (const chunk of Object.values(bundle))
        if (chunk.type === "chunk" && chunk.isDynamicEntry)
          for (const file of [chunk.fileName, ...chunk.imports].filter(hasStyles))
            this.error(`${file} brings styles of its own: import them where the page starts.`);
    },
  };
}
