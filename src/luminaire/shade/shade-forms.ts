/** The named forms of shades. To add one: its file under `forms/`, and a line here. */

import { bell } from "./forms/bell.ts";
import { bowl } from "./forms/bowl.ts";
import { cone } from "./forms/cone.ts";
import { cylinder } from "./forms/cylinder.ts";
import { disc } from "./forms/disc.ts";
import { dome } from "./forms/dome.ts";
import { drum } from "./forms/drum.ts";
import { globe } from "./forms/globe.ts";
import type { ShadeForm } from "./shade-form.ts";

/** Keys are words of the study format. */
export const SHADE_FORMS = { cone, dome, drum, cylinder, globe, bowl, bell, disc } satisfies Record<
  string,
  ShadeForm
>;

export type ShadeFormName = keyof typeof SHADE_FORMS;

/** What a shade's `profile` may be called: the forms of revolution, and the linear housing. */
export const SHADE_PROFILES = [...(Object.keys(SHADE_FORMS) as ShadeFormName[]), "linear"] as const;

export type ShadeProfileName = (typeof SHADE_PROFILES)[number];
