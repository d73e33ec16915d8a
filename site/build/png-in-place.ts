import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

const UNZLIB = fileURLToPath(new URL("./unzlib-in-place.ts", import.meta.url));

/** The reader of PNGs inside the PDF writer unpacks in a worker made from text, which the page's security policy refuses:
 * a picture with transparency would wait for ever. It is given a function that unpacks where it is called. */
export function pngInPlace(): Plugin {
  return {
    name: "png-in-place",
    enforce: "pre",
    resolveId: (source, importer) =>
      source === "fflate" && importer?.replaceAll("\\", "/").includes("/png-js/") === true
        ? UNZLIB
        : undefined,
  };
}
