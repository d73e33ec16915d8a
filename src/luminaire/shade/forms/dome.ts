import { circle, curvedSide, graded, type ShadeForm } from "../shade-form.ts";

/** A quarter ellipse, cut where it has shrunk to the top's radius. */
export const dome: ShadeForm = {
  heightShare: 0.6,
  topShare: 0.25,
  openTop: false,
  lampInMiddle: false,
  closed: false,
  rings({ radius, top, height }) {
    const end = Math.acos(Math.min(1, Math.max(0, top / radius)));
    return curvedSide(
      (t) => (height * Math.sin(graded(t) * end)) / Math.sin(end),
      (z) => radius * circle((z * Math.sin(end)) / height),
    );
  },
};
