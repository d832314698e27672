/** What counts as a use of a method's parameter, and what is taken away where there is none. */
import { expect, test } from 'vitest';
import { chemicalJob, filesOf } from '../../language/checks/example.ts';
import { analyseFiles, edited } from './support.ts';

const HEAD = 'method BroomAndRinse(soak: time = 40 min) {';
const CALL = 'BroomAndRinse(soak: 40 min)';

/** The common job with its method's heading written otherwise, and more changes. */
async function analysed(heading: string, ...more: readonly (readonly [string, string])[]) {
  const [file] = filesOf(chemicalJob)!;
  let text = file!.text.replace(HEAD, heading);
  for (const [from, to] of more) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  const files = [{ ...file!, text }];
  const { findings } = await analyseFiles(files);
  const found = findings.filter(each => each.code === 'unused-parameter');
  return { files, found, named: found.map(each => text.slice(each.place.start, each.place.end)) };
}

test('the name of a property, a word of the language, a comment and a text are no uses', async () => {
  const { named } = await analysed(
    'method BroomAndRinse(soak: time = 40 min, sweep: time = 1 min, rate: time = 2 min) {',
    ['    step Soak {', '    // sweep\n    step Soak {\n        // rate'],
  );
  expect(named).toEqual(['sweep', 'rate']);
});

test('what is used is not reported, wherever in an expression it stands', async () => {
  const { named } = await analysed('method BroomAndRinse(soak: time = 40 min, more: time = 0 min) {', [
    'at-least: soak',
    'at-least: soak + more',
  ]);
  expect(named).toEqual([]);
});

test('a method that is like it may use it; what one declares anew is its own', async () => {
  const other = (end: string) => `\nmethod Other like BroomAndRinse${end}\n`;
  const declared = 'method BroomAndRinse(soak: time = 40 min, more: time = 50 min) {';
  const [file] = filesOf(chemicalJob)!;
  const add = (text: string) => [`\n${HEAD}`, `${text}\n${HEAD}`] as const;
  expect(file!.text).toContain(`\n${HEAD}`);
  const used = ` {\n    step Soak {\n        at-least: more\n    }\n}`;
  const changed = (text: string) => {
    const [from, to] = add(text);
    return [from.replace(HEAD, declared), to.replace(HEAD, declared)] as const;
  };
  expect((await analysed(declared, changed(other(used)))).named).toEqual([]);
  expect((await analysed(declared, changed(other('')))).named).toEqual(['more']);
  // It is not what the steps of the other one are told.
  const anew = '\nmethod Other(soak: time = 41 min) like BroomAndRinse\n';
  expect((await analysed(HEAD, add(anew))).named).toEqual(['soak']);
});

test('what is handed on counts as what it is handed on to', async () => {
  const handed = (to: string) =>
    [`\n${HEAD}`, `\nmethod Other(wait: time = 41 min) like BroomAndRinse(${to}: wait)\n\n${HEAD}`] as const;
  expect((await analysed(HEAD, handed('soak'))).named).toEqual([]);
  const declared = 'method BroomAndRinse(soak: time = 40 min, more: time = 50 min) {';
  const [from, to] = handed('more');
  expect((await analysed(declared, [from.replace(HEAD, declared), to.replace(HEAD, declared)])).named).toEqual([
    'wait',
    'more',
  ]);
});

test('in a condition, in a nested value or as a word of the language: only what is meant counts', async () => {
  const { named } = await analysed(
    'method BroomAndRinse(soak: time = 40 min, speed: speed = 6 km/h, rinse: time = 1 min) {',
    ['speed:   6 km/h', 'speed:   min(speed, 7 km/h)'],
  );
  expect(named).toEqual(['rinse']);
});

test('while a line of a method can not be read, nothing is said', async () => {
  const declared = 'method BroomAndRinse(soak: time = 40 min, more: time = 50 min) {';
  expect((await analysed(declared)).named).toEqual(['more']);
  expect((await analysed(declared, ['at-least: soak', 'at-least: so'])).named).toEqual([]);
});

test.each([
  [
    'first',
    'method BroomAndRinse(scrub: time = 5 min, soak: time = 40 min) {',
    'BroomAndRinse(scrub: 6 min, soak: 40 min)',
  ],
  [
    'last',
    'method BroomAndRinse(soak: time = 40 min, scrub: time = 5 min) {',
    'BroomAndRinse(soak: 40 min, scrub: 6 min)',
  ],
  [
    'on lines of their own',
    'method BroomAndRinse(\n    soak: time = 40 min,\n    scrub: time = 5 min\n) {',
    'BroomAndRinse(scrub: (3 min + 3 min), soak: 40 min)',
  ],
])('it goes with its comma, and so do its arguments: %s', async (_, heading, call) => {
  const { files, found } = await analysed(heading, [CALL, call]);
  expect(found).toHaveLength(1);
  const fix = found[0]!.fixes[0]!;
  expect(fix.safe).toBe(true);
  const [after] = edited(files, fix.edits);
  expect(after!.text.replace(/\(\s+soak: time = 40 min\s+\)/, '(soak: time = 40 min)')).toContain(HEAD);
  expect(after!.text).toContain(CALL);
});

test('where it is alone the brackets go too', async () => {
  const { files, found } = await analysed(HEAD, ['at-least: soak', 'at-least: 40 min']);
  const [after] = edited(files, found[0]!.fixes[0]!.edits);
  expect(after!.text).toContain('method BroomAndRinse {');
  expect(after!.text).toMatch(/method: +BroomAndRinse\n/);
});
