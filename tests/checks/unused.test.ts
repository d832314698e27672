/** Files that are brought in and blocks that are named nowhere: what counts as a use, and what is taken away. */
import { expect, test } from 'vitest';
import { chemicalJob } from '../../language/checks/example.ts';
import { analyseFiles, edited } from './support.ts';

const crews =
  'broomline 1\n\ncrew Day {\n    people: 6\n    shift: 8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n';
const limits = `broomline 1\n\nconditions {\n    air: 12 °C\n    surface: 12 °C\n    humidity: 80 %\n    wind: 8 km/h\n    dry-for: 12 h\n}\n`;

/** The common job with lines at its top and changes, beside a file of crews and one of conditions. */
async function analysed(top: string, ...changes: readonly (readonly [from: string, to: string])[]) {
  let text = chemicalJob.replace('broomline 1\n', `broomline 1\n\n${top}\n`);
  for (const [from, to] of changes) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  const files = [
    { name: 'job.broom', text },
    { name: 'crews.broom', text: crews },
    { name: 'limits.broom', text: limits },
  ];
  const { findings } = await analyseFiles(files);
  return { files, findings, codes: findings.map(each => each.code) };
}

test.each([
  ['by its prefix', 'use "crews.broom" as Crews', ['crew:       Night', 'crew:       Crews.Day'], 'unused-block'],
  ['without one', 'use "crews.broom"', ['crew:       Night', 'crew:       Day'], 'unused-block'],
  [
    'by a block that starts from one of it',
    'use "crews.broom" as Crews',
    ['crew Night {', 'crew Night like Crews.Day {'],
    '',
  ],
] as const)('a file that is named counts as used: %s', async (_, top, change, also) => {
  expect((await analysed(top, change)).codes).toEqual(also === '' ? [] : [also]);
});

test('one that is not named is grey, and its line goes', async () => {
  for (const top of ['use "crews.broom"', 'use "crews.broom" as Crews', 'use "limits.broom" as Limits']) {
    const { files, findings, codes } = await analysed(top);
    expect(codes, top).toEqual(['unused-import']);
    expect(findings[0]!.unused).toBe(true);
    expect(edited(files, findings[0]!.fixes[0]!.edits)[0]!.text).toBe(
      chemicalJob.replace('broomline 1\n', 'broomline 1\n\n'),
    );
  }
});

test('one whose blocks hold by standing there is used, where it has no prefix', async () => {
  const own = /conditions \{[^}]*\}\n/.exec(chemicalJob)![0];
  expect((await analysed('use "limits.broom"', [own, ''])).codes).toEqual([]);
});

test('while a name can not be read, no file is said to be unused', async () => {
  expect((await analysed('use "crews.broom" as Crews', ['crew:       Night', 'crew:       Crews.Da'])).codes).toEqual([
    'unknown-name',
  ]);
  expect((await analysed('use "crews.broom" as Crews', ['crew:       Night', 'crew:       Crew.Day'])).codes).toEqual([
    'unknown-name',
  ]);
  expect((await analysed('use "crews.broom" as Crews', ['crew:       Night', 'crew:'])).codes).toEqual([
    'missing-value',
  ]);
});

test.each([
  ['in a comment', 'broom Broom3 like Broom1 {\n}\n// Broom3\n', ['unused-block']],
  ['in a text', 'broom Broom3 like Broom1 {\n    note: "Broom3"\n}\n', ['unused-block']],
  ['by itself', 'broom Broom3 like Broom1 {\n    width: Broom3.angle / Broom3.angle * 2.4 m\n}\n', ['unused-block']],
  [
    'in a table',
    'broom Broom3 like Broom1 {\n}\nfleet {\n    available: table machine, number\n        "Broom3" 1\n}\n',
    [],
  ],
  ['by a waiver', 'broom Broom3 like Broom1 {\n}\nwaive unused-block on Broom3 because "spare" by "A. Engineer"\n', []],
  [
    'by another block',
    'broom Broom3 {\n    width: Broom1.width\n    bristles: polypropylene\n}\nrequire Broom3.width >= 1 m because "of the lanes"\n',
    [],
  ],
  [
    'as a runway',
    'runway Second {\n    length: 2000 m\n    width: 45 m\n    pavement: asphalt\n    texture: 1.2 mm\n    crossfall: 1.5 %\n    end "10" {\n        landings: 20\n    }\n    end "28" {\n        landings: 20\n    }\n}\n',
    ['unused-block'],
  ],
])('a block that is named %s', async (_, block, expected) => {
  const { files, findings } = await analysed('', ['crew Night {', `${block}\ncrew Night {`]);
  const open = findings.filter(each => !each.waived);
  expect(open.map(each => each.code)).toEqual(expected);
  for (const finding of open) {
    const [after] = edited(files, finding.fixes[0]!.edits);
    expect((await analyseFiles([{ name: 'job.broom', text: after!.text }])).findings).toEqual([]);
  }
});
