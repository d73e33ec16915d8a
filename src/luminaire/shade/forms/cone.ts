import { type ShadeForm, straightSide } from "../shade-form.ts";

export const cone: ShadeForm = {
  heightShare: 0.8,
  topShare: 0.25,
  openTop: false,
  lampInMiddle: false,
  closed: false,
  rings: ({ radius, top, height }) => straightSide([radius, 0], [top, height]),
};
