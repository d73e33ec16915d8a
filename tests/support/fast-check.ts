/** fast-check with one seed for every run, so that a test that passed passes again; `CANDLESPAN_SEED=random`
 * explores, and a failure then prints the seed that found it. */
import fc from "../../node_modules/fast-check/lib/fast-check.js";

const asked = process.env.CANDLESPAN_SEED;
if (asked !== "random")
  fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(asked ?? 20_261_125) });

export * from "../../node_modules/fast-check/lib/fast-check.js";
export default fc;
