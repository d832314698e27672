/** Tables for the clipboard. */
import { expect, test } from 'vitest';
import { asMarkdown, asTabs, type Table, tablesOf } from '../../extension/src/table.ts';
import { analyse } from '../../language/analysis/analyse.ts';
import { derivedAsDocument } from '../../language/documents/derived.ts';
import { exampleFiles, TENDER } from '../editor/examples.ts';
import { workspaceOf } from '../support/jobs.ts';

const odd: Table = {
  id: 'odd',
  head: ['A', 'B'],
  rows: [
    ['=1+2', 'x\ty\nz'],
    ['-4', 'p|q'],
    ['-x', '@a'],
  ],
};

test('a cell can not break the table, nor start a formula in a spreadsheet', () => {
  expect(asTabs(odd)).toBe("A\tB\n'=1+2\tx y z\n-4\tp|q\n'-x\t'@a\n");
  expect(asMarkdown(odd)).toBe('| A | B |\n| --- | --- |\n| =1+2 | x\ty z |\n| -4 | p\\|q |\n| -x | @a |\n');
});

test('a job gives its schedule, its quantities, and those of each block', async () => {
  const workspace = workspaceOf(exampleFiles());
  const [document] = await workspace.open([`memory:/${TENDER}`]);
  const derived = derivedAsDocument(analyse(document!, workspace));
  const tables = tablesOf(derived);
  const [schedule, all, ...blocks] = tables;
  expect(schedule!.rows).toHaveLength(derived.schedule.closures.flatMap(each => each.activities).length);
  expect(schedule!.rows.length).toBeGreaterThan(20);
  expect(all!.rows).toHaveLength(derived.quantities.length);
  const north = blocks.find(each => each.block === 'North')!;
  const product = north.rows.find(row => row[0] === 'North.product')!;
  expect(Number(product[2])).toBe(derived.quantities.find(each => each.path === 'North.product')!.value);
  for (const { head, rows } of tables) for (const row of rows) expect(row).toHaveLength(head.length);
});
