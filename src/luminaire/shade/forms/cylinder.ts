import { type ShadeForm, straightSide } from "../shade-form.ts";

export const cylinder: ShadeForm = {
  heightShare: 1.6,
  topShare: 1,
  openTop: false,
  lampInMiddle: false,
  closed: false,
  rings: ({ radius, height }) => straightSide([radius, 0], [radius, height]),
};
