/** An analysis that builds on that of the text before says what an analysis from nothing says. */
import fc from 'fast-check';
import { URI } from 'langium';
import { expect, test } from 'vitest';
import type { Analysis } from '../../language/analysis/analyse.ts';
import { chemicalJob } from '../../language/checks/example.ts';
import { asFileSystem } from '../../server/environment.ts';
import { Project } from '../../server/project/project.ts';
import { memoryFiles, ROOT, uriOf } from '../editor/client.ts';
import { exampleFiles } from '../editor/examples.ts';

const examples = exampleFiles();

async function opened(texts: Readonly<Record<string, string>>): Promise<Project> {
  // An absurd number can make a job whose schedule takes minutes; that is not what is asked here.
  const patience = () => {
    const began = performance.now();
    return () => performance.now() - began > 1500;
  };
  const project = new Project(asFileSystem(memoryFiles(new Map(Object.entries(texts)))), patience);
  project.setFolders([URI.parse(ROOT)]);
  for (const [name, text] of Object.entries(texts)) project.open(uriOf(name), 'broomline', 1, text);
  return project;
}

async function analysisOf(project: Project, name: string): Promise<Analysis> {
  const known = project.known((await project.ready(uriOf(name)))!);
  if ('fault' in known) throw new Error(known.fault);
  return known.analysis;
}

/** Everything an analysis says, in a form that can be compared; functions by their presence. */
function said({ job, quantities, schedule, review, works, exposures, findings }: Analysis): unknown {
  const { built: _, ...planned } = schedule;
  const plain = (_key: string, value: unknown): unknown => {
    if (typeof value === 'function') return 'function';
    if (typeof value === 'number' && !Number.isFinite(value)) return String(value);
    if (value instanceof Map) return [...value];
    if (value instanceof Set) return [...value];
    return value;
  };
  const text = (part: unknown) => JSON.parse(JSON.stringify(part, plain) ?? 'null') as unknown;
  return {
    blocks: text(job.blocks),
    ids: [...job.byId.keys()],
    plans: text(job.plans),
    problems: text(job.problems),
    requirements: text(job.requirements),
    waivers: text(job.waivers),
    quantities: [...quantities].map(([path, { inputs, ...rest }]) => [path, text(rest), inputs.map(each => each.path)]),
    schedule: text({ ...planned, calendar: undefined }),
    review: text(review),
    works: text(
      works.map(({ plan, ...rest }) => [plan.work.id, rest.start, rest.end, rest.bays.map(bay => bay.activities)]),
    ),
    exposures: text(exposures.map(each => each.exposure)),
    findings: text(findings),
  };
}

type Edit = (text: string) => string;

/** A number of the text becomes another one, as when a value is tried. */
const numbers = fc.record({ at: fc.nat(), by: fc.constantFrom('5', '1', '20', '0', '2.5') }).map(
  ({ at, by }): Edit =>
    text => {
      const found = [...text.matchAll(/(?<![\w"-])\d+(?:\.\d+)?(?![\w"-])/g)];
      const chosen = found[at % Math.max(1, found.length)];
      return chosen ? text.slice(0, chosen.index) + by + text.slice(chosen.index + chosen[0].length) : text;
    },
);
/** A line goes, comes twice, or changes places with the next one. */
const lines = fc.record({ at: fc.nat(), how: fc.constantFrom('drop', 'double', 'swap', 'comment', 'blank') }).map(
  ({ at, how }): Edit =>
    text => {
      const all = text.split('\n');
      const i = at % all.length;
      const line = all[i]!;
      if (how === 'drop') all.splice(i, 1);
      else if (how === 'double') all.splice(i, 0, line);
      else if (how === 'comment') all[i] = `// ${line}`;
      else if (how === 'blank') all.splice(i, 0, '');
      else if (i + 1 < all.length) all.splice(i, 2, all[i + 1]!, line);
      return all.join('\n');
    },
);
/** A block at the top goes to the end, or goes. */
const blocks = fc.record({ at: fc.nat(), keep: fc.boolean() }).map(
  ({ at, keep }): Edit =>
    text => {
      const found = [...text.matchAll(/^[a-z-]+ .*\{\n(?: .*\n|\n)*\}\n/gm)];
      const chosen = found[at % Math.max(1, found.length)];
      if (!chosen) return text;
      const rest = text.slice(0, chosen.index) + text.slice(chosen.index + chosen[0].length);
      return keep ? `${rest}\n${chosen[0]}` : rest;
    },
);
/** A name becomes another one everywhere. */
const names = fc.record({ at: fc.nat(), to: fc.constantFrom('Other', 'North', 'Sprayer1') }).map(
  ({ at, to }): Edit =>
    text => {
      const found = [...text.matchAll(/^ *[a-z-]+ +([A-Z]\w*)/gm)];
      const name = found[at % Math.max(1, found.length)]?.[1];
      return name ? text.replaceAll(new RegExp(`\\b${name}\\b`, 'g'), to) : text;
    },
);
const characters = fc.record({ at: fc.nat(), text: fc.constantFrom(' ', '}', '{', ':', 'x', '\n', '', '"') }).map(
  ({ at, text: added }): Edit =>
    text => {
      const i = at % (text.length + 1);
      return text.slice(0, i) + added + text.slice(i + (added === '' ? 1 : 0));
    },
);

