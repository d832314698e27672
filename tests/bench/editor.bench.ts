/**
 * What the editor feels, through the protocol in memory, all in one run: `npm run bench -- editor`.
 * From a key press to the findings of the text with it, the engine included; what a workspace of 500 files adds, also
 * while 200 of them have errors; what a library edit checks again; whether fast typing leaves a queue; memory after many
 * edits. Wall-clock times depend on what else the machine does, so the processor time of the process stands beside them.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { nameRules } from '../../language/vocabulary/names.ts';
import { type Client, startClient, uriOf } from '../editor/client.ts';
import { exampleFiles, FIRST, PLANT } from '../editor/examples.ts';
import { build, plainLangium } from './langium.ts';

const SMALL = 'sanderling-field/touchdown-17.broom';
const LARGE = 'large.broom';

const examples = exampleFiles();

/** The same job as many times over as make the lines wanted: every block again under names of its own. */
function largeJob(lines: number): string {
  const text = examples[SMALL]!;
  const heads = [...text.matchAll(/^([a-z-]+) +([A-Z]\w*)/gm)].filter(
    ([, kind]) => !['job', 'airport', 'runway'].includes(kind!),
  );
  const from = text.indexOf('\n', text.search(/^deposit /m) - 2);
  const [top, rest] = [text.slice(0, from), text.slice(from)];
  let all = top + rest;
  for (let i = 2; all.split('\n').length < lines; i++) {
    all += heads
      .reduce((copy, [, , name]) => copy.replaceAll(new RegExp(`\\b${name}\\b`, 'g'), `${name}x${i}`), rest)
      .replace(/^(conditions|cost|safety|environment|acceptance|warranty) ?\{[\s\S]*?^\}\n/gm, '');
  }
  return all;
}

interface Times {
  readonly wall: readonly number[];
  readonly cpu: readonly number[];
}

/**
 * Presses keys all over a text, and waits each time for the findings of it: every other one changes a number somewhere in
 * the job, the next one takes that back.
 * @param apart least time from one key to the next, ms; 0 presses it as soon as the findings are there
 */
async function change(client: Client, name: string, times: number, apart = 0): Promise<Times> {
  const wall: number[] = [];
  const cpu: number[] = [];
  const text = client.text(name);
  const ends = [...text.matchAll(/^ +[\w-]+: .*?\d(?![\d.])/gm)].map(found => found.index + found[0].length);
  for (let i = 0; i < times; i++) {
    // A prime, so that all parts of the text have their turn.
    const offset = ends[((i >> 1) * 7919) % ends.length]!;
    const before = text.slice(0, offset).split('\n');
    const position = { line: before.length - 1, character: before.at(-1)!.length };
    const end = { ...position, character: position.character + (i % 2) };
    const [began, spent] = [performance.now(), process.cpuUsage()];
    client.edit(name, i % 2 === 0 ? '1' : '', { start: position, end });
    await fresh(client, name);
    const took = performance.now() - began;
    wall.push(took);
    cpu.push(spentSince(spent));
    if (took < apart) await pause(apart - took);
  }
  return { wall, cpu };
}

/** Presses a key at the same place, again and again, and waits each time for the findings of that text. */
async function press(client: Client, name: string, times: number): Promise<Times> {
  const wall: number[] = [];
  const cpu: number[] = [];
  const text = client.text(name);
  const offset = text.lastIndexOf('}');
  const before = text.slice(0, offset).split('\n');
  const position = { line: before.length - 1, character: before.at(-1)!.length };
  for (let i = 0; i < times; i++) {
    const [began, spent] = [performance.now(), process.cpuUsage()];
    client.edit(
      name,
      i % 2 === 0 ? ' ' : '',
      i % 2 === 0
        ? { start: position, end: position }
        : { start: position, end: { ...position, character: position.character + 1 } },
    );
    await fresh(client, name);
    wall.push(performance.now() - began);
    cpu.push(spentSince(spent));
  }
  return { wall, cpu };
}

/** Waits for the findings of the newest text, as they are published. */
async function fresh(client: Client, name: string): Promise<void> {
  await client.diagnostics(name);
}

const at = (values: readonly number[], share: number) =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))]!;
const ms = (value: number) => `${value.toFixed(1)} ms`;

function row(what: string, said: string, goal = ''): void {
  console.log(`${what.padEnd(62)} ${said.padEnd(38)} ${goal}`);
}

async function open(files: Record<string, string>, ...names: string[]): Promise<Client> {
  const client = await startClient(files);
  for (const name of names) {
    client.open(name);
    await client.diagnostics(name);
  }
  return client;
}

// --- key press to findings ---

const large = largeJob(2000);
const files = { ...examples, [LARGE]: large };
console.log(`${SMALL}: ${examples[SMALL]!.split('\n').length} lines; ${LARGE}: ${large.split('\n').length} lines\n`);

