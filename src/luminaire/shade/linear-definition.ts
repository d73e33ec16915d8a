/** Strip and linear housing: from what a study says to what is computed, every assumption named. */

import type { Ledger } from "../../diagnostics/ledger.ts";
import { phrase } from "../../diagnostics/phrase.ts";
import type { LinearHousing } from "./linear.ts";
import type { LampDocument, ShadeDocument } from "./shade-document.ts";
import { surfaceOf } from "./surface-definition.ts";

const FAULT = "shade-definition";

export interface LinearAssembly {
  readonly kind: "linear";
  readonly housing: LinearHousing;
  readonly flux: number;
}

/** Resolves a strip in a linear housing. */
export function resolveLinear(lamp: LampDocument, shade: ShadeDocument, log: Ledger): LinearAssembly {
  const needed = (key: "length" | "width", given: number | undefined): number => {
    if (given === undefined)
      log.error(
        FAULT,
        `/shade/${key}`,
        `The linear housing has no ${key}.`,
        `the ${key} of its mouth`,
        "nothing",
      );
    return given ?? 1;
  };
  const length = needed("length", shade.length);
  const width = needed("width", shade.width);
  const depth = log.fill(
    shade.height,
    "/shade/height",
    width / 2,
    "strip half the mouth's width above it (common practice, no source)",
  );
  const strip = log.fill(
    lamp.diameter,
    "/lamp/diameter",
    Math.min(0.02, width),
    "a light strip 20 mm wide (common practice, no source)",
  );
  if (strip > width)
    log.error(
      FAULT,
      "/lamp/diameter",
      "The strip is wider than the housing's mouth.",
      phrase`at most ${width}`,
      [strip],
    );
  const finish = log.fill(
    shade.finish,
    "/shade/finish",
    "white",
    "the commonest inside of a linear pendant (common practice, no source)",
  );
  const bottom = log.fill(
    shade.bottom,
    "/shade/bottom",
    "diffuser",
    "an opal cover (common practice, no source)",
  );
  return {
    kind: "linear",
    housing: {
      length,
      width,
      depth,
      strip,
      inside: surfaceOf(shade.inside, finish),
      cover: bottom === "open" ? undefined : surfaceOf(shade.diffuser, "opal plastic"),
    },
    flux: lamp.flux * (lamp.count ?? 1),
  };
}
