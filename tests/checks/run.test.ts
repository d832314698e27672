/** Running checks: nothing is lost, the order is stable. And waivers: they mark, and what is wrong with them is said. */
import { describe, expect, test } from 'vitest';
import { type Check, check, type Results } from '../../language/checks/check.ts';
import { chemicalJob, waterJob } from '../../language/checks/example.ts';
import { checks } from '../../language/checks/registry.ts';
import { runChecks } from '../../language/checks/run.ts';
import { analyseExample, analyseFiles, shown } from './support.ts';

async function resultsOf(text: string): Promise<Results> {
  const analysis = await analyseExample(text);
  return { ...analysis, system: analysis.job.system, textOf: () => text };
}

const breaks: Check = check({
  code: 'breaks-on-purpose',
  title: 'It breaks',
  severity: 'warning',
  why: 'It is a test. It is meant to break.',
  source: 'tool-policy',
  bad: '',
  *find({ job }) {
    yield { message: 'Before.', place: { file: job.file, start: 0, end: 1 } };
    throw new Error('on purpose');
  },
});

describe('running', () => {
  test('a check that breaks becomes a finding and costs nothing else', async () => {
    const results = await resultsOf(chemicalJob.replace('1.5 %', '0.4 %'));
    const found = runChecks(results, [breaks, ...checks]);
    expect(found.map(finding => finding.code).toSorted()).toEqual([
      'breaks-on-purpose',
      'check-failed',
      'crossfall-unusual',
    ]);
    expect(found.find(finding => finding.code === 'check-failed')?.message).toContain('on purpose');
  });

  test('a problem without a check is shown all the same', async () => {
    const results = await resultsOf(chemicalJob);
    const place = { file: results.job.file, start: 3, end: 4 };
    const job = { ...results.job, problems: [{ code: 'never-heard-of', message: 'It is odd.', place }] };
    expect(runChecks({ ...results, job })).toEqual([
      { code: 'never-heard-of', severity: 'error', message: 'It is odd.', place, fixes: [] },
    ]);
  });

  test('findings come by place, whatever the order of the checks', async () => {
    const text = chemicalJob.replace('1.5 %', '0.4 %').replace('45 m\n', '54 m\n').replace('75 mm', '180 mm');
    const results = await resultsOf(text);
    const found = runChecks(results);
    expect(found.length).toBe(3);
    expect(found.map(each => each.place.start)).toEqual(found.map(each => each.place.start).toSorted((a, b) => a - b));
    expect(runChecks(results, checks.toReversed())).toEqual(found);
    expect(runChecks(results)).toEqual(found);
  });

  test('an empty file has no findings', async () => {
    const { findings } = await analyseFiles([{ name: 'job.broom', text: '' }]);
    expect(findings).toEqual([]);
  });

  test.each([
    ['chemical', chemicalJob],
    ['water', waterJob],
  ])('%s: no check breaks, whatever is left out', async (_, whole) => {
    const lines = whole.split('\n');
    // Every eleventh line is left out by itself, and every block that begins there.
    for (let i = 3; i < lines.length; i += 11) {
      const without = lines.toSpliced(i, 1).join('\n');
      const upTo = lines.slice(0, i).join('\n');
      for (const text of [without, upTo]) {
        const { findings } = await analyseExample(text);
        expect(findings.filter(finding => finding.code === 'check-failed').map(each => each.message)).toEqual([]);
      }
    }
  });

  test('a library is asked for nothing that only a job has', async () => {
    const library = chemicalJob.slice(chemicalJob.indexOf('product Detergent'), chemicalJob.indexOf('work North'));
    const { findings, files } = await analyseFiles([{ name: 'job.broom', text: `broomline 1\n\n${library}` }]);
    expect(shown(findings, files)).toEqual([]);
  });
});

