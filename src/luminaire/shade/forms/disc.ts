import { type ShadeForm, straightSide } from "../shade-form.ts";

/** A shallow dish. */
export const disc: ShadeForm = {
  heightShare: 0.12,
  topShare: 0.3,
  openTop: false,
  lampInMiddle: false,
  closed: false,
  rings: ({ radius, top, height }) => straightSide([radius, 0], [top, height]),
};