async function keyPress(name: string, goal: string): Promise<void> {
  const client = await open(files, name);
  const times = name === LARGE ? 120 : 600;
  const say = (what: string, { wall, cpu }: Times) =>
    row(
      `${what}, ${name}`,
      `p50 ${ms(at(wall, 0.5))}, p95 ${ms(at(wall, 0.95))}`,
      `processor p50 ${ms(at(cpu, 0.5))}; goal p95 ${goal}`,
    );
  await press(client, name, 20);
  say('a blank to findings', await press(client, name, times));
  // One round over all numbers of the text, as somebody has worked in it for a while.
  await change(client, name, name === LARGE ? 60 : 300);
  say('a value to findings', await change(client, name, times));
  // As one types: between two keys there is time for what need not be done while somebody waits.
  say('  100 ms apart', await change(client, name, times / 2, 100));

  // The same text from nothing, and by Langium alone: its parser, scopes, linker and index, and no analysis.
  const { project } = client.running.session!;
  const plain = plainLangium(nameRules.topLevelKinds);
  const [langium, own, nothing]: [number[], number[], number[]] = [[], [], []];
  for (let i = 0; i < (name === LARGE ? 10 : 40); i++) {
    client.edit(name, `${client.text(name)} `);
    const document = await waitReady(project, name);
    const timed = async (into: number[], run: () => unknown) => {
      const before = performance.now();
      await run();
      into.push(performance.now() - before);
    };
    const parse = () => project.shared.workspace.LangiumDocumentFactory.fromString(client.text(name), document.uri);
    await timed(nothing, () => {
      parse();
      project.forgetAnalyses();
      project.known(document);
    });
    await timed(own, parse);
    await timed(langium, () => build(plain, client.text(name)));
  }
  row('  from nothing', `p50 ${ms(at(nothing, 0.5))}`, `of it parsing ${ms(at(own, 0.5))}`);
  row('  parsing and linking by Langium’s default services', `p50 ${ms(at(langium, 0.5))}`);
  await client.dispose();
}

async function waitReady(project: NonNullable<Client['running']['session']>['project'], name: string) {
  return (await project.ready(uriOf(name)))!;
}

function spentSince(before: NodeJS.CpuUsage): number {
  const used = process.cpuUsage(before);
  return (used.user + used.system) / 1000;
}

await keyPress(SMALL, '25 ms');
await keyPress(LARGE, '120 ms');

// --- fast typing ---

for (const name of [SMALL, LARGE]) {
  const client = await open(files, name);
  await press(client, name, 10);
  const published = client.published.length;
  for (let i = 0; i < 20; i++) {
    client.edit(name, `${client.text(name)} `);
    if (i < 19) await pause(60);
  }
  const last = performance.now();
  await fresh(client, name);
  row(
    `20 keys 60 ms apart, ${name}`,
    `last findings after ${ms(performance.now() - last)}`,
    `${client.published.length - published} times published`,
  );
  await client.dispose();
}

// --- a workspace of 500 files ---

const job = (i: number, wrong: boolean) =>
  examples[FIRST]!.replace('FirstJob', `Job${i}`).replace(
    'bays: 3',
    wrong ? 'bays: 3\n    no-such-property: 1' : 'bays: 3',
  );
const workspace = (wrong: number) => ({
  ...examples,
  ...Object.fromEntries(Array.from({ length: 500 }, (_, i) => [`job${i}.broom`, job(i, i < wrong)])),
});

async function inWorkspace(what: string, all: Record<string, string>, loaded: boolean): Promise<number> {
  const client = await startClient(all);
  const session = client.running.session!;
  if (loaded) {
    // All of them read and parsed, as after a search through the workspace.
    for (const name of Object.keys(all)) await session.project.ready(uriOf(name));
  }
  const began = performance.now();
  client.open(FIRST);
  await client.diagnostics(FIRST);
  const opened = performance.now() - began;
  await press(client, FIRST, 20);
  const times = await press(client, FIRST, 60);
  row(
    what,
    `opened in ${ms(opened)}, key p50 ${ms(at(times.cpu, 0.5))}`,
    `processor time; ${client.reads.length} files read`,
  );
  await client.dispose();
  return at(times.cpu, 0.5);
}

const alone = await inWorkspace('one job alone', examples, false);
const among = await inWorkspace('one job of 500, none else open', workspace(0), false);
const loaded = await inWorkspace('one job of 500, all loaded, 200 with errors', workspace(200), true);
row('ratio to the job alone', `${(among / alone).toFixed(2)}; ${(loaded / alone).toFixed(2)}`, 'goal under 1.3');

// --- a library edit ---

{
  const client = await startClient(workspace(0));
  const { project } = client.running.session!;
  for (const name of Object.keys(workspace(0))) await project.ready(uriOf(name));
  client.open(FIRST);
  client.open(PLANT);
  await client.diagnostics(FIRST);
  await client.diagnostics(PLANT);
  await press(client, PLANT, 10);
  const { analysed, parsed } = project;
  const times = await press(client, PLANT, 20);
  await pause(300);
  row(
    'a key in a library that 500 jobs use, one of them open',
    `p50 ${ms(at(times.cpu, 0.5))}`,
    `${(project.analysed - analysed) / 20} files analysed, ${(project.parsed - parsed) / 20} parsed for each key`,
  );
  await client.dispose();
}

// --- memory ---

{
  const client = await open(examples, FIRST);
  const collect = (globalThis as { gc?: () => void }).gc;
  const heap = () => {
    collect?.();
    return process.memoryUsage().heapUsed / 1024 / 1024;
  };
  const text = client.text(FIRST);
  const { project } = client.running.session!;
  const sizes: number[] = [];
  const number = text.search(/\d+ *m\b/);
  for (let i = 0; i < 10_000; i++) {
    client.edit(FIRST, text.slice(0, number) + (1 + (i % 7)) + text.slice(number));
    if (i % 20 === 19) await project.ready(uriOf(FIRST)).then(document => document && project.known(document));
    if (i % 2_000 === 1_999) {
      await fresh(client, FIRST);
      client.forgetPublished();
      sizes.push(heap());
    }
  }
  row(
    'heap after 2,000, 4,000 … 10,000 edits',
    sizes.map(size => size.toFixed(0)).join(', '),
    collect ? 'MB, collected' : 'MB, not collected: start node with --expose-gc',
  );
  await client.dispose();
}