describe('waivers', () => {
  // The finding that is waived in these tests, on North.Agitate.
  const bad = chemicalJob.replace('half swept', 'half nominal');
  const signed = 'because "the method was proved so" by "A. Engineer"';
  const judge = async (waiver: string, asOf?: string, text = bad) => {
    const { findings } = await analyseExample(`${text}\n${waiver}\n`, asOf);
    const finding = findings.find(each => each.code === 'broom-overlap');
    return { waived: finding?.waived, others: findings.filter(each => each !== finding).map(each => each.code) };
  };

  test.each([
    ['without a target', `waive broom-overlap ${signed}`],
    ['on the work', `waive broom-overlap on North ${signed}`],
    ['on the step', `waive broom-overlap on North.Agitate ${signed}`],
    ['with a condition that holds', `waive broom-overlap on North while North.Agitate.overlapShare >= 40 % ${signed}`],
    ['until later', `waive broom-overlap on North ${signed} until 2031-12-31`],
    ['until the day itself', `waive broom-overlap on North ${signed} until 2031-03-03`],
  ])('%s: the finding stays, marked', async (_, waiver) => {
    const { waived, others } = await judge(waiver);
    expect(waived).toMatchObject({ reason: 'the method was proved so', by: 'A. Engineer' });
    expect(others).toEqual([]);
  });

  test.each([
    ['no reason', 'waive broom-overlap on North by "A. Engineer"', 'waiver-without-reason'],
    ['an empty reason', 'waive broom-overlap on North because " " by "A. Engineer"', 'waiver-without-reason'],
    ['no name', 'waive broom-overlap on North because "it is so"', 'waiver-without-name'],
    ['another step', `waive broom-overlap on North.Rinse ${signed}`, 'waiver-without-effect'],
    ['another check', `waive bristle-pattern on North ${signed}`, 'waiver-without-effect'],
    ['no such check', `waive broom-overlapp on North ${signed}`, 'waiver-unknown-check'],
    ['over', `waive broom-overlap on North ${signed} until 2031-03-02`, 'waiver-lapsed'],
    [
      'a condition that does not hold',
      `waive broom-overlap on North while North.Agitate.overlapShare >= 45 % ${signed}`,
      'waiver-lapsed',
    ],
  ])('%s: it does not count, and that is said', async (_, waiver, code) => {
    const { waived, others } = await judge(waiver);
    expect(waived).toBeUndefined();
    expect(others).toEqual([code]);
  });

  test('it is judged on the date that is asked for', async () => {
    const waiver = `waive broom-overlap on North ${signed} until 2031-06-30`;
    expect((await judge(waiver, '2031-06-30')).waived).toMatchObject({ until: '2031-06-30' });
    expect(await judge(waiver, '2031-07-01')).toMatchObject({ waived: undefined });
  });

  test('without a date in the job an end can not be judged, so it does not count', async () => {
    const undated = bad.replace('    date:       2031-03-03\n', '');
    const { waived, others } = await judge(
      `waive broom-overlap on North ${signed} until 2999-01-01`,
      undefined,
      undated,
    );
    expect(waived).toBeUndefined();
    expect(others).toContain('waiver-lapsed');
  });

  test('safety checks and errors of the text are not waived', async () => {
    const text = chemicalJob.replace('        reopening: yes\n', '').replace('crossfall: 1.5 %', 'crosfall:  1.5 %');
    const waivers = `waive reopening-inspection-missing ${signed}\nwaive unknown-property ${signed}\n`;
    const { findings } = await analyseExample(`${text}\n${waivers}`);
    expect(findings.filter(finding => finding.waived)).toEqual([]);
    expect(findings.map(finding => finding.code).toSorted()).toEqual([
      'reopening-inspection-missing',
      'unknown-property',
      'waiver-not-allowed',
      'waiver-not-allowed',
    ]);
  });

  test("a library's waivers don't reach the job", async () => {
    const library = `broomline 1\n\nwaive broom-overlap ${signed}\n`;
    const text = bad.replace('broomline 1\n', 'broomline 1\n\nuse "waivers.broom"\n');
    const { findings } = await analyseFiles([
      { name: 'job.broom', text },
      { name: 'waivers.broom', text: library },
    ]);
    expect(findings.map(({ code, waived }) => [code, waived])).toEqual([
      ['unused-import', undefined],
      ['broom-overlap', undefined],
    ]);
  });
});
