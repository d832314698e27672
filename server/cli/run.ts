/**
 * The command line without a process: words in, text out, an exit status back. The entry is server/cli/main.ts; tests
 * call this one.
 */
import type { AnalyseOptions } from '../../language/analysis/analyse.ts';
import type { Finding } from '../../language/checks/check.ts';
import { derivedAsDocument } from '../../language/documents/derived.ts';
import { findingsAsDocument } from '../../language/documents/findings.ts';
import { pageNamed, pageNames } from '../../language/documents/reference.ts';
import { format } from '../../language/format/format.ts';
import { createSyntax } from '../../language/grammar/services.ts';
import { savingsOf } from '../../language/mend/closures.ts';
import { withBroomLost } from '../../language/schedule/recall.ts';
import { whyNotFewer } from '../../language/schedule/why.ts';
import { nameRules } from '../../language/vocabulary/names.ts';
import { nearestAll } from '../../language/words/nearest.ts';
import { type Command, HELP, readArguments } from './arguments.ts';
import { exposureText } from './exposureText.ts';
import { type Entry, findEntries, readText, writeText } from './files.ts';
import { findingsText, type Looks, summaryText } from './findingText.ts';
import { pageText } from './pageText.ts';
import { explanationText, quantitiesText } from './quantityText.ts';
import { scheduleText } from './scheduleText.ts';
import { coloured, plain } from './terminal.ts';
import { createTexts, type Texts } from './texts.ts';
import { type Analysed, analyseFiles } from './workspace.ts';

/** What the commands need to know of the world, and where their words go. */
export interface World {
  readonly cwd: string;
  readonly version: string;
  /** Columns of the terminal; text is wrapped to them. */
  readonly columns: number;
  readonly colour: boolean;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Speaks the language server's protocol over this process's own streams. */
  readonly serve?: () => Promise<void>;
}

/** 0 clean, 1 findings of severity error (or files that the format would change), 2 wrong use or an unreadable file. */
export type Status = 0 | 1 | 2;

/** Does what the words ask for. Never throws for anything that stands in a file. */
export async function run(args: readonly string[], world: World): Promise<Status> {
  const command = readArguments(args);
  if ('misuse' in command) return fail(world, `${command.misuse}\nbroomline --help says more.`);
  switch (command.do) {
    case 'help':
      world.out(HELP);
      return 0;
    case 'version':
      world.out(`${world.version}\n`);
      return 0;
    case 'page':
      return page(command.word, world);
    case 'serve':
      await world.serve?.();
      return 0;
    default:
      return withEntries(command, world);
  }
}

type FileCommand = Extract<Command, { readonly paths: readonly string[] }>;

async function withEntries(command: FileCommand, world: World): Promise<Status> {
  const { entries, troubles } = findEntries(command.paths, world.cwd, command.root);
  const read = entries.map(entry => ({ entry, text: readText(entry.path, entry.root, world.cwd) }));
  const unread = read.flatMap(({ text }) => (typeof text === 'string' ? [] : [text]));
  const readable = read.flatMap(({ entry, text }) => (typeof text === 'string' ? [{ entry, text }] : []));
  for (const { trouble } of [...troubles, ...unread]) world.err(`broomline: ${trouble}\n`);
  const failed = troubles.length + unread.length > 0;
  const status = readable.length === 0 && failed ? 2 : await carryOut(command, readable, world);
  return failed ? 2 : status;
}

interface Readable {
  readonly entry: Entry;
  readonly text: string;
}

async function carryOut(command: FileCommand, files: readonly Readable[], world: World): Promise<Status> {
  switch (command.do) {
    case 'check':
      return check(command, files, world);
    case 'format':
      return formatFiles(command, files, world);
    default: {
      const [file] = files;
      if (file === undefined || files.length > 1)
        return fail(world, `${command.do} takes one file, not a folder of several.`);
      const [analysed] = await analyseFiles([file.entry], world.cwd, optionsOf(command));
      if (analysed === undefined) return fail(world, `${file.entry.path} is gone.`);
      return command.do === 'derive' ? derive(command, file, analysed, world) : explain(command, analysed, world);
    }
  }
}

// ── check ────────────────────────────────────────────────────────────────────────────────────────────────────────

async function check(
  command: FileCommand & { readonly do: 'check' },
  files: readonly Readable[],
  world: World,
): Promise<Status> {
  const analysed = await analyseFiles(
    files.map(({ entry }) => entry),
    world.cwd,
    optionsOf(command),
  );
  const findings = once(analysed.flatMap(each => each.findings));
  const texts = textsOf(analysed, world);
  if (command.format === 'json') printJson(findingsAsDocument(findings, files.length, texts), world);
  else world.out(findingsText(findings, files.length, texts, looksOf(world)));
  return statusOf(findings);
}

/** Several jobs use the same library: what is wrong in it is said once. */
function once(findings: readonly Finding[]): readonly Finding[] {
  const keyed = findings.map(finding => {
    const { code, message, place } = finding;
    return [JSON.stringify([place.file, place.start, place.end, code, message]), finding] as const;
  });
  return [...new Map(keyed.toReversed()).values()].toReversed();
}

// ── derive and explain ───────────────────────────────────────────────────────────────────────────────────────────

