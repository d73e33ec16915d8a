import { css } from "lit";

export const studyStyles = css`
  p { margin: 0; color: var(--_quiet); }
  h2 { margin: 0; font-size: 18px; font-weight: 600; color: var(--_short); }
  ul { margin: 8px 0 12px; padding-left: 20px; }
  li { overflow-wrap: anywhere; }
  button {
    font: inherit; color: inherit; background: none; border: 1px solid var(--_ink);
    min-height: 32px; padding: 4px 12px; cursor: pointer;
  }
  button:focus-visible { outline: 2px solid var(--_focus); outline-offset: 2px; }
`;
