import { css } from "lit";

export const planStyles = css`
  text.iso {
    paint-order: stroke;
    stroke-width: 3.5px;
    stroke-linejoin: round;
    font-weight: 600;
  }
  .over-light .s-ink { stroke: #1b1a16; }
  .over-light .f-ink { fill: #1b1a16; }
  /* Where a luminaire reaches past the lit top by evening, its dark line needs a light edge. */
  .over-light .luminaire path {
    filter: drop-shadow(0 0 1px light-dark(transparent, #fdf8ec));
  }
  .refine { transition: opacity 120ms linear; }
  @media (prefers-reduced-motion: reduce) {
    .refine { transition: none; }
  }
`;
