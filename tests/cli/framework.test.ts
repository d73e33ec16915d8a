/** The frame of the command line: help on everything, exit codes, options, and text that a terminal may not obey. */
import { readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { type Command, parseArguments } from "../../src/cli/command.ts";
import { COMMANDS } from "../../src/cli/commands.ts";
import { VERSION } from "../../src/diagnostics/version.ts";
import { called } from "../support/cli.ts";

describe("the command line", () => {
  it("has the package's version", async () => {
    const { version } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
    expect(VERSION).toBe(version);
    expect((await called("--version")).out).toBe(`candlespan ${version}\n`);
  });

  it("explains itself and every command", async () => {
    const overview = await called("--help");
    expect(overview.code).toBe(0);
    // 2026-11-29: "… with its uncertainty.  new       a study to start from".
    expect(overview.out).toMatch(/uncertainty\.\n\n {2}new {2}/);
    expect(overview.out).toMatch(/\n\nExit code: 0 /);
    for (const { name, load } of COMMANDS) {
      expect(overview.out).toContain(`  ${name} `);
      const help = await called(name, "--help");
      expect(help.code).toBe(0);
      const command = await load();
      expect(command.name).toBe(name);
      expect(help.out).toContain(`candlespan ${command.usage}`);
      for (const option of Object.keys(command.options)) expect(help.out).toContain(`--${option}`);
    }
  });

  it("answers a wrong call with exit 2 and what was expected", async () => {
    expect(await called()).toMatchObject({ code: 2, out: "" });
    const unknown = await called("chekc");
    expect(unknown).toMatchObject({ code: 2, out: "" });
    expect(unknown.err).toContain('There is no such command. Did you mean "check"? Expected ');
    const option = await called("check", "x", "--josn");
    expect(option).toMatchObject({ code: 2, out: "" });
    expect(option.err).toContain("no option --josn");
    expect((await called("check", "x", "--fail-on", "sometimes")).err).toContain("never, short, close");
    expect((await called("isolux")).err).toContain("nothing to work on");
    expect((await called("isolux", "a", "b")).code).toBe(2);
  });

  it("asks what was meant, and names the guide (2026-11-29)", async () => {
    const said = async (...argv: string[]): Promise<string> => (await called(...argv)).err;
    expect(await said("chekc")).toContain('Did you mean "check"?');
    expect(await said("isolux", "x", "--value")).toContain('Did you mean "--values"?');
    expect(await said("schema", "chek")).toContain('Did you mean "check"?');
    expect(await said("boxes", "x", "--error", "-5 mm")).toBe(
      "--error is followed by what begins with a dash. Expected its value, one that begins so as --error=-5.\n",
    );
    // 2026-11-29: "Option '--rules <value>' argument missing.", where its identifiers are what is asked for.
    expect(await said("boxes", "x", "--rules")).toMatch(
      /^--rules is followed by nothing\. Expected above-top-30-36, .*, flux-30-40-of-floor\.\n$/,
    );
    expect(await said("check", "x", "--fail-on")).toContain("Expected never, short, close.");
    expect(await said("swap", "x", "y", "--layer")).toContain("Expected NAME, the layer");
    const { out } = await called("--help");
    for (const page of ["study-format", "kitchen", "accuracy"]) expect(out).toContain(`guide/${page}.html`);
  });

  it("loads nothing of a command before it is asked for, so that help starts at once", () => {
    const source = fileURLToPath(new URL("../../src/", import.meta.url));
    const seen = new Set<string>();
    const visit = (file: string): void => {
      if (seen.has(file)) return;
      seen.add(file);
      const text = readFileSync(file, "utf8");
      for (const [, type, specifier] of text.matchAll(
        /^(?:import|export)\s+(type\s)?[^;]*?from "(\.[^"]+)"/gm,
      ))
        if (type === undefined) visit(resolve(dirname(file), specifier));
    };
    visit(join(source, "cli", "main.ts"));
    // Lines of text and plain letters: two small files that import nothing.
    const heavy = [...seen].filter(
      (file) => !/\/src\/(cli|diagnostics)\/|\/(words\/table|writers\/ascii-text)\.ts$/.test(file),
    );
    expect(seen.size).toBeGreaterThan(4);
    expect(heavy).toEqual([]);
    expect([...seen].filter((file) => /\/cli\/commands\//.test(file))).toEqual([]);
  });

  it("lists the published targets without a study", async () => {
    const { code, out } = await called("check", "--targets");
    expect(code).toBe(0);
    expect(out).toContain("catering-kitchen-en");
    const listed = JSON.parse((await called("check", "--targets", "--json")).out) as { id: string }[];
    expect(listed.map(({ id }) => id)).toContain("preparation");
  });

  it("says a control character of a path, never sends it", async () => {
    const { code, err } = await called("check", "a\u001b[2J\nb");
    expect(code).toBe(2);
    expect(err).not.toContain("\u001b");
    expect(err.trimEnd()).not.toContain("\n");
  });

  it("takes defaults, repeats and choices from the table of options", () => {
    const command: Command = {
      name: "try",
      usage: "try",
      summary: "",
      arguments: [0, 1],
      options: {
        at: { type: "string", multiple: true, description: "" },
        mode: { type: "string", default: "a", choices: ["a", "b"], description: "" },
        on: { type: "boolean", description: "" },
      },
      run: async () => 0,
    };
    const args = parseArguments(command, ["-", "--at", "1,2", "--at=-3,4"]);
    expect(args.positionals).toEqual(["-"]);
    expect(args.texts("at")).toEqual(["1,2", "-3,4"]);
    expect(args.text("mode")).toBe("a");
    expect(args.flag("on")).toBe(false);
  });
});