/** A value, or the line of one, is written only so far, as while somebody types. */
const halves = fc.record({ at: fc.nat(), keep: fc.nat(12), word: fc.boolean() }).map(
  ({ at, keep, word }): Edit =>
    text => {
      const found = [...text.matchAll(/^ +[\w-]+: *\S.*$/gm)];
      const chosen = found[at % Math.max(1, found.length)];
      if (!chosen) return text;
      const start = word ? chosen.index : chosen.index + chosen[0].indexOf(':') + 1;
      const written = start + (word ? chosen[0].length - chosen[0].trimStart().length : 1) + keep;
      const end = chosen.index + chosen[0].length;
      return written < end ? text.slice(0, written) + text.slice(end) : text;
    },
);

const edit = fc.oneof(
  { weight: 5, arbitrary: numbers },
  { weight: 4, arbitrary: halves },
  { weight: 3, arbitrary: lines },
  { weight: 2, arbitrary: blocks },
  names,
  characters,
);

test('after any edits, in the job or in what it brings in, both say the same', async () => {
  let compared = 0;
  const jobs = Object.keys(examples).filter(name => /^job /m.test(examples[name]!));
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...jobs),
      fc.array(fc.record({ edit, library: fc.nat(9) }), { minLength: 1, maxLength: 6 }),
      async (main, edits) => {
        const texts = { ...examples };
        const project = await opened(texts);
        await analysisOf(project, main);
        const used = [...project.loadedDocuments()].map(each => each.uri.toString().replace(`${ROOT}/`, ''));
        let version = 1;
        for (const { edit: change, library } of edits) {
          // Mostly the job itself.
          const others = used.filter(each => each !== main);
          const name = library < 2 && others.length > 0 ? others[library % others.length]! : main;
          texts[name] = change(texts[name]!);
          project.change(uriOf(name), ++version, [{ text: texts[name]! }]);
          const known = await analysisOf(project, main);
          const anew = await analysisOf(await opened(texts), main);
          if (known.further || anew.further) return;
          compared++;
          expect(said(known)).toEqual(said(anew));
        }
      },
    ),
    { numRuns: 25 },
  );
  expect(compared).toBeGreaterThan(30);
}, 600_000);

test('what comes into doubt and out of it again leaves nothing behind', async () => {
  const steps: readonly (readonly [from: string, to: string])[] = [
    ['bays:       6', 'bays:       thr'],
    ['bays:       thr', 'bays:       three'],
    ['    bays:       three\n', ''],
    ['    crew:       Night\n', '    bays: 6\n    crew:       Night\n'],
    ['turn-speed:    10 km/h', 'turn-speed:    10 km'],
    ['weather-stop {', 'weather-sto {'],
    ['weather-sto {', 'weather-stop {'],
    ['work North {', 'wor North {'],
    ['wor North {', 'work North {'],
    ['    turn-speed:    10 km\n', ''],
    ['date:       2031-03-03', 'date:       2031-03-'],
    ['date:       2031-03-', 'date:       2031-03-04'],
    ['advance: half swept', 'advance: 2.4 m'],
    ['work North {', 'exclusio {\n}\n\nwork North {'],
    ['exclusio {\n}\n\n', ''],
    ['dilution:          1 part product to 4 parts water', 'dilution:          1 part product to'],
    ['    dilution:          1 part product to\n', ''],
    ['applicator: Boom', 'applicator: Boo'],
    ['    applicator: Boo\n', ''],
  ];
  const name = 'job.broom';
  let text = chemicalJob.replace('crew Night {', 'require North.loads <= 1 because "one load"\n\ncrew Night {');
  const project = await opened({ [name]: text });
  await analysisOf(project, name);
  let version = 1;
  for (const [from, to] of steps) {
    expect(text).toContain(from);
    text = text.replace(from, to);
    project.change(uriOf(name), ++version, [{ text }]);
    expect(said(await analysisOf(project, name)), to).toEqual(
      said(await analysisOf(await opened({ [name]: text }), name)),
    );
  }
});

test('a machine that stands where another one stood in a list keeps its own place', async () => {
  const name = 'wrong-on-purpose.broom';
  const texts = { ...examples };
  const project = await opened(texts);
  await analysisOf(project, name);
  // The next step begins before the brace of this one: it is no step of the method any more, and those after it move up.
  texts[name] = texts[name]!.replace(/(cycles: 0\n)( +\}\n)(.*\n)/, '$1$3$2');
  expect(texts[name]).not.toBe(examples[name]);
  project.change(uriOf(name), 2, [{ text: texts[name]! }]);
  expect(said(await analysisOf(project, name))).toEqual(said(await analysisOf(await opened(texts), name)));
});

test('a place that was brought along with its block is right when its line is kept by itself', async () => {
  const main = 'sanderling-field/touchdown-17.broom';
  const texts = { ...examples, [main]: `\n${examples[main]!}` };
  const project = await opened(texts);
  await analysisOf(project, main);
  // A line of a block grows by a character, the block moves back by one, and the line grows again.
  const grow: Edit = text => text.replace(/(working-speed: +)(\d)/, '$1$2$2');
  for (const [i, change] of [grow, (text: string) => text.slice(1), grow].entries()) {
    texts[main] = change(texts[main]);
    project.change(uriOf(main), i + 2, [{ text: texts[main] }]);
    expect(said(await analysisOf(project, main))).toEqual(said(await analysisOf(await opened(texts), main)));
  }
});
