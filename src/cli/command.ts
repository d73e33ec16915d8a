/**
 * What every command of the command line is: a name, a usage, a table of options and something to run.
 *
 * Exit codes: 0 all verdicts meet, 1 something falls short, is too close to call or cannot hang, 2 bad input, 3 internal
 * fault.
 */

import { parseArgs } from "node:util";
import { type CandlespanError, refused } from "../diagnostics/candlespan-error.ts";
import { nearestWord } from "../diagnostics/nearest-word.ts";
import { wrapped } from "../words/table.ts";

export const EXIT = { met: 0, notMet: 1, badInput: 2, fault: 3 } as const;

/** The two streams a command speaks to. Results go to `out`; progress, warnings and errors to `err`. */
export interface Io {
  out(text: string): void;
  err(text: string): void;
  /** Whether a person watches `err` on a terminal. */
  readonly interactive?: boolean;
  /** Letters in a line of the terminal that shows `out`; absent where there is none. */
  readonly columns?: number;
  /** Asks the person at the terminal; absent where nobody can answer. */
  ask?(question: string): Promise<string>;
}

export interface Option {
  readonly type: "string" | "boolean";
  readonly short?: string;
  readonly multiple?: boolean;
  readonly default?: string;
  /** Placeholder of the value in the help, e.g. `FOLDER`. */
  readonly value?: string;
  /** The only values there are. */
  readonly choices?: readonly string[];
  /** The names a value is made of, separated by commas. */
  readonly names?: readonly string[];
  readonly description: string;
}

export const flag = (description: string): Option => ({ type: "boolean", description });

/** @param value placeholder in the help @param fallback taken where the option is not given */
export const oneValue = (value: string, description: string, fallback?: string): Option => ({
  type: "string",
  value,
  description,
  default: fallback,
});

export const manyValues = (value: string, description: string): Option => ({
  ...oneValue(value, description),
  multiple: true,
});

export const oneOf = (choices: readonly string[], description: string, fallback?: string): Option => ({
  type: "string",
  choices,
  description,
  default: fallback,
});

/** Arguments after the options were taken out, and the options by name. */
export class Arguments {
  readonly positionals: readonly string[];
  readonly #values: Readonly<Record<string, string | boolean | readonly (string | boolean)[] | undefined>>;

  constructor(
    positionals: readonly string[],
    values: Readonly<Record<string, string | boolean | readonly (string | boolean)[] | undefined>>,
  ) {
    this.positionals = positionals;
    this.#values = values;
  }

  flag(name: string): boolean {
    return this.#values[name] === true;
  }

  /** Value of a string option; undefined when it was not given and has no default. */
  text(name: string): string | undefined {
    const value = this.#values[name];
    return typeof value === "string" ? value : undefined;
  }

  /** All values of a repeatable string option. */
  texts(name: string): readonly string[] {
    const value = this.#values[name];
    return Array.isArray(value) ? (value as string[]) : typeof value === "string" ? [value] : [];
  }
}

export interface Command {
  readonly name: string;
  /** After the program's name, e.g. `check STUDY [options]`. */
  readonly usage: string;
  readonly summary: string;
  /** Smallest and largest number of arguments beside options. */
  readonly arguments: readonly [least: number, most: number];
  readonly options: Readonly<Record<string, Option>>;
  /** Further paragraphs of `--help`. */
  readonly details?: string;
  /** Returns the exit code. Throws {@link CandlespanError} on bad input. */
  run(args: Arguments, io: Io): Promise<number>;
}

/** The allowance every command takes that follows paths written in a study. */
export const ALLOW_OUTSIDE: Readonly<Record<string, Option>> = {
  "allow-outside": manyValues("FOLDER", "let the study's paths lead into FOLDER as well; repeatable"),
};

/** Error of the way the program was called. */
export function usageError(message: string, expected?: string, received?: string): CandlespanError {
  return refused({ code: "cli-usage", message, expected, received });
}

