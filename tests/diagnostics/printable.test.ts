import { expect, it } from "vitest";
import { printable } from "../../src/diagnostics/printable.ts";

it("keeps a terminal and a reader from being led astray", () => {
  expect(printable("plain äöü γ 90°")).toBe("plain äöü γ 90°");
  expect(printable("a\u001b[31mred\u0007")).toBe("a·[31mred·");
  expect(printable("two\r\nlines\tand a tab")).toBe("two lines and a tab");
  expect(printable("\u202egnp.exe")).toBe("·gnp.exe");
  expect(printable("x".repeat(5000))).toHaveLength(200);
  expect(printable("💡".repeat(300), 10)).toBe(`${"💡".repeat(9)}…`);
});
