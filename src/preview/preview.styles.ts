import { css } from "lit";

export const previewStyles = css`
  figure {
    margin: 0;
  }
  .stage {
    position: relative;
    aspect-ratio: 16 / 9;
    background: var(--_sheet);
    overflow: hidden;
  }
  canvas {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
    touch-action: none;
    cursor: grab;
  }
  canvas:active {
    cursor: grabbing;
  }
  .side {
    position: absolute;
    top: 8px;
    padding: 2px 8px;
    font-size: 13px;
    background: var(--_sheet);
    color: var(--_ink);
  }
  .side.b {
    left: calc(50% + 8px);
  }
  .side.a {
    left: 8px;
  }
  .divider {
    position: absolute;
    inset: 0 auto 0 50%;
    width: 1.5px;
    background: var(--_sheet);
  }
  .reading,
  .glare {
    position: absolute;
    padding: 2px 6px;
    font-size: 13px;
    background: var(--_sheet);
    color: var(--_ink);
    pointer-events: none;
    white-space: nowrap;
  }
  .reading {
    transform: translate(12px, 12px);
  }
  .glare {
    transform: translate(-50%, -150%);
    border-bottom: 1.5px solid var(--_luminaire);
    font-size: 12px;
  }
  .controls {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    align-items: end;
    margin-block: 8px;
  }
  label {
    display: grid;
    gap: 4px;
    font-size: 13px;
    color: var(--_quiet);
  }
  label.line {
    display: flex;
    align-items: center;
    gap: 6px;
    min-height: 32px;
    color: var(--_ink);
  }
  select,
  button,
  input[type="range"] {
    min-height: 32px;
    font: inherit;
    color: var(--_ink);
    background: var(--_sheet);
    border: 1px solid var(--_quiet);
    padding: 2px 8px;
  }
  button[aria-pressed="true"] {
    background: var(--_ink);
    color: var(--_sheet);
  }
  .pair {
    display: flex;
  }
  .pair button + button {
    border-left: 0;
  }
  figcaption {
    margin-top: 8px;
    font-size: 13px;
    color: var(--_quiet);
  }
  progress {
    width: 8em;
    height: 8px;
  }
`;
