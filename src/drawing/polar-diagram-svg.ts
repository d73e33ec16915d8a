import type { IntensityDistribution } from "../photometry/intensity-distribution.ts";
import { DAY, type Palette } from "./palette.ts";
import { polarDiagram } from "./polar-diagram.ts";
import { escapeText, FONT, marksSvg } from "./svg-text.ts";

/** What every such drawing holds, and tells it from other files. */
export const POLAR_MARK = "<title>Polar diagram of";

/** The polar diagram as a whole SVG document, ending in a line break. `title` and `subtitle` may come from a
 * file; they are escaped. */
export function polarDiagramSvg(
  distribution: IntensityDistribution,
  title: string,
  subtitle = "",
  palette: Palette = DAY,
): string {
  const drawing = polarDiagram(distribution, title, subtitle);
  const { width, height } = drawing;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" font-family="${FONT}">
${POLAR_MARK}${escapeText(` ${title}`)}</title>
<desc>${escapeText(drawing.summary)}</desc>
<rect width="${width}" height="${height}" fill="${palette.sheet}"/>
${marksSvg(drawing.marks, { palette })}
</svg>
`;
}
