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
  /* Words lie on light of any level. */
  .over-light text { paint-order: stroke; stroke: #fdf8ec; stroke-opacity: 0.6; stroke-width: 3px; stroke-linejoin: round; }
  /* Where a luminaire reaches past the lit top by evening, its dark line needs a light edge. */
  .over-light .luminaire path {
    filter: drop-shadow(0 0 1px light-dark(transparent, #fdf8ec));
  }
  /* On the light the ground is that of the scale, by day and by evening. */
  .over-light .luminaire:focus-visible .grip {
    stroke: #1b1a16;
    filter: drop-shadow(0 0 1px #fdf8ec);
  }
  .over-light .luminaire:hover .grip { stroke: #1b1a16; }
  .over-light .chosen path {
    stroke: #6b3300;
    filter: drop-shadow(0 0 1px #fdf8ec);
  }
  .pointer { filter: drop-shadow(0 0 1px light-dark(transparent, #1b1a16)); }
`;
