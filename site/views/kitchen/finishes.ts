/** What the surfaces reflect, and what is left of the light when it has aged. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { shareField } from "../../components/share-field.ts";
import type { Path } from "../../store/pointer.ts";
import { part } from "./part.ts";

export function finishesPart(app: AppView): TemplateResult {
  const share = (label: string, path: Path, fallback: number): TemplateResult =>
    shareField(app, { label, path, change: `${label.toLowerCase()} reflect`, fallback, as: "ratio" });
  const walls = app.study.room.reflectance?.walls;
  return part(
    "finishes",
    "Finishes: light reflected",
    html`<div class="fields">
      ${share("Ceiling", ["room", "reflectance", "ceiling"], 0.8)}
      ${
        Array.isArray(walls)
          ? walls.map((_, i) => share(`Wall ${i}`, ["room", "reflectance", "walls", i], 0.5))
          : share("Walls", ["room", "reflectance", "walls"], 0.5)
      }
      ${share("Floor", ["room", "reflectance", "floor"], 0.2)}
      ${
        app.study.island === undefined
          ? nothing
          : html`${share("Island top", ["island", "reflectance", "top"], 0.35)}
            ${share("Island sides", ["island", "reflectance", "sides"], 0.5)}`
      }
      ${
        typeof app.study.maintenance === "object"
          ? nothing
          : shareField(app, {
              label: "Maintenance factor",
              path: ["maintenance"],
              change: "maintenance",
              fallback: 0.8,
              as: "ratio",
              from: 1,
              hint: "What is left of the light when lamps and surfaces have aged.",
            })
      }
    </div>`,
  );
}
