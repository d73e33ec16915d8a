/** How errors are spread: a histogram of engine against trace for each family of random kitchens, with the bound. */

import { scaleLinear } from "d3-scale";
import { line, type Mark, segment, text } from "../../src/drawing/drawing.ts";
import { DAY } from "../../src/drawing/palette.ts";
import { escapeText, FONT, marksSvg } from "../../src/drawing/svg-text.ts";
import { rectangleBetween } from "../../src/geometry/polygon.ts";
import { type Compared, deviationOf } from "./accuracy-record.ts";

export interface Spread {
  readonly name: string;
  readonly figures: readonly Compared[];
}

const WIDTH = 640;
const ROW = 120;
const LEFT = 150;
const RIGHT = 16;
const TOP = 34;
const FOOT = 44;

/** One row a family; x is the deviation up to twice the bound, what lies beyond is counted in the outermost bins. */
export function errorPlotSvg(title: string, families: readonly Spread[], bound: number): string {
  const most = 2 * bound;
  const bins = 40;
  const x = scaleLinear([-most, most], [LEFT, WIDTH - RIGHT]);
  const counts = families.map(({ figures }) => {
    const count = new Array<number>(bins).fill(0);
    for (const figure of figures) {
      const { deviation } = deviationOf(figure, bound);
      const bin = Math.floor(((deviation + most) / (2 * most)) * bins);
      count[Math.min(bins - 1, Math.max(0, bin))]++;
    }
    return count;
  });
  const height = TOP + ROW * families.length + FOOT;
  const bottom = height - FOOT;
  const marks: Mark[] = [
    text([LEFT, 18], title, "title", { ink: "ink", size: 14, strong: true }),
    ...x
      .ticks(8)
      .flatMap((tick) => [
        segment(x(tick), TOP, x(tick), bottom, "grid line", "hairline", 0.75),
        text([x(tick), bottom + 16], percent(tick), "axis figure", { anchor: "middle" }),
      ]),
    ...[-bound, bound].map((at) =>
      segment(x(at), TOP, x(at), bottom, "target", "luminaire", 1, { dash: "dashed" }),
    ),
    text([x(0), bottom + 34], "engine less trace, of the trace", "axis figure", { anchor: "middle" }),
  ];
  families.forEach(({ name, figures }, f) => {
    const base = TOP + ROW * (f + 1);
    const y = scaleLinear([0, Math.max(...counts[f])], [base, base - ROW + 14]);
    marks.push(
      ...counts[f].flatMap((count, bin) => {
        if (count === 0) return [];
        const [from, to] = [bin, bin + 1].map((edge) => x(-most + (2 * most * edge) / bins));
        const bar = rectangleBetween(from, y(count), to, base);
        return [line(bar, "profile line", "quiet", 0.75, { closed: true, fill: "hairline" })];
      }),
      segment(LEFT, base, WIDTH - RIGHT, base, "rule", "quiet", 0.75),
      text([LEFT - 10, base - ROW / 2], name, "line name", { anchor: "end", ink: "ink" }),
      text([LEFT - 10, base - ROW / 2 + 16], `${figures.length} figures`, "line name", { anchor: "end" }),
    );
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" role="img" font-family="${FONT}">
<title>${escapeText(title)}</title>
<rect width="${WIDTH}" height="${height}" fill="${DAY.sheet}"/>
${marksSvg(marks)}
</svg>
`;
}

const percent = (share: number) =>
  `${share > 0 ? "+" : ""}${Number((100 * share).toPrecision(3))} %`.replace("-", "−");
