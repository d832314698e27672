/**
 * The examples of each check are its tests: the bad one raises exactly that finding (and what the check names beside it),
 * the good one is free of it, and every fix offered on the bad one clears it without a new error.
 */
import { describe, expect, test } from 'vitest';
import type { Check, Finding } from '../../language/checks/check.ts';
import { chemicalJob, type ExampleFile, filesOf, unchanged, waterJob } from '../../language/checks/example.ts';
import { checks } from '../../language/checks/registry.ts';
import type { Place } from '../../language/vocabulary/given.ts';
import { type Analysed, analyseExample, analyseFiles, edited, shown } from './support.ts';

// Nothing in a text can make a check break; its test does that in run.test.ts.
const withExamples = checks.filter(check => check.code !== 'check-failed');

describe('the common jobs', () => {
  test.each([
    ['chemical', chemicalJob],
    ['water', waterJob],
  ])('%s: no findings', async (_, job) => {
    const { findings, files } = await analyseExample(job);
    expect(shown(findings, files)).toEqual([]);
  });
});

describe.each(withExamples.map(check => [check.code, check] as const))('%s', (code, check) => {
  test('the bad example raises it, and nothing else', async () => {
    const { findings, files } = await analyseExample(check.bad);
    const open = findings.filter(finding => !finding.waived);
    const expected = [code, ...(check.alongside ?? [])].toSorted();
    expect(codesOf(open), shown(open, files).join('\n')).toEqual(expected);
    for (const finding of of(check, open)) expectWell(finding);
    for (const finding of findings) {
      // A whole block underlined says nothing of where to look.
      const places = [finding.place, ...(finding.related ?? []).map(each => each.place)];
      for (const place of places) expect(textAt(place, files), finding.code).not.toMatch(/\{[ \t]*\n/);
    }
  });

  test('the good example is free of it', async () => {
    const { findings, files } = await analyseExample(check.good ?? unchanged(check.bad));
    const open = findings.filter(finding => !finding.waived);
    expect(shown(open, files)).toEqual([]);
  });

  test('every fix clears it and adds no error', async () => {
    const before = await analyseExample(check.bad);
    for (const finding of of(check, before.findings)) {
      for (const fix of finding.fixes) {
        const after = await analyseFiles(edited(before.files, fix.edits));
        expect(of(check, after.findings).length, fix.title).toBeLessThan(of(check, before.findings).length);
        const added = newErrors(before, after);
        expect(shown(added, after.files), fix.title).toEqual([]);
      }
    }
  });
});

test('edits of an example have to match exactly once', () => {
  expect(filesOf(['no such text', ''])).toBeUndefined();
  expect(filesOf(['step', 'pass'])).toBeUndefined();
  expect(filesOf(['    width:     45 m', '    width:     30 m'])).toHaveLength(1);
});

test('fixes are offered where one exists', async () => {
  const offered = [];
  for (const check of withExamples) {
    const { findings } = await analyseExample(check.bad);
    if (of(check, findings).some(finding => finding.fixes.length > 0)) offered.push(check.code);
  }
  expect(offered.length).toBeGreaterThan(60);
});

function textAt({ file, start, end }: Place, files: readonly ExampleFile[]): string {
  return files.find(each => file.endsWith(`/${each.name}`))?.text.slice(start, end) ?? '';
}

function of(check: Check, findings: readonly Finding[]): readonly Finding[] {
  return findings.filter(finding => finding.code === check.code);
}

function codesOf(findings: readonly Finding[]): readonly string[] {
  return [...new Set(findings.map(finding => finding.code))].toSorted();
}

function newErrors(before: Analysed, after: Analysed): readonly Finding[] {
  const known = new Set(before.findings.map(finding => finding.code));
  return after.findings.filter(finding => finding.severity === 'error' && !known.has(finding.code));
}

/** Says what is wrong and what to do: at least two sentences or a colon, no loose ends. */
function expectWell({ message, place }: Finding): void {
  expect(message).toMatch(/[.?]$/);
  expect(message).not.toMatch(/undefined|NaN|\[object|Infinity| {2}|\bnull\b/);
  expect(place.end).toBeGreaterThanOrEqual(place.start);
}
