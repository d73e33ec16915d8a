/** Loaded before a program whose processor time is wanted: writes it (ms, all threads) to the file named in the environment. */
import { writeFileSync } from "node:fs";

process.on("exit", () => {
  const { user, system } = process.cpuUsage();
  writeFileSync(process.env.CANDLESPAN_PROCESSOR_TIME, String((user + system) / 1000));
});
