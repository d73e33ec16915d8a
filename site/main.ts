/** Starts the app on the worked example. */

import { CandlespanApp } from "./app.ts";
import { workedExample } from "./example.ts";

document.getElementById("app")?.append(new CandlespanApp(workedExample()));
