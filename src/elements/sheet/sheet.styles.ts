import { css } from "lit";

export const sheetStyles = css`
  :host { background: var(--_paper); position: relative; container-type: inline-size; }
  .stack { position: relative; display: flex; flex-direction: column; gap: 4px; }
  .plan { position: relative; display: flex; flex-direction: column; gap: 12px; }
  .foot { position: relative; min-height: 18px; }
  .legend { display: flex; gap: 2px 16px; align-items: flex-start; justify-content: space-between; flex-wrap: wrap; }
  .legend candlespan-scale { flex: 1; min-width: min(100%, 300px); min-height: 29px; }
  .plan:has(.aside) { min-height: 202px; }
  .legend.aside { position: absolute; top: 8px; right: 0; flex-direction: column; justify-content: flex-start; gap: 10px; }
  .legend.aside candlespan-scale { flex: none; min-width: 0; }
  .legend.aside .quality { white-space: normal; max-width: 15ch; font-size: 11.5px; line-height: 1.3; }
  .quality { color: var(--_quiet); font-size: 13px; white-space: nowrap; }
  @container (max-width: 559px) {
    candlespan-elevation { order: 1; }
    .stack { gap: 12px; }
  }
  /* On a screen too low for all three the light stays in view, on a narrow one right under the headline. */
  @media screen and (max-height: 559px) {
    :host { display: flex; flex-direction: column; }
    candlespan-elevation { order: 1; }
    @container (max-width: 559px) {
      .head, .verdict, .stack { display: contents; }
      .plan { order: 1; }
      candlespan-profile { order: 3; }
      candlespan-elevation, .foot { order: 4; }
    }
  }
  @media print {
    .foot { display: none; }
  }
`;
