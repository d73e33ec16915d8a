/** The public doors in one: what the single-file bundle exports. A page that feeds elements opens its study by
 * `openForElements`. */
export { type ArrangementLight, arrangementLight, openStudy as openForElements } from "../src/app.ts";
export * from "../src/elements.ts";
export * from "../src/index.ts";
