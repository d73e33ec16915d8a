/** Boxes on the set-out plan: a symbol each, the body of what hangs at its size, and a tag clear of its neighbours. */

import { BOX_WIDTH } from "../advice/clashes/ceiling-clashes.ts";
import type { SetOutBox } from "../app/schedule/set-out.ts";
import { printable } from "../diagnostics/printable.ts";
import type { Vec2 } from "../geometry/vector.ts";
import { planExtents } from "../luminaire/plan-extent.ts";
import type { Scene } from "../scene/scene.ts";
import { degrees } from "../units/quantities.ts";
import { type Box, line, overlaps, segment, text } from "./drawing.ts";
import { circle, type PaperMark } from "./paper/paper.ts";
import { paperTextWidth } from "./paper/paper-text.ts";
import { LETTERING } from "./running-string.ts";

const TAG = 8;

type Place = readonly [at: Vec2, anchor: "start" | "middle" | "end"];

/** What a box's symbol and body cover around its centre (points). */
export function symbolRadius(box: SetOutBox, perMetre: number): number {
  const extent = Math.max(...planExtents(box.luminaire)) / 2;
  return box.kind === "pendant"
    ? Math.max(4, (BOX_WIDTH / 2) * perMetre, Math.min(extent, 0.3) * perMetre)
    : Math.max(3.4, extent * perMetre);
}

export function boxMarks(
  scene: Scene,
  box: SetOutBox,
  at: (p: Vec2) => Vec2,
  perMetre: number,
  taken: Box[],
  own: number,
  held: boolean,
): PaperMark[] {
  const attributes = boxAttributes(scene, box, held);
  const centre = at(box.at);
  const [length, width] = planExtents(box.luminaire);
  const symbol = Math.max(4, (BOX_WIDTH / 2) * perMetre);
  const marks: PaperMark[] = [];
  if (box.kind === "pendant") {
    const { rotation } = scene.layers[box.layer].luminaires[box.index].frame;
    const heading = Math.atan2(rotation[1], rotation[0]);
    const body = box.luminaire.body;
    if (Math.abs(length - width) < 1e-6 && body?.profile !== "box")
      marks.push(circle(centre, Math.max(symbol, (length / 2) * perMetre), "pendant body", { weight: 1 }));
    else {
      const [c, s] = [Math.cos(heading), Math.sin(heading)];
      const corner = (u: number, v: number): Vec2 => {
        const [a, b] = [(u * Math.max(length, 0.06)) / 2, (v * Math.max(width, 0.06)) / 2];
        return at([box.at[0] + c * a - s * b, box.at[1] + s * a + c * b]);
      };
      marks.push(
        line([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)], "pendant body", "ink", 1, {
          closed: true,
        }),
      );
    }
    marks.push(
      { ...circle(centre, symbol, "pendant box", { weight: 1, fill: "sheet" }), attributes },
      line(
        [
          [centre[0] - symbol, centre[1]],
          [centre[0] + symbol, centre[1]],
        ],
        "pendant cross",
        "ink",
        0.75,
      ),
      line(
        [
          [centre[0], centre[1] - symbol],
          [centre[0], centre[1] + symbol],
        ],
        "pendant cross",
        "ink",
        0.75,
      ),
    );
  } else if (box.kind === "fixed") {
    const d = 3.2;
    const [x, y] = centre;
    marks.push(
      line(
        [
          [x - d, y - d],
          [x + d, y - d],
          [x + d, y + d],
          [x - d, y + d],
        ],
        "fixed mark",
        "ink",
        1,
        { closed: true, fill: "sheet" },
      ),
    );
  } else {
    const radius = Math.max(3.4, (Math.max(length, width) / 2) * perMetre);
    marks.push(
      { ...circle(centre, radius, "recessed box", { weight: 1, fill: "sheet" }), attributes },
      circle(centre, radius / 2, "recessed ring", { weight: 0.75 }),
    );
  }
  const { circuit } = scene.layers[box.layer];
  if (held) marks.push(circle(centre, symbol + 4, "clash", { weight: 1.5 }));
  const words = `${box.tag}${circuit === undefined ? "" : ` · ${printable(circuit, 8)}`}${held ? " HOLD" : ""}`;
  const reach = Math.max(symbol, box.kind === "pendant" ? (Math.max(length, width) / 2) * perMetre : 0) + 2;
  const size = box.kind === "pendant" ? TAG : LETTERING;
  const w = paperTextWidth(words, size, box.kind === "pendant");
  const d = reach * 0.72;
  const above: Place = [[centre[0], centre[1] - reach - 2], "middle"];
  const beside: readonly Place[] = [
    [[centre[0] + d, centre[1] - d], "start"],
    [[centre[0] - d, centre[1] - d], "end"],
    [[centre[0] + d, centre[1] + d + size * 0.7], "start"],
    [[centre[0] - d, centre[1] + d + size * 0.7], "end"],
    [[centre[0], centre[1] + reach + size], "middle"],
  ];
  // Pendants stand in rows along the island: above them there is room.
  const places = box.kind === "pendant" ? [above, ...beside] : [...beside, above];
  const boxOf = ([[x, y], anchor]: Place): Box => ({
    x: x - (anchor === "middle" ? w / 2 : anchor === "end" ? w : 0),
    y: y - size * 0.8,
    width: w,
    height: size,
  });
  const place =
    places.find((each) => !taken.some((other, k) => k !== own && overlaps(boxOf(each), other, 1))) ??
    places[0];
  taken.push(boxOf(place));
  marks.push(
    text(place[0], words, "tag", {
      anchor: place[1],
      size,
      strong: box.kind === "pendant",
      ink: "ink",
      ground: "sheet",
    }),
  );
  return marks;
}

/** What a CAD file keeps of a box: enough to hang and aim it again (metres from the datum, degrees). */
function boxAttributes(
  scene: Scene,
  { tag, type, layer, at, height, heights, orientation, aim }: SetOutBox,
  held: boolean,
): Readonly<Record<string, string>> {
  const angle = (radians: number): string => String(Number(degrees(radians).toFixed(10)) + 0);
  const metres = (value: number | undefined): string =>
    value === undefined ? "" : String(Number(value.toFixed(4)));
  return {
    TAG: tag,
    TYPE: type,
    CIRCUIT: printable(scene.layers[layer].circuit ?? "", 40),
    X_M: metres(at[0]),
    Y_M: metres(at[1]),
    BOTTOM_M: metres(heights?.bottom ?? height),
    TURN_DEG: angle(orientation.turn),
    TILT_DEG: angle(orientation.tilt),
    SPIN_DEG: angle(orientation.spin),
    AIM_X_M: metres(aim?.[0]),
    AIM_Y_M: metres(aim?.[1]),
    AIM_Z_M: metres(aim?.[2]),
    HOLD: held ? "HOLD" : "",
  };
}

export function datum(): PaperMark[] {
  return [
    circle([0, 0], 5, "datum", { weight: 1, fill: "sheet" }),
    segment(-8, 0, 8, 0, "datum", "ink", 0.75),
    segment(0, -8, 0, 8, "datum", "ink", 0.75),
    text([-9, 14], "DATUM 0", "datum", { anchor: "end", size: LETTERING, strong: true, ink: "ink" }),
  ];
}
