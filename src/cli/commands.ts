import type { Command } from "./command.ts";

export interface CommandEntry {
  readonly name: string;
  readonly summary: string;
  /** Loaded only when asked for, so that `--help` starts at once. */
  load(): Promise<Command>;
}

/** Every command, in the order of a job. */
export const COMMANDS: readonly CommandEntry[] = [
  {
    name: "check",
    summary: "light and verdict of every arrangement of a study, side by side",
    load: async () => (await import("./commands/check.ts")).check,
  },
  {
    name: "isolux",
    summary: "the plan of the island with its isolux lines, as SVG",
    load: async () => (await import("./commands/isolux.ts")).isolux,
  },
];
