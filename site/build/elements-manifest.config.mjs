import { readFileSync } from "node:fs";
import { customProperties, elementText, MEANINGS } from "./custom-properties.mjs";

/** The analyzer lists files in whatever order the disk answers; the manifest holds them by path, so that every build writes the same bytes. */
export default {
  litelement: true,
  globs: ["src/elements/**/*.ts"],
  outdir: "dist",
  plugins: [
    {
      name: "custom-properties-of-styles",
      packageLinkPhase({ customElementsManifest: { modules } }) {
        const elements = modules.filter(({ path }) => path.startsWith("src/elements/"));
        const sources = elements.map(({ path }) => readFileSync(path, "utf8"));
        elements.forEach(({ declarations = [] }, i) => {
          for (const declaration of declarations)
            if (declaration.tagName !== undefined)
              declaration.cssProperties = customProperties(elementText(sources[i]), sources).map((name) => ({
                name,
                description: MEANINGS[name],
              }));
        });
      },
    },
    {
      name: "modules-by-path",
      packageLinkPhase({ customElementsManifest }) {
        customElementsManifest.modules.sort((a, b) => (a.path < b.path ? -1 : 1));
      },
    },
  ],
};
