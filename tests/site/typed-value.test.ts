/** 2026-11-28: a value was drawn anew under the focus when the light arrived, before a letter was typed. */
import { noChange } from "lit";
import { PartType } from "lit/directive.js";
import { beforeEach, describe, expect, it } from "vitest";
import { isTypedIn, typedValue } from "../../site/components/typed-value.ts";

type Held = { update(part: unknown, values: [string]): unknown };

let field: EventTarget & { value: string };
let draw: (value: string) => void;
beforeEach(() => {
  field = Object.assign(new EventTarget(), { value: "" });
  const { _$litDirective$: Kind } = typedValue("") as unknown as {
    _$litDirective$: new (part: unknown) => Held;
  };
  const part = { type: PartType.PROPERTY, element: field };
  const held = new Kind(part);
  draw = (value) => expect(held.update(part, [value])).toBe(noChange);
  draw("1027 mm");
});

const fire = (type: string): boolean => field.dispatchEvent(new Event(type));
const press = (key: string): boolean => field.dispatchEvent(Object.assign(new Event("keydown"), { key }));
const type = (text: string): void => {
  field.value = text;
  fire("input");
};

describe("a field with the focus", () => {
  it("keeps what stands there until it is left, also before a letter is typed", () => {
    fire("focus");
    draw("1031 mm");
    expect(field.value).toBe("1027 mm");
    expect(isTypedIn(field as unknown as Element)).toBe(false);
    fire("blur");
    expect(field.value).toBe("1031 mm");
    draw("1033 mm");
    expect(field.value).toBe("1033 mm");
  });

  it("keeps what is typed, shows what was made of it, and keeps that from the next key on", () => {
    fire("focus");
    type("85");
    expect(isTypedIn(field as unknown as Element)).toBe(true);
    draw("1031 mm");
    expect(field.value).toBe("85");
    press("Enter");
    fire("change");
    expect(isTypedIn(field as unknown as Element)).toBe(false);
    draw("850 mm");
    draw("851 mm");
    expect(field.value).toBe("851 mm");
    press("ArrowLeft");
    draw("852 mm");
    expect(field.value).toBe("851 mm");
    fire("blur");
    expect(field.value).toBe("852 mm");
  });

  it("is free after Escape, and shows the newest value when a text typed and taken back is left", () => {
    fire("focus");
    type("8");
    press("Escape");
    draw("1031 mm");
    expect(field.value).toBe("1031 mm");
    type("9");
    draw("1033 mm");
    type("1031 mm");
    fire("blur");
    expect(field.value).toBe("1033 mm");
  });

  it("leaves an entered text standing until whoever took it draws it", () => {
    fire("focus");
    type("new title");
    fire("change");
    fire("blur");
    expect(field.value).toBe("new title");
  });
});
