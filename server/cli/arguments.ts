/** The command line's words: what was asked for, or what is wrong with it. */
import { parseArgs } from 'node:util';
import type { System } from '../../language/units/index.ts';
import { nearest } from '../../language/words/nearest.ts';

export type Format = 'text' | 'json';

export type Command =
  | {
      readonly do: 'check';
      readonly paths: readonly string[];
      readonly format: Format;
      readonly asOf?: string;
      readonly system?: System;
      readonly root?: string;
    }
  | {
      readonly do: 'derive';
      readonly paths: readonly [string];
      readonly format: Format;
      readonly asOf?: string;
      readonly system?: System;
      readonly root?: string;
    }
  | {
      readonly do: 'explain';
      readonly paths: readonly [string];
      readonly quantity: string;
      readonly system?: System;
      readonly root?: string;
    }
  | { readonly do: 'page'; readonly word: string }
  | { readonly do: 'serve' }
  | { readonly do: 'format'; readonly paths: readonly string[]; readonly onlyCheck: boolean; readonly root?: string }
  | { readonly do: 'help' }
  | { readonly do: 'version' };

/** What is wrong with the call, in one or two sentences. */
export interface Misuse {
  readonly misuse: string;
}

export const HELP = `broomline checks and computes runway rubber removal jobs written in .broom files.

  broomline check PATHS…            what is wrong with the files, or with all .broom files of a folder
  broomline derive FILE             what is computed from the job: areas, rates, loads, water, hours
  broomline explain FILE QUANTITY   where one number comes from, down to the lines of the text
  broomline page WORD               what a kind of block, or the code of a finding, is about; also: reference,
                                    statements, values, checks
  broomline serve --stdio           the language server, for any editor that speaks the protocol
  broomline format PATHS…           writes the files in the one layout; --check only says which would change

  --format text|json   for a person (the default) or for another program       check, derive
  --units metric|us    show numbers in these units, not in the author's own    check, derive, explain
  --as-of DATE         judge waivers on this date, not on the job's own        check, derive
  --root DIR           read nothing outside this folder; by default the
                       nearest folder above with a .git or a package.json,
                       or else the folder you are in                           all
  --help, --version

Exit status: 0 clean, 1 findings of severity error, 2 wrong use or a file that can't be read.
Colours follow NO_COLOR and FORCE_COLOR, and are left out where no person is reading.

It computes; it certifies nothing. The airport operator, the safety data sheet, local codes and a licensed engineer's
judgement come first.
`;

const OPTIONS = {
  format: { type: 'string' },
  units: { type: 'string' },
  'as-of': { type: 'string' },
  root: { type: 'string' },
  stdio: { type: 'boolean' },
  // Editors that start a server by command say which process of theirs it belongs to.
  clientProcessId: { type: 'string' },
  check: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
} as const;

type OptionName = keyof typeof OPTIONS;

const COMMANDS = {
  check: { takes: ['format', 'units', 'as-of', 'root'], call: 'broomline check PATHS…' },
  derive: { takes: ['format', 'units', 'as-of', 'root'], call: 'broomline derive FILE' },
  explain: { takes: ['units', 'root'], call: 'broomline explain FILE QUANTITY' },
  page: { takes: [], call: 'broomline page WORD, a kind of block or the code of a finding' },
  format: { takes: ['check', 'root'], call: 'broomline format PATHS…' },
  serve: { takes: ['stdio', 'clientProcessId'], call: 'broomline serve --stdio' },
} as const satisfies Record<string, { readonly takes: readonly OptionName[]; readonly call: string }>;

type CommandName = keyof typeof COMMANDS;

/** Reads the words after the program's name. Total. */
export function readArguments(args: readonly string[]): Command | Misuse {
  const { values, positionals, tokens } = parseArgs({
    args: [...args],
    options: OPTIONS,
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  if (values.help === true || positionals[0] === 'help') return { do: 'help' };
  if (values.version === true) return { do: 'version' };

  const [name, ...words] = positionals;
  if (name === undefined) return { misuse: `A command is missing: ${list(Object.keys(COMMANDS))}.` };
  if (!Object.hasOwn(COMMANDS, name)) {
    const meant = nearest(name, Object.keys(COMMANDS));
    return {
      misuse: `There is no command '${name}'.${meant ? ` Did you mean ${meant}?` : ` There are ${list(Object.keys(COMMANDS))}.`}`,
    };
  }
  const command = name as CommandName;
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    const problem = optionProblem(token, command);
    if (problem !== undefined) return { misuse: problem };
  }
  return commandFrom(command, words, values as Values);
}

interface Values {
  readonly stdio?: boolean;
  readonly format?: string;
  readonly units?: string;
  readonly 'as-of'?: string;
  readonly root?: string;
  readonly check?: boolean;
}

function optionProblem(
  token: { readonly name: string; readonly rawName: string; readonly value?: string | undefined },
  command: CommandName,
): string | undefined {
  const { name, rawName, value } = token;
  const taken: readonly string[] = COMMANDS[command].takes;
  if (!Object.hasOwn(OPTIONS, name)) {
    const meant = nearest(name, taken);
    return `There is no option ${rawName}.${meant ? ` Did you mean --${meant}?` : ''}`;
  }
  if (!taken.includes(name)) return `${rawName} says nothing to ${command}.`;
  const wantsValue = OPTIONS[name as OptionName].type === 'string';
  // Without strictness, `--format --root x` would take the next option for the value.
  if (wantsValue && (value === undefined || value === '' || value.startsWith('--'))) return `${rawName} needs a value.`;
  if (!wantsValue && value !== undefined) return `${rawName} takes no value.`;
  return undefined;
}

function commandFrom(command: CommandName, words: readonly string[], values: Values): Command | Misuse {
  const { format = 'text', units, 'as-of': asOf, root } = values;
  if (format !== 'text' && format !== 'json') return { misuse: `--format is text or json, not '${format}'.` };
  if (asOf !== undefined && !isDate(asOf)) return { misuse: `--as-of takes a date such as 2031-04-07, not '${asOf}'.` };
  const system: System | undefined = units === 'metric' || units === 'us' ? units : undefined;
  if (units !== undefined && system === undefined) return { misuse: `--units is metric or us, not '${units}'.` };
  const common = root === undefined ? {} : { root };
  const shown = { ...common, ...(system !== undefined && { system }) } as const;
  const dated = { ...shown, format, ...(asOf !== undefined && { asOf }) } as const;
  const missing = { misuse: `The call is: ${COMMANDS[command].call}` };
  if (command === 'serve') return values.stdio === true && words.length === 0 ? { do: 'serve' } : missing;
  const [first, second] = words;
  if (first === undefined) return missing;
  switch (command) {
    case 'check':
      return { do: 'check', paths: words, ...dated };
    case 'format':
      return { do: 'format', paths: words, onlyCheck: values.check === true, ...common };
    case 'derive':
      return words.length === 1 ? { do: 'derive', paths: [first], ...dated } : missing;
    case 'explain':
      return second !== undefined && words.length === 2
        ? { do: 'explain', paths: [first], quantity: second, ...shown }
        : missing;
    case 'page':
      return words.length === 1 ? { do: 'page', word: first } : missing;
  }
}

/** A day of the calendar, ISO 8601. */
function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

function list(words: readonly string[]): string {
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
