/** A picture with what is printed under it, as a PNG. */

import { DAY } from "../drawing/palette.ts";

const MARGIN = 12;
const FIRST_LINE = 26;
const LINE = 22;

export function printedPicture(
  picture: HTMLCanvasElement,
  lines: readonly string[],
  fontFamily: string,
): Promise<Blob> {
  // Words as large beside the picture as they are on the screen.
  const scale = picture.clientWidth > 0 ? picture.width / picture.clientWidth : 1;
  const font = `${15 * scale}px ${fontFamily}`;
  const rows = lines.flatMap((line) => rowsWithin(line, picture.width - 2 * scale * MARGIN, font));
  const paper = document.createElement("canvas");
  paper.width = picture.width;
  paper.height = picture.height + scale * (FIRST_LINE + LINE * rows.length);
  const context = paper.getContext("2d") as CanvasRenderingContext2D;
  context.fillStyle = DAY.sheet;
  context.fillRect(0, 0, paper.width, paper.height);
  context.drawImage(picture, 0, 0);
  context.fillStyle = DAY.ink;
  context.font = font;
  rows.forEach((row, i) => {
    context.fillText(row, scale * MARGIN, picture.height + scale * (FIRST_LINE + LINE * i));
  });
  return new Promise((done, fail) =>
    paper.toBlob(
      (blob) => (blob === null ? fail(new Error("The picture could not be coded.")) : done(blob)),
      "image/png",
    ),
  );
}

/** Words of a line in rows no wider than a width (px). */
function rowsWithin(line: string, width: number, font: string): string[] {
  const measure = document.createElement("canvas").getContext("2d") as CanvasRenderingContext2D;
  measure.font = font;
  const rows = [""];
  for (const word of line.split(" ")) {
    const row = rows[rows.length - 1];
    const longer = row === "" ? word : `${row} ${word}`;
    if (row === "" || measure.measureText(longer).width <= width) rows[rows.length - 1] = longer;
    else rows.push(word);
  }
  return rows;
}

/** Offers a file to whoever looks at the page. */
export function offer(name: string, blob: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
