/**
 * A text in the middle of being typed: what can't be read is said where it stands, its consequences are held back, and all
 * else stays.
 */
import { describe, expect, test } from 'vitest';
import { chemicalJob, waterJob } from '../../language/checks/example.ts';
import { type Analysed, analyseFiles } from './support.ts';

const analysed = (text: string) => analyseFiles([{ name: 'job.broom', text }]);

function changed(text: string, ...edits: readonly (readonly [from: string, to: string])[]): string {
  return edits.reduce((so, [from, to]) => {
    expect(so).toContain(from);
    return so.replace(from, to);
  }, text);
}

const codes = ({ findings }: Pick<Analysed, 'findings'>) => findings.map(each => each.code);

/** Findings that stand on other lines than one, as `code (line)`. */
function elsewhere({ findings, files }: Analysed, line: number): readonly string[] {
  return findings.flatMap(({ code, place }) => {
    const at = files[0]!.text.slice(0, place.start).split('\n').length - 1;
    return at === line ? [] : [`${code} (line ${at + 1})`];
  });
}

/** The lines of a text that give a property one value. */
function valuesIn(text: string): readonly { readonly line: number; readonly head: string; readonly value: string }[] {
  return text.split('\n').flatMap((line, i) => {
    const [, head, value] = /^( +[\w-]+: *)(\S.*)$/.exec(line) ?? [];
    return head === undefined || value!.startsWith('table') || value!.endsWith('{')
      ? []
      : [{ line: i, head, value: value! }];
  });
}

function withLine(text: string, line: number, by: string): string {
  return text.split('\n').with(line, by).join('\n');
}

describe.each([
  ['chemical', chemicalJob],
  ['water', waterJob],
])('%s: whatever value is spoilt, nothing is said elsewhere', (_, text) => {
  const values = valuesIn(text);
  test.each([
    // One value in two, for time's sake; the ways take turns, so that each kind of block meets each of them.
    ['by a word that means nothing', 0, (head: string) => `${head}nonesuch`],
    ['by leaving it out', 1, (head: string) => head.trimEnd()],
  ])(
    '%s',
    async (_how, from, spoil) => {
      expect(values.length).toBeGreaterThan(80);
      for (let i = from; i < values.length; i += 2) {
        const { line, head } = values[i]!;
        const found = await analysed(withLine(text, line, spoil(head)));
        // A blank in quotes is a text like any other.
        expect(found.findings.length, head).toBeGreaterThan(0);
        expect(
          elsewhere(found, line).filter(each => !/^unused-/.test(each)),
          `${head.trim()} in line ${line + 1}`,
        ).toEqual([]);
      }
    },
    120_000,
  );

  test('nor where the name of a property is not written to its end', async () => {
    for (let i = 0; i < values.length; i += 3) {
      const { line, head, value } = values[i]!;
      const name = head.trim().slice(0, -1);
      if (name.length < 4) continue;
      const found = await analysed(withLine(text, line, head.replace(name, name.slice(0, -1)) + value));
      expect(elsewhere(found, line), `${head.trim()} in line ${line + 1}`).toEqual([]);
    }
  }, 120_000);
});

