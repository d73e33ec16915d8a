/** Strip and linear housing: from what a study says to what is computed, every assumption named. */

import type {
  Assumption,
  DefinitionFault,
  Faulty,
  LampDocument,
  LinearAssembly,
  ShadeDocument,
} from "./definition.ts";
import { surfaceOf } from "./surface-definition.ts";

/** Resolves a strip in a linear housing; faults instead where it cannot be. */
export function resolveLinear(lamp: LampDocument, shade: ShadeDocument): LinearAssembly | Faulty {
  const assumptions: Assumption[] = [];
  const faults: DefinitionFault[] = [];
  const needed = (key: "length" | "width", given: number | undefined): number => {
    if (given === undefined) {
      faults.push({
        key: `/shade/${key}`,
        message: `The linear housing has no ${key}.`,
        expected: `the ${key} of its mouth`,
        received: "nothing",
      });
    }
    return given ?? 1;
  };
  const length = needed("length", shade.length);
  const width = needed("width", shade.width);
  let depth = shade.height;
  if (depth === undefined) {
    depth = width / 2;
    assumptions.push({
      key: "/shade/height",
      value: depth,
      why: "strip half the mouth's width above it (common practice, no source)",
    });
  }
  let strip = lamp.diameter;
  if (strip === undefined) {
    strip = Math.min(0.02, width);
    assumptions.push({
      key: "/lamp/diameter",
      value: strip,
      why: "a light strip 20 mm wide (common practice, no source)",
    });
  }
  if (strip > width) {
    faults.push({
      key: "/lamp/diameter",
      message: "The strip is wider than the housing's mouth.",
      expected: `at most ${width} m`,
      received: `${strip} m`,
    });
  }
  let finish = shade.finish;
  if (finish === undefined) {
    finish = "white";
    assumptions.push({
      key: "/shade/finish",
      value: finish,
      why: "the commonest inside of a linear pendant (common practice, no source)",
    });
  }
  const covered = (shade.bottom ?? "diffuser") !== "open";
  if (shade.bottom === undefined) {
    assumptions.push({
      key: "/shade/bottom",
      value: "diffuser",
      why: "an opal cover (common practice, no source)",
    });
  }
  if (faults.length > 0) return { kind: "faulty", faults };
  return {
    kind: "linear",
    housing: {
      length,
      width,
      depth,
      strip,
      inside: surfaceOf(shade.inside, finish),
      cover: covered ? surfaceOf(shade.diffuser, "opal plastic") : undefined,
    },
    flux: lamp.flux * (lamp.count ?? 1),
    assumptions,
  };
}
