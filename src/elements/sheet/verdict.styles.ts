import { css } from "lit";

/** Of what a sheet says when its words are there: verdict, reading, key of the hatch. */
export const verdictStyles = css`
  .headline { min-height: 34px; padding-bottom: 1px; }
  .headline h2 {
    margin: 0; font-size: 24px; font-weight: 600; line-height: 34px; overflow-wrap: anywhere;
    display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 3; overflow: hidden;
  }
  .verdict[data-headline="1"] h2 { font-size: 18px; }
  .verdict[data-headline="2"] h2 { font-size: 15px; line-height: 17px; -webkit-line-clamp: 2; }
  .verdict h2.short { color: var(--_short); }
  .verdict h2.close { color: var(--_close); }
  .rows { display: flex; flex-wrap: wrap; gap: 0 28px; font-size: 15px; line-height: 21px; }
  .rows ul { display: contents; list-style: none; }
  .verdict li { max-width: 100%; overflow-wrap: anywhere; }
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
  .verdict[data-rows="1"] .rows { font-size: 13px; line-height: 17px; }
  .verdict:is([data-rows="2"], [data-rows="3"]) :is(p, .rows) { font-size: 11.5px; line-height: 14px; }
  .verdict:is([data-rows="2"], [data-rows="3"]) button { padding-top: 8px; margin-top: -8px; }
  .verdict[data-rows="3"] { overflow-y: auto; }
  .read { position: absolute; width: max-content; max-width: 100%; font-size: 13px; line-height: 18px; font-weight: 600; }
  .plan .read { padding: 0 4px; background: var(--_paper); pointer-events: none; }
  @container (min-width: 560px) and (max-width: 959px) {
    .verdict[data-rows="0"] .rows { font-size: 13px; line-height: 17px; }
  }
  @container (max-width: 559px) {
    .headline h2 { font-size: 18px; }
    .rows, .rows ul { display: block; margin: 0; padding: 0; }
    /* As high as the rows: what a page sets under so many lines cuts none. */
    .verdict p { line-height: 21px; }
    /* Its key is under the plan, out of sight where a panel stands. */
    .plan:has([hatch])::before {
      content: "hatched: below target"; position: absolute; right: 0; color: var(--_quiet); font-size: 11px;
    }
  }
  @media screen and (max-height: 559px) {
    @container (max-width: 559px) {
      .verdict p, .rows { display: block; order: 2; }
    }
  }
`;
