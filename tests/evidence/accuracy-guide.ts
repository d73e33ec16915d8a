/** The guide page on accuracy and the README's table, of what was recorded. */
import { CASES, type CaseName, POINT_BOUND, ROWS, ZONE_BOUND } from "./accuracy-cases.ts";
import { type AccuracyRecord, spreadOf } from "./accuracy-record.ts";
import { errorPlotSvg } from "./error-plot.ts";

/** An error or bound as people write it: below a hundred-thousandth as a power of ten. */
export function errorText(error: number): string {
  if (error === 0) return "0";
  if (error < 1e-6) {
    const power = Math.floor(Math.log10(error));
    const lead = Number((error / 10 ** power).toPrecision(2));
    return `${lead === 1 ? "" : `${lead} × `}10${superscript(power)}`;
  }
  return `${Number((100 * error).toPrecision(2))} %`;
}

const superscript = (power: number) =>
  [...`${power}`].map((sign) => "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"["-0123456789".indexOf(sign)]).join("");
const signed = (share: number) => `${share < 0 ? "−" : "+"}${(100 * Math.abs(share)).toFixed(2)} %`;
const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

const FAMILY = {
  bare: "luminaires without bodies",
  bodies: "pendants with bodies",
  people: "bodies and people",
} as const;
const CLASS: Readonly<Record<string, string>> = {
  lamps: "D, with five measured lamps' lobes",
};
const FIGURE = { average: "average", minimum: "minimum", uniformity: "U₀" } as const;

