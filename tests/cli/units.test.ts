/** `--units`: results in the other system on demand, the same results. */
import { describe, expect, test } from 'vitest';
import { derivedDocument } from '../../language/documents/derived.ts';
import { broomline } from './command.ts';

const METRIC = 'examples/tern-sands/tender-2031.broom';
const CUSTOMARY = 'examples/sanderling-field/touchdown-17.broom';

describe('derive --units', () => {
  test('shows a metric job in US customary units, and the other way round', async () => {
    const us = (await broomline(['derive', METRIC, '--units', 'us'])).out;
    expect(us).toMatch(/product, undiluted +[\d.]+ gal/);
    expect(us).not.toMatch(/\d (L|m²|km\/h|bar)\b/);
    const metric = (await broomline(['derive', CUSTOMARY, '--units', 'metric'])).out;
    expect(metric).toMatch(/product, undiluted +[\d ]+ L/);
    expect(metric).not.toMatch(/\d (gal|ft²|mph|psi)\b/);
  });

  test("the author's own system asked for by name changes nothing", async () => {
    expect(await broomline(['derive', METRIC, '--units', 'metric'])).toEqual(await broomline(['derive', METRIC]));
    expect(await broomline(['derive', CUSTOMARY, '--units', 'us'])).toEqual(await broomline(['derive', CUSTOMARY]));
  });

  test('json has the same values, and shows them in the other units', async () => {
    const read = async (units: string) =>
      derivedDocument.parse(
        JSON.parse((await broomline(['derive', METRIC, '--format', 'json', '--units', units])).out),
      );
    const [metric, us] = [await read('metric'), await read('us')];
    expect(us.quantities.map(each => each.path)).toEqual(metric.quantities.map(each => each.path));
    // A program compares numbers, so their units stay; what a person reads follows.
    const numbers = (list: typeof metric) => list.quantities.map(({ value, unit }) => ({ value, unit }));
    expect(numbers(us)).toEqual(numbers(metric));
    const converted = us.quantities.filter((each, i) => each.shown !== metric.quantities[i]!.shown).length;
    expect(converted).toBeGreaterThan(50);
  });
});

test('explain --units', async () => {
  const { status, out } = await broomline(['explain', METRIC, 'North.product', '--units', 'us']);
  expect(status).toBe(0);
  // 571.2 L are 571.2 / 3.785411784 = 150.9 US gallons.
  expect(out).toMatch(/^North\.product = 150\.9 gal/);
});

test('check --units: the same findings, their numbers in the other units', async () => {
  const codes = async (...more: string[]) => {
    const { out } = await broomline(['check', 'examples/wrong-on-purpose.broom', '--format', 'json', ...more]);
    const { findings } = JSON.parse(out) as { findings: { code: string; range: unknown; message: string }[] };
    return findings;
  };
  const [own, us] = [await codes(), await codes('--units', 'us')];
  const where = (list: typeof own) => list.map(({ code, range }) => ({ code, range }));
  expect(where(us)).toEqual(where(own));
  expect(us.some(({ message }) => /\d (ft|mph|gal)\b/.test(message))).toBe(true);
});

test('other words are wrong use', async () => {
  expect(await broomline(['derive', METRIC, '--units', 'imperial'])).toMatchObject({
    status: 2,
    err: expect.stringContaining('--units is metric or us'),
  });
});
