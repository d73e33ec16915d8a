import { css } from "lit";

export const comparisonStyles = css`
  :host { container-type: inline-size; }
  h2 { margin: 0 0 4px; font-size: 15px; font-weight: 600; display: flex; flex-wrap: wrap; gap: 0 16px; align-items: baseline; }
  h2 .rank { color: var(--_quiet); font-weight: 400; }
  .option { margin-bottom: 24px; }
  .figures { color: var(--_quiet); font-size: 13px; margin: 0 0 4px; }
  .meets .mark { color: var(--_meets); }
  .short .mark { color: var(--_short); }
  .close .mark { color: var(--_close); }
  .pick { display: flex; flex-wrap: wrap; gap: 8px 12px; align-items: center; margin: 0 0 8px; }
  select {
    font: inherit; color: inherit; background: var(--_sheet); border: 1px solid var(--_quiet); border-radius: 3px;
    min-height: 36px; padding: 4px 8px; max-width: 100%;
  }
  .iso { paint-order: stroke; stroke-width: 3.5px; stroke-linejoin: round; font-weight: 600; }
  .over .s-ink { stroke: #24211c; }
  .over .f-ink { fill: #24211c; }
  @media print { .pick { display: none; } }
`;
