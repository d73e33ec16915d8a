/** A pendant on elevation and section: profile, suspension and canopy, with drop, body and gap in one upright line. */

import type { SetOutBox } from "../app/schedule/set-out.ts";
import type { Vec2 } from "../geometry/vector.ts";
import type { Depicted } from "./depicted.ts";
import { line, segment, text } from "./drawing.ts";
import type { PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING } from "./running-string.ts";
import type { ElevationView } from "./set-out-elevation.ts";
import type { PlanWords } from "./set-out-plan.ts";
import { halfWidth, luminaireProfile } from "./silhouette.ts";

export function pendantMarks(
  box: SetOutBox,
  s: number,
  view: ElevationView,
  at: (s: number, z: number) => Vec2,
  perMetre: number,
  words: PlanWords,
  all: readonly { readonly box: SetOutBox; readonly s: number }[],
  shown: ElevationView,
  written: ReadonlySet<"drop" | "body" | "gap">,
): PaperMark[] {
  const h = box.heights;
  if (h === undefined) return [];
  const { luminaire } = box;
  const [x] = at(s, 0);
  const [ceiling, bodyTop, bottom, top] = [h.ceiling, h.bodyTop, h.bottom, h.top].map((z) => at(s, z)[1]);
  const half = luminaireProfile(luminaire);
  const lowest = Math.min(...half.map(([, z]) => z));
  const across = halfWidth(luminaire, view === "along" ? "x" : "y");
  const widest = Math.max(...half.map(([r]) => r));
  // A linear body is as long as it is; its profile's radius is stretched to the extent seen from this side.
  const stretch = widest > 0 ? across / widest : 1;
  const right = half.map(([r, z]): Vec2 => [x + r * stretch * perMetre, bottom - (z - lowest) * perMetre]);
  const left = [...right].reverse().map(([px, py]): Vec2 => [2 * x - px, py]);
  const canopy = luminaire.canopy;
  const marks: PaperMark[] = [
    segment(x, ceiling, x, bodyTop, "pendant suspension", "ink", 1),
    line([...right, ...left], "pendant body", "ink", 1.5, { closed: true, fill: "sheet" }),
  ];
  if (canopy !== undefined) {
    const [w, d] = [(canopy.diameter / 2) * perMetre, (canopy.height ?? 0.025) * perMetre];
    marks.push(
      line(
        [
          [x - w, ceiling],
          [x + w, ceiling],
          [x + w, ceiling + d],
          [x - w, ceiling + d],
        ],
        "pendant canopy",
        "ink",
        1,
        { closed: true, fill: "sheet" },
      ),
    );
  }
  const tags =
    shown === "across"
      ? all
          .filter((other) => Math.abs(other.s - s) < 0.02 && other.box.heights?.ceiling === h.ceiling)
          .map((other) => other.box.tag)
      : [box.tag];
  const name = tags.length > 2 ? `${tags[0]} to ${tags.at(-1)}` : tags.join(", ");
  const dimX = x + Math.min(across * perMetre + 10, 26);
  marks.push(
    text([x, Math.min(ceiling, bodyTop) - 6], name, "tag", {
      anchor: "middle",
      size: 8,
      strong: true,
      ink: "ink",
      ground: "sheet",
    }),
    // Drop, body and gap in one upright line beside the pendant.
    segment(dimX, ceiling, dimX, top, "dimension line", "ink", 0.75),
    ...[ceiling, bodyTop, bottom, top].map((y) =>
      segment(dimX - 2.5, y + 2.5, dimX + 2.5, y - 2.5, "dimension tick", "ink", 1),
    ),
    ...[bodyTop, bottom].map((y) => segment(x + 2, y, dimX + 3, y, "extension line", "hairline", 0.75)),
    ...(written.has("drop")
      ? [figure(dimX, ceiling, bodyTop, `drop ${words.dimension(h.drop)}`, "dimension drop")]
      : []),
    ...(written.has("body")
      ? [figure(dimX, bodyTop, bottom, words.dimension(h.body), "dimension body")]
      : []),
    ...(written.has("gap") ? [figure(dimX, bottom, top, words.dimension(h.gap), "dimension gap")] : []),
  );
  return marks;
}

/** A figure along its part of an upright dimension, with its name where there is room; beside it, alone, where it is
 * longer than its part. */
function figure(x: number, y0: number, y1: number, words: string, depicts: Depicted): PaperMark {
  const style = { size: LETTERING, ink: "ink", ground: "sheet" } as const;
  const middle = (y0 + y1) / 2;
  const alone = words.replace(/^drop /, "");
  const fits = (each: string): boolean => Math.abs(y1 - y0) > paperTextWidth(each, LETTERING) + 6;
  return fits(alone)
    ? text([x - 2.5, middle], fits(words) ? words : alone, depicts, { ...style, anchor: "middle", turn: -90 })
    : text([x + 4, middle + LETTERING * 0.36], alone, depicts, style);
}
