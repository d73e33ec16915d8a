import { css } from "lit";

export const figuresStyles = css`
  :host { container-type: inline-size; }
  table { border-collapse: collapse; font-size: 13px; margin-bottom: 16px; }
  th, td { font-weight: 400; text-align: end; padding: 4px 0 4px 20px; border-bottom: 0.75px solid var(--_hairline); white-space: nowrap; }
  th:first-child { text-align: start; padding-inline-start: 0; max-width: 24ch; white-space: normal; overflow-wrap: anywhere; }
  thead th { color: var(--_quiet); white-space: normal; vertical-align: bottom; }
  tbody th { font-weight: 600; }
  td:last-child { text-align: start; }
  .note { max-width: 640px; margin: -8px 0 16px; font-size: 13px; color: var(--_quiet); }
  .beside { display: block; position: relative; overflow-x: auto; }
  .beside caption { text-align: start; font-size: 15px; font-weight: 600; padding-block: 4px; }
  .beside td:last-child { text-align: end; }
  /* A value stands beside its name. */
  section { max-width: 640px; }
  h3 { margin: 16px 0 4px; font-size: 15px; font-weight: 600; }
  section:first-of-type h3 { margin-top: 0; }
  .meets .mark { color: var(--_meets); }
  .short .mark { color: var(--_short); }
  .close .mark { color: var(--_close); }
  details { border-top: 1px solid var(--_hairline); }
  details:last-of-type { border-bottom: 1px solid var(--_hairline); }
  summary {
    display: grid; grid-template-columns: 1fr auto; gap: 4px 12px; align-items: baseline;
    min-height: 44px; padding: 10px 0; cursor: pointer; list-style: none;
  }
  summary::-webkit-details-marker { display: none; }
  summary .what::before {
    content: ""; display: inline-block; width: 6px; height: 6px; margin-right: 8px;
    border-right: 1.5px solid var(--_quiet); border-bottom: 1.5px solid var(--_quiet);
    transform: translateY(-2px) rotate(-45deg);
  }
  details[open] > summary .what::before { transform: translateY(-3px) rotate(45deg); }
  .value { font-weight: 600; text-align: right; }
  .said { grid-column: 1 / -1; color: var(--_quiet); font-size: 13px; }
  dl { display: grid; grid-template-columns: max-content 1fr; gap: 4px 16px; margin: 0 0 12px 16px; font-size: 13px; }
  dt { color: var(--_quiet); }
  dd { margin: 0; overflow-wrap: anywhere; }
  @container (max-width: 560px) {
    table:not(.beside) tr > :nth-child(n + 3):nth-child(-n + 5) { display: none; }
    th, td { padding-inline-start: 10px; }
    .beside td { white-space: normal; }
  }
  @container (max-width: 400px) {
    dl { grid-template-columns: 1fr; gap: 0; margin-left: 0; }
    dd { margin-bottom: 6px; }
  }
  @media print {
    details { break-inside: avoid; }
  }
`;
