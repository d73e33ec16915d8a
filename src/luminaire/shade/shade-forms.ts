/**
 * The named forms of shades. To add one: a row here; documents, pick lists, silhouettes and the trace follow. Shapes of our own, common
 * silhouettes, no maker's.
 */

import { circle, curvedSide, graded, type ShadeForm, straightSide } from "./shade-form.ts";

const closedAbove = { openTop: false, lampInMiddle: false, closed: false };
const straight: Pick<ShadeForm, "rings"> = {
  rings: ({ radius, top, height }) => straightSide([radius, 0], [top, height]),
};

/** Keys are words of the study format. */
export const SHADE_FORMS = {
  cone: { ...closedAbove, ...straight, heightShare: 0.8, topShare: 0.25 },
  dome: {
    ...closedAbove,
    heightShare: 0.6,
    topShare: 0.25,
    // A quarter ellipse, cut where it has shrunk to the top's radius.
    rings({ radius, top, height }) {
      const end = Math.acos(Math.min(1, Math.max(0, top / radius)));
      return curvedSide(
        (t) => (height * Math.sin(graded(t) * end)) / Math.sin(end),
        (z) => radius * circle((z * Math.sin(end)) / height),
      );
    },
  },
  drum: { ...closedAbove, ...straight, heightShare: 0.7, topShare: 0.9, openTop: true },
  cylinder: {
    ...closedAbove,
    heightShare: 1.6,
    topShare: 1,
    rings: ({ radius, height }) => straightSide([radius, 0], [radius, height]),
  },
  globe: {
    heightShare: 1,
    topShare: 0,
    openTop: false,
    lampInMiddle: true,
    closed: true,
    rings: ({ radius, height }) =>
      curvedSide(
        (t) => (height / 2) * (1 - Math.cos(Math.PI * t)),
        (z) => radius * circle((2 * z) / height - 1),
        32,
      ),
  },
  bowl: {
    heightShare: 0.4,
    topShare: 0,
    openTop: true,
    lampInMiddle: true,
    closed: false,
    // A half-ellipse hanging from its rim.
    rings: ({ radius, height }) =>
      curvedSide(
        (t) => height * (1 - Math.cos((t * Math.PI) / 2)),
        (z) => radius * circle(z / height - 1),
      ),
  },
  bell: {
    ...closedAbove,
    heightShare: 0.75,
    topShare: 0.2,
    // A cosine flare: wide and slack at the rim, narrow and steep above.
    rings: ({ radius, top, height }) =>
      curvedSide(
        (t) => height * graded(t),
        (z) => top + (radius - top) * (1 - Math.sin(((z / height) * Math.PI) / 2)) ** 1.2,
      ),
  },
  disc: { ...closedAbove, ...straight, heightShare: 0.12, topShare: 0.3 },
} satisfies Record<string, ShadeForm>;

export type ShadeFormName = keyof typeof SHADE_FORMS;

/** What a shade's `profile` may be called: the forms of revolution, and the linear housing. */
export const SHADE_PROFILES = [...(Object.keys(SHADE_FORMS) as ShadeFormName[]), "linear"] as const;

export type ShadeProfileName = (typeof SHADE_PROFILES)[number];
