/** What a person's own shadow costs, in words and as plain JSON. */

import type { BodyShadow } from "../../assessment/body-shadow.ts";
import { printable } from "../../diagnostics/printable.ts";
import { formatIlluminance } from "../../units/illuminance-text.ts";
import { formatLength } from "../../units/length-text.ts";

/** One line a zone, person and posture. Names from the study are made safe to print. */
export function bodyShadowText(
  shadows: readonly BodyShadow[],
  display: { readonly length: "mm" | "m" | "ft-in"; readonly illuminance: "lx" | "fc" },
): string {
  if (shadows.length === 0) return "";
  const lines = shadows.map((shadow) => {
    const { worst } = shadow;
    const layers = shadow.layers.map(({ layer, lost }) => `${printable(layer)} ${percent(lost)}`).join(", ");
    const who = shadow.standIn
      ? `a cook of ${formatLength(shadow.stature, display.length)}`
      : printable(shadow.person);
    const place = `x ${formatLength(worst.position[0], display.length)}, y ${formatLength(worst.position[1], display.length)}`;
    const light = (lux: number) => formatIlluminance(lux, display.illuminance);
    return (
      `  ${printable(shadow.zone)}, ${who} ${shadow.posture}${shadow.usual ? "" : " (not the usual posture)"}:` +
      ` ${light(shadow.without)} to ${light(shadow.with)}, ${percent(shadow.lost)} lost (${layers});` +
      ` worst for the hand at ${place}: ${light(worst.without)} to ${light(worst.with)}, ${percent(worst.lost)} lost`
    );
  });
  return [
    "Body shadow: the light left within reach of whoever stands there, against nobody there (no arms, no hair)",
    ...lines,
    "",
  ].join("\n");
}

/** Plain data, metres and lux; `map` only when wanted. */
export function bodyShadowJson(shadows: readonly BodyShadow[], map = false): object[] {
  return shadows.map((shadow) => ({
    zone: shadow.zone,
    person: shadow.person,
    standIn: shadow.standIn,
    stature: shadow.stature,
    posture: shadow.posture,
    usual: shadow.usual,
    without: shadow.without,
    with: shadow.with,
    lost: shadow.lost,
    layers: shadow.layers.map(({ layer, lost, lostDirect }) => ({ layer, lost, lostDirect })),
    worst: {
      position: [...shadow.worst.position],
      without: shadow.worst.without,
      with: shadow.worst.with,
      lost: shadow.worst.lost,
    },
    ...(map
      ? {
          map: {
            points: Array.from({ length: shadow.map.lost.length }, (_, i) => [
              ...shadow.map.plane.points.subarray(3 * i, 3 * i + 3),
            ]),
            lost: [...shadow.map.lost],
            within: [...shadow.map.within].map((flag) => flag === 1),
          },
        }
      : {}),
  }));
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
