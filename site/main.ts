import { spawn } from "../src/workers/browser.ts";

console.log(spawn);
