/** What a person's own shadow costs, in words. */

import type { BodyShadow } from "../advice/body-shadow.ts";
import { printable } from "../diagnostics/printable.ts";
import type { Wording } from "./wording.ts";

/** A heading, then one line for each person at each zone; none without shadows. Names from the study are made safe
 * to print. */
export function bodyShadowLines(shadows: readonly BodyShadow[], words: Wording): string[] {
  if (shadows.length === 0) return [];
  const together = new Map<string, BodyShadow[]>();
  for (const shadow of shadows) {
    const key = JSON.stringify([shadow.zone, shadow.person, shadow.standIn]);
    together.set(key, [...(together.get(key) ?? []), shadow]);
  }
  const lines = [...together.values()].map((postures) => {
    const usualPosture = postures.find(({ usual }) => usual) ?? postures[0];
    const who = usualPosture.standIn
      ? `a cook of ${words.length(usualPosture.stature)}`
      : printable(usualPosture.person);
    const each = postures.map(
      ({ posture, lost, usual }) => `${posture}${usual ? " (usual)" : ""} ${percent(lost)}`,
    );
    const layers = usualPosture.layers.map(({ layer, lost }) => `${printable(layer)} ${percent(lost)}`);
    const [x, y] = usualPosture.worst.position;
    return (
      `${printable(usualPosture.zone)}, ${who}: lost ${each.join(", ")}; ${usualPosture.posture}, ${words.light(usualPosture.without)} becomes` +
      ` ${words.light(usualPosture.with)} (${layers.join(", ")} lost); the hand is worst off at x ${words.length(x)}, y ${words.length(y)}:` +
      ` ${words.light(usualPosture.worst.without)} becomes ${words.light(usualPosture.worst.with)}, ${percent(usualPosture.worst.lost)} lost`
    );
  });
  return [
    "Own shadow within reach of whoever stands there, against nobody there (no arms, no hair):",
    ...lines,
  ];
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