export function parseArguments(command: Command, argv: readonly string[]): Arguments {
  const options: Record<string, { type: "string" | "boolean"; short?: string; multiple?: boolean }> = {};
  for (const [name, option] of Object.entries(command.options)) {
    options[name] = { type: option.type, multiple: option.multiple === true };
    if (option.short !== undefined) options[name].short = option.short;
  }
  let parsed: ReturnType<typeof parseArgs>;
  try {
    parsed = parseArgs({ args: [...argv], options, allowPositionals: true, strict: true });
  } catch (error) {
    throw usageError(...wrongOption(command, (error as Error).message));
  }
  const values = { ...parsed.values } as Record<string, string | boolean | undefined>;
  for (const [name, option] of Object.entries(command.options)) {
    values[name] ??= option.default;
    const value = values[name];
    if (option.choices === undefined || value === undefined) continue;
    // Letter case is nobody's mistake: a4 is A4.
    const meant = option.choices.find((choice) => choice.toLowerCase() === String(value).toLowerCase());
    if (meant === undefined)
      throw usageError(`--${name} has a value it does not know.`, option.choices.join(", "), String(value));
    values[name] = meant;
  }
  const [least, most] = command.arguments;
  const count = parsed.positionals.length;
  if (count < least || count > most)
    throw usageError(
      `\`${command.name}\` was given ${count === 0 ? "nothing to work on" : `${count} argument${count === 1 ? "" : "s"}`}.`,
      `\`candlespan ${command.usage}\``,
    );
  return new Arguments(parsed.positionals, values);
}

/** What parsing said of an option, and what was expected. */
function wrongOption(command: Command, said: string): [message: string, expected?: string] {
  const names = Object.keys(command.options);
  const unknown = /^Unknown option '(-[^' ]+)/.exec(said)?.[1];
  if (unknown !== undefined) {
    const meant = nearestWord(unknown.replace(/^-+/, ""), names);
    return [
      `\`${command.name}\` has no option ${unknown}.${meant === undefined ? "" : ` Did you mean "--${meant}"?`}`,
      names.map((name) => `--${name}`).join(", ") || "no options",
    ];
  }
  const alone = /^Option '(?:-\w, )?--([^' ]+).*' argument missing/.exec(said)?.[1];
  if (alone !== undefined) {
    const { value = "a value", choices, names, description } = command.options[alone];
    const known = (choices ?? names)?.join(", ");
    return [`--${alone} is followed by nothing.`, known ?? `${value}, ${description}`];
  }
  const dashed = /^Option '(?:-\w, )?(--[^' ]+).*' argument is ambiguous/.exec(said)?.[1];
  if (dashed !== undefined)
    return [
      `${dashed} is followed by what begins with a dash.`,
      `its value, one that begins so as ${dashed}=-5`,
    ];
  return [said.split("\n")[0].replace(/\.?$/, ".")];
}

/** Letters in a line of help: the terminal's, but no more than are read with ease; of a file or pipe, what most terminals have. */
export function helpWidth({ columns = 80 }: Pick<Io, "columns">): number {
  return Math.min(Math.max(columns, 40), 100);
}

/** Paragraphs broken at `width`: a line goes on where no sentence ends; lists and examples, further in, keep their own lines. */
export function flowing(words: string, width: number): string {
  return words
    .replace(/(?<![.:!?;\n])\n(?=[^\s{])/g, " ")
    .split("\n")
    .flatMap((line) => (line === "" ? [line] : wrapped(line, width)))
    .join("\n");
}

/** Names, each with what it means beside it, or below where a name is long or the lines are narrow. */
export function glossary(rows: readonly (readonly [name: string, meaning: string])[], width: number): string {
  const wide = Math.min(30, Math.floor(0.4 * width), Math.max(...rows.map(([name]) => name.length)));
  return rows
    .flatMap(([name, meaning]) => {
      const [first = "", ...rest] = wrapped(meaning, width, wide + 4);
      return name.length > wide
        ? [`  ${name}`, first, ...rest]
        : [`  ${name.padEnd(wide)}  ${first.trimStart()}`, ...rest];
    })
    .join("\n");
}

/** The text of `candlespan NAME --help`. */
export function helpOf(command: Command, width: number): string {
  const rows = Object.entries({
    ...command.options,
    help: flag("this text"),
  }).map(([name, option]): readonly [string, string] => {
    const short = option.short === undefined ? "" : `-${option.short}, `;
    const value = option.type === "string" ? ` ${option.value ?? option.choices?.join("|") ?? "VALUE"}` : "";
    const fallback = option.default === undefined ? "" : ` (default ${option.default})`;
    return [`${short}--${name}${value}`, option.description + fallback];
  });
  const details = command.details === undefined ? "" : `\n${flowing(command.details.trim(), width)}\n`;
  return `candlespan ${command.usage}\n\n${flowing(command.summary, width)}\n${details}\nOptions\n${glossary(rows, width)}\n`;
}
