/**
 * The palette and type of every element, as custom properties an embedding page may set.
 *
 * Each colour is a pair, day and evening, chosen by `color-scheme`: an element follows the page, or its own
 * `mode` attribute.
 */
import { css } from "lit";

export const tokens = css`
  :host {
    --_paper: var(--candlespan-paper, light-dark(#faf7f1, #171510));
    --_sheet: var(--candlespan-sheet, light-dark(#fffdf9, #1f1c16));
    --_ink: var(--candlespan-ink, light-dark(#24211c, #eee7da));
    --_quiet: var(--candlespan-quiet, light-dark(#6b6458, #a79e8d));
    --_hairline: var(--candlespan-hairline, light-dark(#d9d2c5, #3a352b));
    --_luminaire: var(--candlespan-luminaire, light-dark(#a4560b, #ffb85c));
    --_meets: var(--candlespan-meets, light-dark(#2f6b4f, #7cc4a0));
    --_short: var(--candlespan-short, light-dark(#a3352b, #ef8a7e));
    --_close: var(--candlespan-close, light-dark(#8a6410, #e0b85a));
    --_focus: var(--candlespan-focus, var(--_ink));
    display: block;
    box-sizing: border-box;
    color: var(--_ink);
    font-family: var(--candlespan-font, inherit);
    font-size: 15px;
    font-variant-numeric: tabular-nums;
    line-height: 1.4;
  }
  :host([hidden]) {
    display: none;
  }
  :host([mode="day"]) {
    color-scheme: light;
  }
  :host([mode="evening"]) {
    color-scheme: dark;
  }
  @media print {
    :host {
      color-scheme: light;
    }
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  .visually-hidden {
    position: absolute;
    width: 1px;
    height: 1px;
    margin: -1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  :focus-visible {
    outline: 2px solid var(--_focus);
    outline-offset: 2px;
  }
`;

/** Styles of everything drawn: one class an ink, so that forced colours and print can restate them. */
export const drawingStyles = css`
  svg {
    display: block;
    overflow: visible;
    touch-action: pan-y;
    user-select: none;
    -webkit-user-select: none;
  }
  .s-ink { stroke: var(--_ink); }
  .s-quiet { stroke: var(--_quiet); }
  .s-hairline { stroke: var(--_hairline); }
  .s-luminaire { stroke: var(--_luminaire); }
  .s-sheet { stroke: var(--_sheet); }
  .s-paper { stroke: var(--_paper); }
  .s-meets { stroke: var(--_meets); }
  .s-short { stroke: var(--_short); }
  .s-close { stroke: var(--_close); }
  .s-none { stroke: none; }
  .f-ink { fill: var(--_ink); }
  .f-quiet { fill: var(--_quiet); }
  .f-hairline { fill: var(--_hairline); }
  .f-luminaire { fill: var(--_luminaire); }
  .f-sheet { fill: var(--_sheet); }
  .f-paper { fill: var(--_paper); }
  .f-meets { fill: var(--_meets); }
  .f-short { fill: var(--_short); }
  .f-close { fill: var(--_close); }
  .f-none { fill: none; }
  polyline, polygon, path {
    stroke-linejoin: round;
    stroke-linecap: butt;
    vector-effect: non-scaling-stroke;
  }
  text {
    font-family: inherit;
    font-variant-numeric: tabular-nums;
  }
  text.strong { font-weight: 600; }
  text.ground {
    paint-order: stroke;
    stroke-width: 4px;
    stroke-linejoin: round;
  }
  @media (forced-colors: active) {
    svg { forced-color-adjust: none; }
    :host {
      --_paper: Canvas;
      --_sheet: Canvas;
      --_ink: CanvasText;
      --_quiet: CanvasText;
      --_hairline: GrayText;
      --_luminaire: LinkText;
      --_meets: CanvasText;
      --_short: CanvasText;
      --_close: CanvasText;
      --_focus: Highlight;
    }
  }
`;
