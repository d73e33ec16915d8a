import { css } from "lit";

export const interactionStyles = css`
  .luminaire { cursor: grab; touch-action: none; outline: none; }
  .luminaire:active { cursor: grabbing; }
  .grip { fill: transparent; stroke: none; }
  :host(:not([fixed])) .luminaire:hover .grip { stroke: var(--_quiet); stroke-width: 0.75; stroke-dasharray: 2 2; }
  .luminaire:focus-visible .grip {
    stroke: var(--_focus);
    stroke-width: 2;
    filter: drop-shadow(0 0 0.5px var(--_paper));
  }
  .chosen path { fill: none; stroke: var(--_luminaire); stroke-width: 2; }
  .field { fill: transparent; stroke: none; outline: none; cursor: crosshair; }
  .field:focus-visible { stroke: var(--_focus); stroke-width: 2; }
  .pointer { stroke: var(--_luminaire); stroke-width: 1; pointer-events: none; }
  .reason { pointer-events: none; }
`;
