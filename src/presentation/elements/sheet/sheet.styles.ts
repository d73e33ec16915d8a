import { css } from "lit";

export const sheetStyles = css`
  :host { background: var(--_paper); position: relative; container-type: inline-size; }
  .verdict { padding: 0 0 12px; }
  .verdict h2 { margin: 0; font-size: 18px; font-weight: 600; line-height: 1.35; text-wrap: pretty; }
  .verdict .zone { display: inline; }
  .verdict .sign { font-weight: 600; }
  .verdict .meets .sign { color: var(--_meets); }
  .verdict .short .sign { color: var(--_short); }
  .verdict .close .sign { color: var(--_close); }
  .verdict p { margin: 4px 0 0; color: var(--_quiet); font-size: 13px; }
  .stack { position: relative; display: flex; flex-direction: column; gap: 8px; }
  .thread {
    position: absolute; top: 0; bottom: 0; width: 0; pointer-events: none;
    border-left: 1px solid var(--_luminaire);
    box-shadow: 0 0 1px light-dark(transparent, #171510);
  }
  .foot { position: relative; min-height: 24px; font-size: 13px; font-weight: 600; }
  .foot span { position: absolute; white-space: nowrap; top: 0; }
  .legend { display: flex; gap: 16px; align-items: flex-start; justify-content: space-between; flex-wrap: wrap; }
  .legend candlespan-scale { flex: 1; min-width: min(100%, 300px); }
  .quality { color: var(--_quiet); font-size: 13px; white-space: nowrap; }
  @container (max-width: 559px) {
    .verdict h2 { font-size: 15px; }
    candlespan-elevation { order: 1; }
    .stack { gap: 12px; }
  }
  @media print {
    .thread, .foot { display: none; }
  }
`;
