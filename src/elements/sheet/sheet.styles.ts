import { css } from "lit";

export const sheetStyles = css`
  :host { background: var(--_paper); position: relative; container-type: inline-size; }
  .headline { display: flex; flex-wrap: wrap; align-items: baseline; gap: 4px 12px; min-height: 34px; }
  .headline h2 {
    margin: 0; font-size: 24px; font-weight: 600; line-height: 34px; flex: 0 1 auto; min-width: min(12ch, 100%);
    display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 3; overflow: hidden; overflow-wrap: anywhere;
  }
  .headline p { flex: 1 1 0; align-self: center; }
  .verdict h2.short { color: var(--_short); }
  .verdict h2.close { color: var(--_close); }
  .verdict ul { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: 0 28px; }
  .verdict li { font-size: 15px; line-height: 21px; max-width: 100%; overflow-wrap: anywhere; }
  .verdict .dense li { font-size: 13px; line-height: 17px; }
  /* Of a very long name the figures after it stay in sight. */
  .verdict .subject {
    font-weight: 600; display: inline-block; max-width: min(40ch, 90%); overflow: hidden; text-overflow: ellipsis;
    white-space: nowrap; vertical-align: bottom;
  }
  /* Higher than its words for a finger, and upwards: below, the row ends. */
  .verdict button {
    font: inherit; color: inherit; border: 0; padding: 6px 2px 2px; margin: -6px -2px -2px; background: none; cursor: pointer; text-align: start;
    text-decoration: underline dotted var(--_quiet) 1px; text-underline-offset: 3px;
  }
  .verdict .sign { font-weight: 600; }
  .verdict .meets .sign { color: var(--_meets); }
  .verdict .short .sign { color: var(--_short); }
  .verdict .close .sign { color: var(--_close); }
  .verdict p { margin: 0; color: var(--_quiet); font-size: 13px; line-height: 17px; }
  .stack { position: relative; display: flex; flex-direction: column; gap: 4px; }
  .plan { position: relative; display: flex; flex-direction: column; gap: 12px; }
  .thread {
    position: absolute; top: 0; bottom: 0; width: 0; pointer-events: none;
    border-left: 1px solid var(--_luminaire);
    box-shadow: 0 0 1px light-dark(transparent, #171510);
  }
  .foot { position: relative; min-height: 18px; font-size: 13px; font-weight: 600; }
  .foot span { position: absolute; white-space: nowrap; top: 0; }
  .legend { display: flex; gap: 2px 16px; align-items: flex-start; justify-content: space-between; flex-wrap: wrap; }
  .legend candlespan-scale { flex: 1; min-width: min(100%, 300px); min-height: 29px; }
  .plan:has(.aside) { min-height: 202px; }
  .legend.aside { position: absolute; top: 8px; right: 0; flex-direction: column; justify-content: flex-start; gap: 10px; }
  .legend.aside candlespan-scale { flex: none; min-width: 0; }
  .legend.aside .quality { white-space: normal; max-width: 15ch; font-size: 11.5px; line-height: 1.3; }
  .quality { color: var(--_quiet); font-size: 13px; white-space: nowrap; }
  @container (max-width: 959px) {
    .verdict ul { display: block; }
  }
  @container (max-width: 559px) {
    .headline h2 { font-size: 18px; }
    /* As high as the rows: what a page sets under so many lines cuts none. */
    .verdict p { line-height: 21px; }
    candlespan-elevation { order: 1; }
    .stack { gap: 12px; }
    /* Its key is under the plan, out of sight where a panel stands. */
    .plan:has([hatch])::before {
      content: "hatched: below target"; position: absolute; right: 0; color: var(--_quiet); font-size: 11px;
    }
  }
  /* On a screen too low for all three the light stays in view, on a narrow one right under the headline. */
  @media screen and (max-height: 559px) {
    :host { display: flex; flex-direction: column; }
    candlespan-elevation { order: 1; }
    @container (max-width: 559px) {
      .head, .verdict, .stack { display: contents; }
      .plan { order: 1; }
      .verdict p, .verdict ul, slot[name="next"] { display: block; order: 2; }
      candlespan-profile { order: 3; }
      candlespan-elevation, .foot { order: 4; }
    }
  }
  @media print {
    .thread, .foot { display: none; }
  }
`;
