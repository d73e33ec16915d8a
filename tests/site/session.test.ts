/** The session: what is said goes when what it speaks of is over. */
import { expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { readFiles } from "../../site/components/read-files.ts";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { StudySession } from "../../site/session.ts";
import type { FileReading } from "../../src/workers/browser.ts";

function begun(): StudySession {
  const session = new StudySession();
  session.resume(example as unknown as RawStudy);
  return session;
}

/** Handlers of the buttons in a template, in order. */
function handlers(template: unknown): (() => void)[] {
  if (Array.isArray(template)) return template.flatMap(handlers);
  // What takes an element is no handler but a reference to it.
  if (typeof template === "function") return template.length === 0 ? [template as () => void] : [];
  const values = (template as { values?: unknown } | undefined)?.values;
  return Array.isArray(values) ? values.flatMap(handlers) : [];
}

it("drops the last line said with the next edit (2026-11: the note of the file read stayed for ever)", () => {
  const session = begun();
  session.say("It read globe-opal.ldt: an opal globe.");
  session.edit({ name: "rename", edits: [{ path: ["title"], value: "Mine" }] });
  expect(session.screen.line).toBe("");
  session.undo();
  expect(session.screen.line).toBe("Undone: rename.");
});

it("drops the note of a file once it is hung, kept or left", () => {
  const reading = { path: "photometry/a.ies", ok: true, line: "It read a.ies.", issues: [] };
  const count = handlers(readFilesOf(begun())).length;
  // Hang it in pendants, in ambient, keep it, leave it.
  expect(count).toBe(4);
  for (let k = 0; k < count; k++) {
    const session = begun();
    handlers(readFilesOf(session))[k]();
    expect(session.given.readings).toEqual([]);
    expect(session.screen.line).toBe("");
  }
  function readFilesOf(session: StudySession) {
    session.given.add([reading as unknown as FileReading], new Map([[reading.path, new Uint8Array([65])]]));
    session.say(reading.line);
    return readFiles(session);
  }
});

it("keeps a setting on screen under its new name, and back (2026-11-28: the screen went to As dimmed)", () => {
  const session = begun();
  const option = session.study.arrangements.findIndex(({ settings = [] }) => settings.length > 1);
  session.showArrangement(option);
  const name = session.study.arrangements[option].settings?.[1].name;
  session.showSetting(name);
  expect(session.setting).toBe(name);
  session.edit({
    name: "rename setting",
    edits: [{ path: ["arrangements", option, "settings", 1, "name"], value: "late" }],
  });
  expect(session.setting).toBe("late");
  session.undo();
  expect(session.setting).toBe(name);
  session.redo();
  expect(session.setting).toBe("late");
  session.edit({
    name: "remove setting",
    edits: [{ path: ["arrangements", option, "settings", 1], value: undefined }],
  });
  expect(session.setting).toBe(undefined);
});
