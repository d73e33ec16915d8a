import { css } from "lit";

export const floorPlanStyles = css`
  .item, .side { outline: none; touch-action: none; }
  .item { cursor: grab; }
  .item:active { cursor: grabbing; }
  .item .take { fill: transparent; stroke: none; }
  .item:hover .take { stroke: var(--_quiet); stroke-width: 1; stroke-dasharray: 2 2; }
  .item[aria-pressed="true"] .take { stroke: var(--_luminaire); stroke-width: 2; }
  .item:focus-visible .take, .side:focus-visible .dot {
    stroke: var(--_focus); stroke-width: 3;
    filter: drop-shadow(0 0 1px var(--_paper));
  }
  .side .dot { fill: var(--_luminaire); stroke: var(--_paper); stroke-width: 1; }
  .side .take { fill: transparent; stroke: none; }
  .side.upright { cursor: ns-resize; }
  .side.level { cursor: ew-resize; }
  .names { pointer-events: none; }
  .light { pointer-events: none; }
  .hung { pointer-events: none; }
  /* What is traced shows through what is drawn over it. */
  .traced .item path { fill-opacity: 0.35; }
  .traced .light { opacity: 0.6; }
  .underlay { pointer-events: none; }
  .sheet-over { fill: transparent; cursor: crosshair; touch-action: none; outline: none; }
  .sheet-over.move { cursor: move; }
  .sheet-over:focus-visible { stroke: var(--_focus); stroke-width: 3; }
  .known { stroke: var(--_luminaire); stroke-width: 1.5; fill: none; pointer-events: none; }
  .point { cursor: grab; touch-action: none; outline: none; }
  .point .ring { fill: none; stroke: var(--_luminaire); stroke-width: 2; }
  .point .cross { stroke: var(--_luminaire); stroke-width: 1; }
  .point .take { fill: transparent; }
  .point:focus-visible .ring { stroke: var(--_focus); stroke-width: 3; }
  .point text { fill: var(--_ink); paint-order: stroke; stroke: var(--_paper); stroke-width: 3px; font-size: 12px; }
  /* By evening the luminaires' own colour is lost on the light. */
  .hung path { filter: drop-shadow(0 0 1px light-dark(transparent, #171510)) drop-shadow(0 0 1px light-dark(transparent, #171510)); }
  :host([fixed]) .item { cursor: default; }
`;
