/**
 * The luminous opening from TM-33 emission areas: bottom and top faces give length and width, side faces the
 * height. Extents in metres, length along C0–C180. Offsets are not followed; the opening stands at the centre.
 */

import { type LuminousOpening, uprightOpening } from "../luminous-opening.ts";
import { parseNumber } from "./number-scanner.ts";
import type { SourceText } from "./source-text.ts";
import { child, textOf, type XmlElement } from "./xml.ts";

export function tm33Opening(emitters: readonly XmlElement[], source: SourceText): LuminousOpening {
  let length = 0;
  let width = 0;
  let height = 0;
  let circular = false;
  for (const areas of emitters.map((emitter) => child(emitter, "EmissionAreas"))) {
    for (const face of areas?.children ?? []) {
      for (const area of areasOf(face)) {
        const extent = (name: string) => Math.max(0, parseNumber(textOf(area, name)) ?? 0);
        const flat = /^(top|bottom)/i.test(face.name);
        if (flat || /^C(0|180)/i.test(face.name)) width = Math.max(width, extent("Width"));
        if (flat || /^C(90|270)/i.test(face.name)) length = Math.max(length, extent("Length"));
        if (!flat) height = Math.max(height, extent("Height"));
        circular ||= /^(true|1)$/i.test(textOf(area, "Circular"));
      }
    }
  }
  const opening = uprightOpening(circular, length, width, height);
  if (opening.shape === "point")
    source.warn(
      emitters[0].at,
      "tm33-no-emission-area",
      "No emission area is stated; the luminaire is a point.",
    );
  return opening;
}

/** A face holds areas; where it holds extents itself, it is its own area. */
function areasOf(face: XmlElement): readonly XmlElement[] {
  const areas = face.children.filter(({ name }) => /Area$/i.test(name));
  return areas.length > 0 ? areas : [face];
}
