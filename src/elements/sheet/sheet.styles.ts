import { css } from "lit";

export const sheetStyles = css`
  :host { background: var(--_paper); position: relative; container-type: inline-size; }
  .verdict { display: flex; flex-wrap: wrap; align-items: last baseline; gap: 2px 24px; padding: 0 0 8px; }
  .verdict h2 { margin: 0; font-size: 15px; font-weight: 400; line-height: 1.35; text-wrap: pretty; }
  .verdict .subject, .verdict .light { font-weight: 600; }
  .verdict .sign { font-weight: 600; }
  .verdict .meets .sign { color: var(--_meets); }
  .verdict .short .sign { color: var(--_short); }
  .verdict .close .sign { color: var(--_close); }
  .verdict p { margin: 0; color: var(--_quiet); font-size: 13px; }
  .stack { position: relative; display: flex; flex-direction: column; gap: 4px; }
  .plan { position: relative; display: flex; flex-direction: column; gap: 12px; }
  .thread {
    position: absolute; top: 0; bottom: 0; width: 0; pointer-events: none;
    border-left: 1px solid var(--_luminaire);
    box-shadow: 0 0 1px light-dark(transparent, #171510);
  }
  .foot { position: relative; min-height: 20px; font-size: 13px; font-weight: 600; }
  .foot span { position: absolute; white-space: nowrap; top: 0; }
  .legend { display: flex; gap: 2px 16px; align-items: flex-start; justify-content: space-between; flex-wrap: wrap; }
  .legend candlespan-scale { flex: 1; min-width: min(100%, 300px); }
  .legend.aside { position: absolute; top: 8px; right: 0; flex-direction: column; justify-content: flex-start; gap: 10px; }
  .legend.aside candlespan-scale { flex: none; min-width: 0; }
  .legend.aside .quality { white-space: normal; font-size: 11.5px; line-height: 1.3; }
  .quality { color: var(--_quiet); font-size: 13px; white-space: nowrap; }
  @container (min-width: 560px) {
    .verdict h2 { display: grid; grid-template-columns: repeat(3, auto) minmax(0, auto); column-gap: 10px; }
    .verdict .zone { display: contents; }
    .verdict .evenness { white-space: nowrap; }
    .verdict .light { white-space: nowrap; }
  }
  @container (max-width: 559px) {
    candlespan-elevation { order: 1; }
    .stack { gap: 12px; }
  }
  @media print {
    .thread, .foot { display: none; }
  }
`;