describe('what is not in doubt stays', () => {
  test('findings of other blocks, and the drawing and the schedule of the job', async () => {
    const found = await analysed(
      changed(chemicalJob, ['crossfall: 1.5 %', 'crossfall: 0.4 %'], ['bays:       6', 'bays:       thr']),
    );
    expect(codes(found)).toEqual(['crossfall-unusual', 'wrong-value']);
    expect(found.works[0]!.bays.length).toBeGreaterThan(0);
    expect(found.exposures.length).toBeGreaterThan(0);
  });

  test('the job is scheduled without the value', async () => {
    const found = await analysed(changed(chemicalJob, ['turning-radius: 6 m', 'turning-radius: 6 mm3']));
    expect(codes(found)).toEqual(['wrong-dimension']);
    expect(found.schedule.activities.length).toBeGreaterThan(10);
  });

  const south = [
    'work North {',
    `deposit South {
    on:       Main from "04"
    stations: table chainage m, left m, right m
        1000   5    5
        1700   6    6
    build-up: heavy
}

work Second {
    removes:    South
    method:     BroomAndRinse(soak: 40 min)
    product:    Detergent
    applicator: Boom
    scrubbers:  Broom1, Broom2
    water:      Tanker
    sweeper:    Sweeper1
    bays:       1
    crew:       Night
}

work North {`,
  ] as const;

  test('findings of another work', async () => {
    const before = await analysed(changed(chemicalJob, south));
    const ofSecond = before.findings.filter(each => each.about?.name.startsWith('Second')).map(each => each.code);
    expect(ofSecond).toContain('stands-too-long');
    const after = await analysed(changed(chemicalJob, south, ['bays:       6', 'bays:       thr']));
    const still = after.findings.filter(each => each.about?.name.startsWith('Second')).map(each => each.code);
    // What the schedule of all works says is as open as the schedule.
    expect(still).toEqual(ofSecond.filter(code => code !== 'job-does-not-fit'));
    expect(after.findings.filter(each => each.about?.name.startsWith('North'))).toEqual([]);
  });

  test('but not where both share what is in doubt', async () => {
    const found = await analysed(
      changed(chemicalJob, south, ['tank:             4000 L', 'tank:             4000 kg']),
    );
    expect(codes(found)).not.toContain('stands-too-long');
  });

  test('requirements on what can be computed all the same', async () => {
    const required = ['crew Night {', 'require North.product <= 10 L because "a can"\n\ncrew Night {'] as const;
    const of = async (...edits: readonly (readonly [string, string])[]) =>
      codes(await analysed(changed(chemicalJob, required, ...edits)));
    expect(await of()).toEqual(['requirement-fails']);
    expect(await of(['recall:    3 h', 'recall:    3 hou'])).toContain('requirement-fails');
    expect(await of(['density:           1010 kg/m3', 'density:           1010 kg'])).toContain('requirement-fails');
    expect(await of(['rate:  0.35 L/m2 of mix', 'rate:  0.35 L/m of mix'])).toEqual(['wrong-dimension']);
    expect(await of(['removes:    NorthTouchdown', 'removes:    NorthTouch'])).toEqual(['unknown-name']);
  });

  test('a requirement that reads the value itself is not said to lack it', async () => {
    const required = ['crew Night {', 'require Boom.width >= 6 m because "of the lanes"\n\ncrew Night {'] as const;
    expect(
      codes(await analysed(changed(chemicalJob, required, ['width:            8 m', 'width:            8 kg']))),
    ).toEqual(['wrong-dimension']);
  });
});

test('a waiver of what is held back is not said to have no effect', async () => {
  const waived = changed(
    chemicalJob,
    ['bays:       6', 'bays:       1'],
    ['crew Night {', 'waive stands-too-long on North because "tried" by "A. Engineer"\n\ncrew Night {'],
  );
  expect(codes(await analysed(waived))).not.toContain('waiver-without-effect');
  const typing = await analysed(changed(waived, ['bays:       1', 'bays:       thr']));
  expect(codes(typing)).toEqual(['wrong-value']);
  const mended = await analysed(changed(waived, ['bays:       1', 'bays:       6']));
  expect(codes(mended)).toEqual(['waiver-without-effect']);
});

test.each([
  ['of a block', 'acceptance {', 'acceptanc {', ['unknown-kind']],
  ['of a step', 'step Soak {', 'ste Soak {', ['unknown-kind']],
  ['of a role', 'role water {', 'rol water {', ['unknown-kind']],
  ['of a machine that others start from', 'broom Broom1 {', 'broo Broom1 {', ['unknown-kind']],
])('a kind that is not written to its end says no more than that: %s', async (_, from, to, expected) => {
  expect(codes(await analysed(changed(chemicalJob, [from, to])))).toEqual(expected);
});

test('a forgotten colon is told from a block of an odd kind', async () => {
  const { findings } = await analysed(changed(chemicalJob, ['build-up: heavy', 'build-up heavy']));
  expect(findings.map(each => each.code)).toEqual(['missing-colon']);
  expect(findings[0]!.fixes[0]!.edits[0]).toMatchObject({ text: ':' });
});

test('rows of a table whose head is not written yet are no findings', async () => {
  const { findings } = await analysed(
    changed(chemicalJob, ['stations: table chainage m, left m, right m', 'stations:']),
  );
  expect(findings.map(each => each.code)).toEqual(['missing-value']);
});

test.each(['fleet', 'conditions', 'safety', 'crew Night'])(
  'a block whose brace is missing still has its lines: %s',
  async head => {
    const { findings } = await analysed(changed(chemicalJob, [`\n${head} {\n`, `\n${head}\n`]));
    expect(findings.map(each => each.code)).toEqual(['brace-missing']);
  },
);
