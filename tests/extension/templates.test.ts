/** What the commands for new files write: it has to check clean, whatever was answered. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import {
  endsFrom,
  type Family,
  fileFrom,
  type JobAnswers,
  jobText,
  METHODS,
  methodText,
  nameFrom,
  plantText,
} from '../../extension/src/create/templates.ts';
import { analyse } from '../../language/analysis/analyse.ts';
import { format } from '../../language/format/format.ts';
import { createSyntax } from '../../language/grammar/services.ts';
import { nameRules } from '../../language/vocabulary/names.ts';
import { workspaceOf } from '../support/jobs.ts';

const folder = new URL('../../examples/', import.meta.url).pathname;
const libraries = Object.fromEntries(
  readdirSync(join(folder, 'library')).map(name => [
    `library/${name}`,
    readFileSync(join(folder, 'library', name), 'utf8'),
  ]),
);

async function findingsOf(text: string) {
  const workspace = workspaceOf({ 'new.broom': text, ...libraries });
  const [document] = await workspace.open(['memory:/new.broom']);
  const { findings, schedule } = analyse(document!, workspace);
  return {
    findings: findings
      .filter(each => each.place.file.endsWith('new.broom'))
      .map(each => `${each.code}: ${each.message}`),
    state: schedule.state,
  };
}

function job(answers: Partial<JobAnswers>): string {
  const all: JobAnswers = {
    name: 'Runway04',
    family: 'brooms',
    ends: ['04', '22'],
    length: 2500,
    width: 45,
    from: '2031-05-12',
    ...answers,
  };
  return jobText(all, {
    plant: 'library/district-plant.broom',
    products: 'library/products.broom',
    method: METHODS[all.family].file,
  });
}

const answers: readonly Partial<JobAnswers>[] = (['brooms', 'water', 'both'] satisfies Family[]).flatMap(family => [
  { family },
  { family, ends: ['09L', '27R'] as const, length: 1200, width: 30 },
  { family, ends: ['18', '36'] as const, length: 4000, width: 60, from: '2031-12-30' },
]);

test.each(answers)('a new job has a schedule and no finding: %o', async given => {
  expect(await findingsOf(job(given))).toEqual({ findings: [], state: 'scheduled' });
});

test('a job that the template gets wrong would be seen', async () => {
  const { findings } = await findingsOf(job({}).replace('soak', 'sowk').replace('asphalt', 'asfalt'));
  expect(findings.length).toBeGreaterThan(0);
});

test('a new method and a new fleet have no finding', async () => {
  expect((await findingsOf(methodText('BroomTwice'))).findings).toEqual([]);
  expect((await findingsOf(plantText('2031-03-18'))).findings).toEqual([]);
});

test('new files come in the layout of the formatter', () => {
  const texts = [...answers.map(job), methodText('BroomTwice'), plantText('2031-03-18')];
  const syntax = createSyntax({ topLevelKinds: nameRules.topLevelKinds, rules: nameRules });
  expect(texts.map(text => format(text, syntax))).toEqual(texts);
});

test('designations are those of one runway', () => {
  expect(endsFrom('4/22')).toEqual(['04', '22']);
  expect(endsFrom(' 09l - 27r ')).toEqual(['09L', '27R']);
  expect(endsFrom('18C/36C')).toEqual(['18C', '36C']);
  for (const wrong of ['04', '04/23', '00/18', '37/19', '09L/27L', '09L/27', 'a/b'])
    expect(endsFrom(wrong)).toBeUndefined();
});

test('names and files of what was typed', () => {
  expect(nameFrom('summer-nights 2031')).toBe('SummerNights2031');
  expect(nameFrom('04/22')).toBe('Job0422');
  expect(fileFrom('SummerNights2031')).toBe('summer-nights-2031.broom');
});
