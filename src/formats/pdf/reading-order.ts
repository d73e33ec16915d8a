/**
 * The structure of a page for who hears it read: headings, paragraphs and tables in the order in which they were set,
 * drawings as figures with their sentence, rules and borders as nothing to read (ISO 32000-1, 14.7 and 14.8).
 *
 * Marks are tagged as they are drawn; the tree beside them holds their order.
 */

import type PDFDocument from "pdfkit";
import type { TextMark } from "../../drawing/drawing.ts";
import type { PaperMark, Sheet } from "../../drawing/paper/paper.ts";

type Doc = InstanceType<typeof PDFDocument>;
type Element = ReturnType<Doc["struct"]>;

const BORDERS: ReadonlySet<string> = new Set(["frame", "rule"]);

type Place = NonNullable<TextMark["reading"]>;

export class ReadingOrder {
  readonly #doc: Doc;
  readonly #root: Element;

  constructor(doc: Doc) {
    this.#doc = doc;
    this.#root = doc.struct("Document");
    doc.addStructure(this.#root);
  }

  /** Draws the marks of a sheet by `draw`, each within its tag. */
  sheet({ title, summary, marks }: Sheet, draw: (mark: PaperMark) => void): void {
    const section = this.#doc.struct("Sect", { title });
    this.#root.add(section);
    let figures = 0;
    let place: Place | undefined;
    let open: Element | undefined;
    for (const mark of marks) {
      const now = placeOf(mark);
      if (now === "border") {
        this.#doc.markContent("Artifact", { type: "Layout" });
        draw(mark);
        this.#doc.endMarkedContent();
        continue;
      }
      if (now === undefined) {
        // Marks of a drawing are one figure until words come between.
        if (open === undefined || place !== undefined) {
          figures++;
          open = this.#doc.struct("Figure", {
            alt: figures === 1 ? summary : "Drawing; the words beside it say what it shows.",
          });
          section.add(open);
        }
        place = undefined;
        this.#within(open, "Figure", () => draw(mark));
        continue;
      }
      if (place === undefined || place.block !== now.block || now.row === undefined) {
        const isSame = place !== undefined && place.block === now.block && now.row === undefined;
        if (!isSame) {
          open = this.#doc.struct(now.row === undefined ? now.role : "Table");
          section.add(open);
          this.#rows.clear();
        }
      }
      place = now;
      const element = now.row === undefined ? (open as Element) : this.#cell(open as Element, now);
      this.#within(element, now.role, () => draw(mark));
    }
    section.end();
  }

  readonly #rows = new Map<string, Element>();

  /** The cell of a table a mark belongs to; made with its row when first met. */
  #cell(table: Element, { role, row, column }: Place): Element {
    const made = (key: string, type: string, parent: Element): Element => {
      const row = this.#rows.get(key);
      if (row !== undefined) return row;
      const element = this.#doc.struct(type);
      parent.add(element);
      this.#rows.set(key, element);
      return element;
    };
    const line = made(`${row}`, "TR", table);
    return made(`${row} ${column}`, role, line);
  }

  #within(element: Element, tag: string, draw: () => void): void {
    element.add(this.#doc.markStructureContent(tag));
    draw();
    this.#doc.endMarkedContent();
  }

  end(): void {
    this.#root.end();
  }
}

/** Title blocks are read, each entry a paragraph of its own; borders are not; everything else without a place is drawn. */
function placeOf(mark: PaperMark): Place | "border" | undefined {
  if (mark.kind === "line" && BORDERS.has(mark.depicts)) return "border";
  if (mark.kind !== "text") return undefined;
  if (mark.reading !== undefined) return mark.reading;
  return mark.depicts === "title block" ? { block: mark, role: "P" } : undefined;
}
