/** What the surfaces reflect, and what is left of the light when it has aged. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { shareField } from "../../components/share-field.ts";
import type { Path } from "../../store/pointer.ts";
import { part } from "./part.ts";
import { SHORT_WALL_NAMES } from "./walls.ts";

export function finishesPart(app: AppView): TemplateResult {
  const share = (label: string, path: Path): TemplateResult =>
    shareField(app, { label, path, change: `${label.toLowerCase()} reflect`, as: "ratio" });
  const walls = app.study.room.reflectance?.walls;
  return part(
    "finishes",
    "Finishes: light reflected",
    html`<div class="fields">
      ${share("Ceiling", ["room", "reflectance", "ceiling"])}
      ${
        Array.isArray(walls)
          ? walls.map((_, i) => share(SHORT_WALL_NAMES[i], ["room", "reflectance", "walls", i]))
          : share("Walls", ["room", "reflectance", "walls"])
      }
      ${share("Floor", ["room", "reflectance", "floor"])}
      ${
        app.study.island === undefined
          ? nothing
          : html`${share("Island top", ["island", "reflectance", "top"])}
            ${share("Island sides", ["island", "reflectance", "sides"])}`
      }
      ${
        typeof app.study.maintenance === "object"
          ? nothing
          : shareField(app, {
              label: "Maintenance factor",
              path: ["maintenance"],
              change: "maintenance",
              as: "ratio",
              from: 1,
              hint: "What is left of the light when lamps and surfaces have aged.",
            })
      }
    </div>`,
  );
}
