/** Names of the files of a hand-over, known before there is any light to write about. */

/** Papers that are read on screens too; the others are print alone. */
export const ALSO_SVG: ReadonlySet<string> = new Set([
  "set-out",
  "elevations",
  "dimmers",
  "schedule",
  "client",
]);

/** Written whatever the study is; beside them are pages as drawings, as many as there are, and photometry of traced shades. */
export const ALWAYS_WRITTEN: readonly string[] = [
  "set.pdf",
  "drawing-list.pdf",
  "set-out.pdf",
  "set-out.dxf",
  "boxes.csv",
  "circuits.csv",
  "elevations.pdf",
  "dimmers.pdf",
  "schedule.pdf",
  "luminaires.csv",
  "client.pdf",
  "report.pdf",
  "mock-up.pdf",
  "illuminance.csv",
  "contents.txt",
];
