/** `14`; `≥ 14` where some luminaires, `unknown` of them, did not state their watts: the rest is the least it can be. */
export function powerFigure(
  watts: number,
  unknown: number,
  least: "≥" | "at least" = "≥",
  decimals = 0,
): string {
  return `${unknown > 0 ? `${least} ` : ""}${Number(watts.toFixed(decimals))}`;
}
