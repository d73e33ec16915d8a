/** The bodies of hung and recessed luminaires as solids that stand in the way of light. */

import { placed } from "../geometry/solids.ts";
import { bodyMesh } from "../luminaire/body-mesh.ts";
import type { Blocker, Layer } from "./scene.ts";

/** Bodies of all luminaires that have one; each knows whose light it does not block. */
export function luminaireBlockers(layers: readonly Layer[]): Blocker[] {
  return layers.flatMap(({ name, luminaires }, layer) =>
    luminaires.flatMap(({ luminaire, frame }, i): Blocker[] => {
      const { body, emission } = luminaire;
      if (body === undefined) return [];
      return [
        {
          name: `${name} ${i + 1}`,
          kind: "pendant",
          mesh: placed(bodyMesh(body, emission.opening), frame),
          // Light that a body scatters is sent on by the body, not let through.
          transmittance: body.seeThrough ?? body.transmittance,
          owner: [layer, i],
        },
      ];
    }),
  );
}
