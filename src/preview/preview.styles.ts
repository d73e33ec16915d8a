import { css } from "lit";

export const previewStyles = css`
  :host {
    --_edge: light-dark(#8f8778, #7d7463);
    display: flex;
    flex-direction: column;
  }
  figure {
    margin: 0;
    flex: 1;
    min-height: 0;
    display: flex;
    flex-direction: column;
  }
  .stage {
    position: relative;
    flex: 1 1 auto;
    min-height: 240px;
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
    align-items: center;
    margin-bottom: 8px;
  }
  label,
  ::slotted(label) {
    display: flex;
    align-items: center;
    gap: 6px;
    font-size: 13px;
    color: var(--_quiet);
  }
  label.line {
    color: var(--_ink);
  }
  select,
  button {
    min-height: 32px;
    font: inherit;
    font-size: 15px;
    color: var(--_ink);
    background: var(--_sheet);
    border: 1px solid var(--_edge);
    border-radius: 3px;
    padding: 3px 9px;
  }
  button {
    cursor: pointer;
  }
  button:hover {
    border-color: var(--_ink);
  }
  button[aria-pressed="true"] {
    border-color: var(--_ink);
    box-shadow: inset 0 -2px var(--_ink);
    font-weight: 600;
  }
  @media (pointer: coarse) {
    select,
    button,
    label {
      min-height: 44px;
    }
    input[type="checkbox"] {
      width: 24px;
      height: 24px;
    }
  }
  .pair {
    display: flex;
    gap: 4px;
  }
  .more {
    display: none;
  }
  :host(:not([narrow])) .rest {
    display: contents;
  }
  /* On a phone what is needed less waits behind a button, and the picture is as high as what such a phone shows under it. Told by an
     attribute: with a container query the picture was laid out no more once its pane had turned low and narrow. */
  :host([narrow]) .stage {
    flex: none;
    /* A least height would be a least width too. */
    min-height: 0;
  }
  :host([narrow]) .controls {
    gap: 6px;
  }
  :host([narrow]) .more {
    display: block;
    flex: none;
  }
  :host([narrow]) .viewpoint {
    flex: 1 1 112px;
  }
  :host([narrow]) .viewpoint select {
    width: 100%;
  }
  :host([narrow]) .viewpoint span {
    position: absolute;
    clip-path: inset(50%);
  }
  :host([narrow]) .rest:popover-open {
    inset: auto 12px 12px;
    margin: 0;
    padding: 12px 16px;
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    color: var(--_ink);
    background: var(--_sheet);
    border: 1px solid var(--_quiet);
    border-radius: 3px;
  }
  figcaption {
    margin-top: 8px;
    font-size: 13px;
    color: var(--_quiet);
  }
  /* Room for a line of progress with its button, so that the picture stays as large as it is when that goes. */
  .state {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 4px 12px;
    min-height: 36px;
  }
  /* Under the picture itself, where a phone shows it. */
  :host([narrow]) figcaption {
    display: flex;
    flex-direction: column;
    margin-top: 4px;
  }
  :host([narrow]) .state {
    order: -1;
    min-height: 0;
  }
  progress {
    width: 8em;
    height: 8px;
  }
`;
