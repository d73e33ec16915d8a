/**
 * The palette and type of every element, as custom properties an embedding page may set.
 *
 * Each colour is a pair, day and evening, chosen by `color-scheme`: an element follows the page, or its own
 * `mode` attribute.
 */
import { css, unsafeCSS } from "lit";
import { DAY, EVENING } from "../../drawing/palette.ts";

const COLOURS = unsafeCSS(
  Object.entries(DAY)
    .map(
      ([ink, day]) =>
        `--_${ink}: var(--candlespan-${ink}, light-dark(${day}, ${EVENING[ink as keyof typeof EVENING]}));`,
    )
    .join(""),
);

export const tokens = css`
  :host {
    ${COLOURS}
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
