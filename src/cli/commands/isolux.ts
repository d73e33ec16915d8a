import type { Command } from "../command.ts";

export const isolux: Command = {
  name: "isolux",
  usage: "isolux STUDY [options]",
  summary: "The plan of the island with its isolux lines, as SVG.",
  arguments: [0, 1],
  options: {},
  run: async () => 3,
};
