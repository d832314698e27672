/** `broomline derive` and `broomline explain`: tables for people, a contract for programs, and the way of one number. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { derivedDocument } from '../../language/documents/derived.ts';
import { jsonSchemas } from '../../language/documents/schemas.ts';
import { broomline, folderOf, root } from './command.ts';

const TENDER = 'examples/tern-sands/tender-2031.broom';

describe('derive', () => {
  test('json follows its schema, and every value comes with its unit', async () => {
    const { status, out } = await broomline(['derive', TENDER, '--format', 'json']);
    const derived = derivedDocument.parse(JSON.parse(out));
    expect(status).toBe(0);
    expect(derived).toMatchObject({ format: 1, job: 'TernSands2031' });
    // By hand: 180 m of 16 to 18 m width, then 300 m of 18 to 16 m.
    const area = derived.quantities.find(each => each.path === 'North.area');
    expect(area).toMatchObject({ value: (180 * (16 + 18)) / 2 + (300 * (18 + 16)) / 2, unit: 'm2' });
    const product = derived.quantities.find(each => each.path === 'North.product');
    expect(product?.value).toBeCloseTo(8160 * 0.35 * 0.2, 9);
    expect(product?.unit).toBe('L');
  });

  test('text has the job, each work with its steps, the sources, and where to ask', async () => {
    const { out } = await broomline(['derive', TENDER]);
    expect(out).toMatch(/^Runway 04\/22, removal of rubber deposits, spring 2031\n/);
    expect(out).toContain('South  removes Touchdown04, Runout04 by BroomAndRinse\n');
    expect(out).toMatch(/^ {2}product, undiluted +1 092 L/m);
    expect(out).toMatch(/^ {2}Rinse +20 +10 +18 720 m/m);
    expect(out).toContain('Sources, and how well each is verified');
    expect(out).toContain(`broomline explain ${TENDER} `);
    expect(Math.max(...out.split('\n').map(line => line.length))).toBeLessThanOrEqual(120);
  });

  test('has the schedule: verdict with its proof, closure by closure, machine by machine, recall, what would save one', async () => {
    const { out } = await broomline(['derive', TENDER]);
    expect(out).toMatch(
      /\nSchedule\n {2}3 closures, 2 proved impossible; the last one is clear at 0\d:\d\d, proved earliest\./,
    );
    expect(out).toMatch(/^Mon 7 Apr {2}Nights 23:00 to 05:00, hand-back 04:15, clear 0\d:\d\d$/m);
    expect(out).toMatch(/^ {2}23:20 {2}23:\d\d {2}\S+\/1\/Sweep +Sweeper1 /m);
    expect(out).toMatch(/^ {2}Sprayer1 +Mon 7 Apr: 23:35–/m);
    expect(out).toContain('Last safe start of spraying');
    expect(out).toContain('With one broom lost (Broom2)');
    expect(out).toMatch(/With 2 closures, by any one of these: .*Open Nights at/);
  });

  test('says that there is no schedule, and what would make one', async () => {
    const text = readFileSync(join(root, TENDER), 'utf8').replace('23:00 to 05:00', '23:00 to 02:00');
    const folder = join(root, 'examples');
    const files = Object.fromEntries(
      readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .filter(name => name.endsWith('.broom'))
        .map(name => [name, readFileSync(join(folder, name), 'utf8')]),
    );
    const cwd = folderOf({ ...files, 'tern-sands/tender-2031.broom': text });
    const { out, err, status } = await broomline(['derive', 'tern-sands/tender-2031.broom'], { cwd });
    expect(status).toBe(1);
    expect(err).toContain('1 error');
    expect(out).toContain('There is none: the job does not fit into its closures.');
    expect(out).toContain('What would make it fit');
  });

  test('a library has nothing to derive beyond its machines; an empty file has nothing at all', async () => {
    const cwd = folderOf({ 'empty.broom': 'broomline 1\n' });
    const { status, out } = await broomline(['derive', 'empty.broom'], { cwd });
    expect({ status, out }).toEqual({
      status: 0,
      out: 'A library: a file without a job block.\n\nNothing can be computed from this file.\n',
    });
  });

  test('says on what job the numbers stand when that has errors, and ends with 1', async () => {
    const { status, err } = await broomline(['derive', 'examples/wrong-on-purpose.broom']);
    expect(status).toBe(1);
    expect(err).toMatch(/the numbers stand on a job with \d+ errors/);
  });

  test('a folder of several files is wrong use', async () => {
    expect((await broomline(['derive', 'examples'])).status).toBe(2);
  });
});

describe('explain', () => {
  test('follows a number down to lines of the text and to sources', async () => {
    const { status, out } = await broomline(['explain', TENDER, 'North.product']);
    expect(status).toBe(0);
    expect(out).toMatch(/^North\.product = 571.2 L/);
    expect(out).toContain('examples/library/products.broom:');
    expect(out).toContain(`${TENDER}:`);
    expect(out).toContain('source: ');
  });

  test('a quantity that does not exist is wrong use, with the names that are near', async () => {
    const { status, err } = await broomline(['explain', TENDER, 'South.prodct']);
    expect(status).toBe(2);
    expect(err).toContain('Did you mean South.product');
  });

  test('the name of a work alone lists what it has', async () => {
    const { err } = await broomline(['explain', TENDER, 'North']);
    expect(err).toContain('North.area');
  });
});

test('help and version', async () => {
  expect((await broomline(['--help'])).out).toContain('Exit status: 0 clean');
  expect(await broomline(['--version'])).toEqual({ status: 0, out: '0.0.0-test\n', err: '' });
});

test('the published JSON Schemas are those of the contracts (npm run schemas)', () => {
  const folder = join(root, 'language/documents/schemas');
  const published = readdirSync(folder).map(name => [
    name.replace('.json', ''),
    JSON.parse(readFileSync(join(folder, name), 'utf8')),
  ]);
  expect(Object.fromEntries(published)).toEqual(JSON.parse(JSON.stringify(jsonSchemas())));
});