function derive(
  command: FileCommand & { readonly do: 'derive' },
  { entry }: Readable,
  analysed: Analysed,
  world: World,
): Status {
  const { findings } = analysed;
  if (command.format === 'json') printJson(derivedAsDocument(analysed), world);
  else {
    const name = textsOf([analysed], world).nameOf(entry.address);
    const looks = looksOf(world);
    const bays = exposureText(analysed.exposures, analysed.job.system, looks);
    const sections = [scheduleOf(analysed, world), bays].filter(text => text !== '').join('\n\n');
    world.out(quantitiesText(analysed, name, looks, sections));
  }
  const status = statusOf(findings);
  if (status !== 0) {
    const summary = summaryText(findings, 1, plain).replace(/\.$/, '');
    world.err(`broomline: the numbers stand on a job with ${summary}; broomline check shows them.\n`);
  }
  return status;
}

/** The schedule's section, with what is worked out only here; none for a library. */
function scheduleOf(analysed: Analysed, world: World): string {
  const { job, schedule, review } = analysed;
  if (job.plans.length === 0) return '';
  const { system } = job;
  const textOf = (file: string): string => analysed.textOf(file) ?? '';
  return scheduleText(
    {
      schedule,
      review,
      system,
      fewer: whyNotFewer(schedule),
      broomLost: withBroomLost(job, schedule),
      savings: savingsOf(job, schedule),
      results: { job, system, textOf },
    },
    looksOf(world),
  );
}

function explain(command: FileCommand & { readonly do: 'explain' }, analysed: Analysed, world: World): Status {
  const { quantities, findings } = analysed;
  const quantity = quantities.get(command.quantity);
  if (quantity === undefined) return fail(world, unknownQuantity(command.quantity, [...quantities.keys()]));
  world.out(explanationText(quantity, analysed.job, textsOf([analysed], world), looksOf(world)));
  return statusOf(findings);
}

function unknownQuantity(asked: string, paths: readonly string[]): string {
  if (paths.length === 0) return `Nothing is computed from this file, so there is no '${asked}'.`;
  const near = nearestAll(asked, paths);
  const inside = paths.filter(path => path.startsWith(`${asked}.`));
  const meant = near.length > 0 ? near : inside;
  const hint =
    meant.length > 0 ? `Did you mean ${meant.slice(0, 12).join(', ')}?` : 'broomline derive lists all there are.';
  return `There is no computed quantity '${asked}'. ${hint}`;
}

// ── format ───────────────────────────────────────────────────────────────────────────────────────────────────────

function formatFiles(
  { onlyCheck }: FileCommand & { readonly do: 'format' },
  files: readonly Readable[],
  world: World,
): Status {
  const syntax = createSyntax({ topLevelKinds: nameRules.topLevelKinds, rules: nameRules });
  const { nameOf } = createTexts(() => undefined, world.cwd);
  const would = onlyCheck ? 'would change' : 'changed';
  let [changed, failed] = [0, false];
  for (const { entry, text } of files) {
    const formatted = format(text, syntax);
    if (formatted === text) continue;
    const trouble = onlyCheck ? undefined : writeText(entry.path, formatted, world.cwd);
    if (trouble) world.err(`broomline: ${trouble.trouble}\n`);
    else world.out(`${would}  ${nameOf(entry.address)}\n`);
    changed += trouble ? 0 : 1;
    failed ||= trouble !== undefined;
  }
  world.out(`${changed} of ${files.length} ${files.length === 1 ? 'file' : 'files'} ${would}.\n`);
  return failed ? 2 : onlyCheck && changed > 0 ? 1 : 0;
}

// ── page ─────────────────────────────────────────────────────────────────────────────────────────────────────────

function page(word: string, world: World): Status {
  const markdown = pageNamed(word);
  if (markdown === undefined) {
    const meant = nearestAll(word, pageNames());
    const hint =
      meant.length > 0
        ? `Did you mean ${meant.slice(0, 4).join(', ')}?`
        : 'broomline page reference lists the kinds of block, broomline page checks the codes.';
    return fail(world, `There is no page on '${word}'. ${hint}`);
  }
  world.out(pageText(markdown, looksOf(world)));
  return 0;
}

// ── common ───────────────────────────────────────────────────────────────────────────────────────────────────────

function optionsOf(command: FileCommand): AnalyseOptions {
  return {
    ...('asOf' in command && command.asOf !== undefined && { asOf: command.asOf }),
    ...('system' in command && command.system !== undefined && { system: command.system }),
  };
}

/** A waived finding stays visible and fails nothing. */
function statusOf(findings: readonly Finding[]): Status {
  return findings.some(({ severity, waived }) => severity === 'error' && !waived) ? 1 : 0;
}

function textsOf(analysed: readonly Analysed[], world: World): Texts {
  return createTexts(file => analysed.map(each => each.textOf(file)).find(text => text !== undefined), world.cwd);
}

function looksOf(world: World): Looks {
  return { paint: world.colour ? coloured : plain, columns: world.columns };
}

function printJson(document: unknown, world: World): void {
  world.out(`${JSON.stringify(document, null, 2)}\n`);
}

function fail(world: World, words: string): 2 {
  world.err(`broomline: ${words}\n`);
  return 2;
}
