import type { Command } from "../command.ts";

export const check: Command = {
  name: "check",
  usage: "check STUDY [options]",
  summary: "Light and verdict of every arrangement of a study, side by side.",
  arguments: [0, 1],
  options: {},
  run: async () => 3,
};
