/** Both public doors in one: what the single-file bundle exports. */
export * from "../src/elements.ts";
export * from "../src/index.ts";
