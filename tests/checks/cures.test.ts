/**
 * Cures that were found by solving: applied to the job's own text they clear the finding and add no error, also where the
 * method is a library's, which no fix may touch.
 */
import { describe, expect, test } from 'vitest';
import { chemicalJob } from '../../language/checks/example.ts';
import { analyseFiles, edited, shown } from './support.ts';

const solved = [
  'stands-too-long',
  'contacts-short',
  'tank-runs-dry',
  'soak-short',
  'dwell-worst-case',
  'tandem-collides',
];

/** The common job with its method in a library of its own. */
function withLibrary(change: (text: string) => string) {
  const text = change(chemicalJob);
  const from = text.indexOf('method BroomAndRinse');
  const to = text.indexOf('work North');
  return [
    {
      name: 'job.broom',
      text: `${text.slice(0, from).replace('broomline 1\n', 'broomline 1\n\nuse "lib.broom"\n')}${text.slice(to)}`,
    },
    { name: 'lib.broom', text: `broomline 1\n\n${text.slice(from, to)}` },
  ];
}

const replaced = (from: string, to: string) => (text: string) => {
  expect(text).toContain(from);
  return text.replace(from, to);
};

describe.each([
  ['stands-too-long', replaced('        at-most:  4 h', '        at-most:  2 h')],
  ['contacts-short', replaced('        cycles:  2', '        cycles:  2\n        contacts: >= 9')],
])('%s with the method in a library', (code, change) => {
  test('every cure changes the job alone, clears the finding and adds no error', async () => {
    const files = withLibrary(change);
    const before = await analyseFiles(files);
    const found = before.findings.filter(each => each.code === code);
    expect(found.length, shown(before.findings, files).join('\n')).toBe(1);
    expect(found[0]!.fixes.length).toBeGreaterThan(1);
    for (const fix of found[0]!.fixes) {
      const changed = edited(files, fix.edits);
      expect(changed[1]!.text, fix.title).toBe(files[1]!.text);
      const after = await analyseFiles(changed);
      const left = after.findings.filter(each => each.code === code || (each.severity === 'error' && !each.waived));
      expect(shown(left, changed), fix.title).toEqual([]);
    }
  });
});

test('what is solved for says what it then comes to', async () => {
  const files = [{ name: 'job.broom', text: replaced('        at-most:  4 h', '        at-most:  2 h')(chemicalJob) }];
  const { findings } = await analyseFiles(files);
  const found = findings.find(each => each.code === 'stands-too-long')!;
  expect(solved).toContain(found.code);
  for (const fix of found.fixes) expect(fix.title).toMatch(/: then \d/);
  expect(found.message).toMatch(/at chainage \d+ m, .* (left|right), bay \d/);
});