const casesOf = (row: string) => (Object.keys(CASES) as CaseName[]).filter((name) => CASES[name].row === row);
const fileName = (path: string) => path.replace(/^.*\//, "").replace(".test.ts", "");

/** Rows of the README's table, in its own markup. */
export function readmeTable({ cases, kitchens, coverage }: AccuracyRecord): string {
  const rows = Object.entries(ROWS).map(([row, { what, test }]) => {
    const bounds = casesOf(row).map((name) => {
      const { label, bound } = CASES[name];
      return `${label} ${errorText(bound)} (${errorText(cases[name].error)})`.trim();
    });
    return `| ${what} | ${bounds.join(", ")} | [${fileName(test)}](${test}) |`;
  });
  const zones = spreadOf(
    kitchens.flatMap((family) => family.zones),
    ZONE_BOUND,
  );
  const points = spreadOf(
    kitchens.flatMap((family) => family.points),
    POINT_BOUND,
  );
  const count = kitchens.reduce((sum, family) => sum + family.kitchens, 0);
  const inside = coverage.classes.flatMap((each) =>
    (Object.keys(FIGURE) as (keyof typeof FIGURE)[]).map((figure) => each[figure].inside),
  );
  return [
    "| what | bound (worst error met) | tested in |",
    "|---|---|---|",
    ...rows,
    `| interreflected light of zones in ${count} random kitchens, against traced paths | ${errorText(ZONE_BOUND)} and the trace's noise, at 95 of 100 (${zones.within} of ${zones.count}) | [random-kitchens](tests/validation/random-kitchens.test.ts) |`,
    `| total light at points there | ${errorText(POINT_BOUND)} and the trace's noise, at 95 of 100 (${points.within} of ${points.count}) | the same |`,
    `| how often the truth lies in the 95 % band, by class of evidence, ${coverage.kitchens} random kitchens each | 93 to 97 % and the draws' noise (${percent(Math.min(...inside))} to ${percent(Math.max(...inside))}) | [coverage](tests/validation/coverage.mjs) |`,
  ].join("\n");
}

/** The README with its table anew. */
export function withTable(readme: string, record: AccuracyRecord): string {
  const [before, after] = readme.split("\n## How accurate\n");
  const rest = after.slice(after.indexOf("\n\n", after.indexOf("|---|")));
  const lead = after.slice(0, after.indexOf("| what |"));
  return `${before}\n## How accurate\n${lead}${readmeTable(record)}${rest}`;
}

const cell = (words: string, head = false) => (head ? `<th scope="col">${words}</th>` : `<td>${words}</td>`);
const tableOf = (head: readonly string[], rows: readonly (readonly string[])[]) => `<table>
<thead><tr>${head.map((words) => cell(words, true)).join("")}</tr></thead>
<tbody>
${rows.map((row) => (row.length === 1 ? `<tr><th colspan="${head.length}" scope="rowgroup">${row[0]}</th></tr>` : `<tr>${row.map((words) => cell(words)).join("")}</tr>`)).join("\n")}
</tbody>
</table>`;

function caseTable({ cases }: AccuracyRecord): string {
  const rows = Object.entries(ROWS).flatMap(([row, { what, test }]) => [
    [`${what} <small><code>${test}</code></small>`],
    ...casesOf(row).map((name) => {
      const { error, where } = cases[name];
      const { what: part, source, bound } = CASES[name];
      return [part, source, errorText(bound), errorText(error), where];
    }),
  ]);
  return tableOf(["case", "against", "bound", "worst error", "where"], rows);
}

function kitchenTable({ kitchens }: AccuracyRecord): string {
  const row = (what: string, all: AccuracyRecord["kitchens"][number]["zones"], bound: number) => {
    const { count, within, worst, ninetyFive, beyondNoise, medianError } = spreadOf(all, bound);
    return [
      what,
      `${errorText(bound)} + 2 s.e.`,
      `${within} of ${count}`,
      `${(100 * ninetyFive).toFixed(2)} %`,
      signed(worst),
      `${(100 * beyondNoise).toFixed(2)} %`,
      `${(100 * medianError).toFixed(2)} %`,
    ];
  };
  return tableOf(
    [
      "figure",
      "bound",
      "within",
      "95 of 100 below",
      "worst",
      "worst beyond 2 s.e.",
      "s.e. of the trace (median)",
    ],
    kitchens.flatMap(({ family, kitchens: count, seed, date, zones, points }) => [
      [`${FAMILY[family]}: ${count} kitchens, seed ${seed}, ${date}`],
      row("mean interreflected light of a zone", zones, ZONE_BOUND),
      row("total light at a point", points, POINT_BOUND),
    ]),
  );
}

function coverageTable({ coverage }: AccuracyRecord): string {
  return tableOf(
    [
      "class of evidence",
      "figure",
      "truth inside the 95 % band",
      "mean half-width",
      "called <i>meets</i> at 0.9",
      "of them true",
    ],
    coverage.classes.flatMap((each) =>
      (Object.keys(FIGURE) as (keyof typeof FIGURE)[]).map((figure) => {
        const { inside, halfWidth, meets, right } = each[figure];
        const name = CLASS[each.name] ?? each.name;
        return [
          name,
          FIGURE[figure],
          percent(inside),
          `± ${percent(halfWidth)}`,
          `${meets}`,
          right === null ? "–" : percent(right),
        ];
      }),
    ),
  );
}

/** The plots of the page, by file name. */
export function accuracyPlots({ kitchens }: AccuracyRecord): Readonly<Record<string, string>> {
  const of = (figures: "zones" | "points") =>
    kitchens.map((each) => ({
      name: FAMILY[each.family].replace("luminaires without", "without"),
      figures: each[figures],
    }));
  return {
    "accuracy-zones.svg": errorPlotSvg("Mean interreflected light of zones", of("zones"), ZONE_BOUND),
    "accuracy-points.svg": errorPlotSvg("Total light at points", of("points"), POINT_BOUND),
  };
}

export function accuracyGuide(record: AccuracyRecord): string {
  const { coverage } = record;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<title>Candlespan: accuracy</title>
<link rel="icon" href="data:," />
<link rel="stylesheet" href="../styles/guide.css" />
</head>
<body>
<main>
<h1>Accuracy</h1>
<p>Every figure here was measured by the tests named, against something that is not this program's calculation: closed forms, published values, or a trace of light that shares no code with the engine. <code>npm run evidence</code> measures them again and writes this page; the cases were measured on ${record.date}. A bound is a share of the true value unless the case says otherwise.</p>
<h2>Cases</h2>
${caseTable(record)}
<h2>Random kitchens against traced paths</h2>
<p>Kitchens of any ordinary size, finish, island and row, drawn by a seed: luminaires of every opening, cabinets, hoods, and in two families pendants' bodies and people in the way. A path trace of another method and another hand finds the light of each zone (260,000 paths) and of five points in it (40,000 paths each); bodies are exactly round there. The trace has a noise of its own: two of its standard errors (s.e.) are added to the bound.</p>
${kitchenTable(record)}
<p><img src="./accuracy-zones.svg" alt="Histograms of the deviation of zones' mean interreflected light from the trace, one for each family of kitchens; dashed lines at plus and minus 2 %." /></p>
<p><img src="./accuracy-points.svg" alt="Histograms of the deviation of total light at points from the trace, one for each family of kitchens; dashed lines at plus and minus 1 %." /></p>
<h2>Does the truth lie in the band?</h2>
<p>${coverage.kitchens} random kitchens for each class of evidence, ${coverage.draws} draws each (seed ${coverage.seed}, ${coverage.date}): level, lobe, place, height, tilt, reflectances and maintenance are drawn as stated, the light is calculated again, and the figure either lies in the 95 % band or does not. In the last class the lobe is one of five measured lamps of the same flux and beam instead: it knows nothing of the stated scatter. Targets are put where the answer is uncertain, within two standard deviations of the figure; of what is called <i>meets</i> at 0.9, nine in ten must be true.</p>
${coverageTable(record)}
</main>
</body>
</html>
`;
}
