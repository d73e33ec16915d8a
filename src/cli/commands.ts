import type { Command } from "./command.ts";

export interface CommandEntry {
  readonly name: string;
  readonly summary: string;
  /** Loaded only when asked for, so that `--help` starts at once. */
  load(): Promise<Command>;
}

/** Every command, as `--help` lists them. */
export const COMMANDS: readonly CommandEntry[] = [
  {
    name: "new",
    summary: "a study to start from, every default written out",
    load: async () => (await import("./commands/new.ts")).create,
  },
  {
    name: "check",
    summary: "light and verdict of every arrangement of a study, side by side",
    load: async () => (await import("./commands/check.ts")).check,
  },
  {
    name: "inspect",
    summary: "what photometric files hold: flux, beam, opening, and what is odd about them",
    load: async () => (await import("./commands/inspect.ts")).inspect,
  },
  {
    name: "convert",
    summary: "a photometric file in another format",
    load: async () => (await import("./commands/convert.ts")).convert,
  },
  {
    name: "isolux",
    summary: "the plan of the island with its isolux lines, as SVG",
    load: async () => (await import("./commands/isolux.ts")).isolux,
  },
  {
    name: "shade",
    summary: "photometry from lamp and shade, written as LM-63",
    load: async () => (await import("./commands/shade.ts")).shade,
  },
  {
    name: "handover",
    summary: "set-out sheet, schedule, comparison, report and drawings into a folder",
    load: async () => (await import("./commands/handover.ts")).handover,
  },
  {
    name: "arrange",
    summary: "the best rows of pendants that can be found, with reasons",
    load: async () => (await import("./commands/arrange.ts")).arrange,
  },
  {
    name: "boxes",
    summary: "ceiling boxes good for a whole shortlist, how far each may be off, the ceiling as built",
    load: async () => (await import("./commands/boxes.ts")).boxes,
  },
  {
    name: "swap",
    summary: "another luminaire in place of one: every verdict before and after",
    load: async () => (await import("./commands/swap.ts")).swap,
  },
  {
    name: "verify",
    summary: "site readings against the prediction, and what is wrong where they differ",
    load: async () => (await import("./commands/verify.ts")).verify,
  },
  {
    name: "schema",
    summary: "the JSON Schema of a study, every key described, or of what a command prints",
    load: async () => (await import("./commands/schema.ts")).schema,
  },
  {
    name: "serve",
    summary: "the viewer on a local port",
    load: async () => (await import("./commands/serve.ts")).serve,
  },
];
