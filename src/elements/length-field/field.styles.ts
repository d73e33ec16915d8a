import { css } from "lit";

export const fieldStyles = css`
  label { display: block; font-size: 13px; color: var(--_quiet); margin-bottom: 4px; }
  input, select {
    font: inherit; font-variant-numeric: tabular-nums; color: inherit; background: var(--_sheet);
    border: 1px solid var(--_quiet); border-radius: 3px; min-height: 44px; padding: 8px 12px; width: 100%; max-width: 100%;
  }
  input[aria-invalid="true"] { border-color: var(--_short); border-width: 2px; padding: 7px 11px; }
  .note { margin: 4px 0 0; font-size: 13px; color: var(--_quiet); min-height: 18px; }
  .note.problem { color: var(--_short); }
`;
