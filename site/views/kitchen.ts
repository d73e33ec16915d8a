/** Kitchen: the brief and the room. The island, what stands around it, who works where and to which target. */

import { html } from "lit";
import { holdReturn } from "./hold-return.ts";
import { bodiesPart } from "./kitchen/bodies.ts";
import { defaultsPart } from "./kitchen/defaults.ts";
import { finishesPart } from "./kitchen/finishes.ts";
import { islandPart } from "./kitchen/island.ts";
import { openingsPart } from "./kitchen/openings.ts";
import { peoplePart } from "./kitchen/people.ts";
import { roomPart } from "./kitchen/room.ts";
import { zonesPart } from "./kitchen/zones.ts";
import type { View } from "./view.ts";

export const kitchen: View = {
  controls: (app) => html`
    ${holdReturn(app)} ${islandPart(app)} ${zonesPart(app)} ${roomPart(app)} ${bodiesPart(app)} ${openingsPart(app)} ${peoplePart(app)}
    ${finishesPart(app)} ${defaultsPart(app)}
  `,
};
