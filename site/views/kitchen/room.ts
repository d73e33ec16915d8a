/** The room: its size, its ceiling, and what a smaller one leaves outside. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { lengthField, numberField } from "../../components/fields.ts";
import { part } from "./part.ts";
import { roomOffer } from "./room-offer.ts";
import { WALL_NAMES } from "./walls.ts";

export function roomPart(app: AppView): TemplateResult {
  const length = (key: string, label: string): TemplateResult =>
    lengthField(app, {
      label,
      path: ["room", key],
      change: key === "ceilingHeight" ? "ceiling height" : `room ${key}`,
    });
  const slope = app.read(["room", "ceiling", "slope"]);
  return part(
    "room",
    "Room",
    html`<div class="fields">
        ${length("length", "Length")} ${length("width", "Width")} ${length("ceilingHeight", "Ceiling height")}
        ${lengthField(app, {
          label: "Clear height above the ceiling",
          path: ["room", "ceilingVoid"],
          change: "clear height above the ceiling",
          optional: true,
          hint: "For what is set into the ceiling. Empty: not known.",
        })}
        ${numberField(app, {
          label: "Ceiling slope",
          path: ["room", "ceiling", "slope"],
          change: "ceiling slope",
          from: 0,
          to: 60,
          unit: "°",
          fallback: 0,
          optional: true,
        })}
        ${
          typeof slope === "number" && slope > 0
            ? numberField(app, {
                label: "Rises towards",
                path: ["room", "ceiling", "towards"],
                change: "ceiling rises towards",
                from: -360,
                to: 360,
                unit: "°",
                fallback: 0,
                hint: `0° towards ${WALL_NAMES[1].toLowerCase()}, 90° towards ${WALL_NAMES[2].toLowerCase()}.`,
              })
            : nothing
        }
      </div>
      ${roomOffer(app)}`,
  );
}
