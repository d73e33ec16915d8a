import { css } from "lit";

export const comparisonStyles = css`
  :host { container-type: inline-size; }
  .options { display: grid; grid-template-columns: repeat(var(--across, 1), minmax(0, 1fr)); gap: 20px 24px; margin-bottom: 16px; }
  h2 { margin: 0; font-size: 18px; font-weight: 600; line-height: 24px; }
  h2 .letter { margin-inline-end: 0.4em; }
  h2, .said, .one-line { overflow: hidden; text-overflow: ellipsis; white-space: nowrap; }
  .said { margin: 4px 0 2px; font-size: 15px; font-weight: 600; }
  .aside { margin: 0; min-height: 19px; font-size: 13px; line-height: 19px; color: var(--_quiet); }
  .first { margin: 0 0 12px; font-weight: 600; }
  .note { margin-bottom: 8px; }
  .said.short { color: var(--_short); }
  .said.close { color: var(--_close); }
  table { border-collapse: collapse; width: 100%; font-size: 13px; }
  th, td { font-weight: 400; text-align: end; padding: 2px 0 2px 8px; border-top: 0.75px solid var(--_hairline); white-space: nowrap; }
  th:first-child { text-align: start; padding-inline-start: 0; max-width: 16ch; white-space: normal; overflow-wrap: anywhere; }
  thead th { color: var(--_quiet); border-top: 0; }
  .likely, tr.total > * { color: var(--_quiet); }
  .meets .mark { color: var(--_meets); }
  .short .mark { color: var(--_short); }
  .close .mark { color: var(--_close); }
  .pick { display: flex; flex-wrap: wrap; gap: 8px 12px; align-items: center; margin: 4px 0 8px; }
  select {
    font: inherit; color: inherit; background: var(--_sheet); border: 1px solid var(--_quiet); border-radius: 3px;
    min-height: 36px; padding: 4px 8px; max-width: 100%;
  }
  .cost { color: var(--_quiet); font-size: 13px; margin: 4px 0 0; }
  .figures { color: var(--_quiet); font-size: 13px; margin: 0 0 4px; }
  .difference { margin-top: 16px; border-top: 0.75px solid var(--_hairline); padding-top: 12px; }
  /* A luminaire longer than the top ends with its drawing: beside it stands another. */
  .option candlespan-plan, .map svg { overflow: clip; }
  .map { display: flex; flex-wrap: wrap; gap: 8px 20px; align-items: flex-start; }
  .steps { display: grid; grid-template-columns: 14px auto; gap: 0 8px; font-size: 11.5px; color: var(--_quiet); align-items: center; }
  .steps i { display: block; height: 18px; forced-color-adjust: none; }
  .iso { paint-order: stroke; stroke-width: 5px; stroke-linejoin: round; font-weight: 600; }
  .over .s-ink { stroke: #24211c; }
  .over .f-ink { fill: #24211c; }
  .over text { paint-order: stroke; stroke: #f2efe6; stroke-opacity: 0.7; stroke-width: 3px; stroke-linejoin: round; }
  .settings { margin-top: 16px; border-top: 0.75px solid var(--_hairline); padding-top: 12px; }
  .settings .across { overflow-x: auto; }
  .settings th:first-child { max-width: 22ch; }
  .settings td, .settings thead th { min-width: 8ch; vertical-align: baseline; }
  .settings thead .name { display: inline-block; max-width: 18ch; overflow: hidden; text-overflow: ellipsis; vertical-align: bottom; }
  .settings tbody tr:first-child > * { padding-top: 8px; font-weight: 600; }
  .settings tbody tr:not(:first-child) > th { color: var(--_quiet); }
  .settings .band { display: inline-block; min-width: 10ch; text-align: start; color: var(--_quiet); margin-inline-start: 0.5em; }
  .settings .setting .meets { color: var(--_meets); }
  .settings .short .figure, .settings .setting .short { color: var(--_short); }
  .settings .close .figure, .settings .setting .close { color: var(--_close); }
  @container (max-width: 560px) {
    .settings thead .name { display: none; }
    .settings th:first-child { max-width: 12ch; white-space: normal; }
    .settings td { white-space: normal; }
    .settings .band { display: block; min-width: 0; text-align: end; margin: 0; }
  }
  @media print { .pick { display: none; } }
`;
