/**
 * Random and hostile jobs through the whole chain: whatever stands in the text, an analysis comes out, in time, and what
 * is broken is said.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Analysis, analyse } from '../../language/analysis/analyse.ts';
import { type Files, workspaceOf } from '../support/jobs.ts';

const EXAMPLES = [
  'small-job.broom',
  'tern-sands/tender-2031.broom',
  'sanderling-field/touchdown-17.broom',
  'dunlin-marsh/low-pressure-water.broom',
  'curlew-bar/chemical-then-water.broom',
];
const LIBRARIES = [
  'tern-sands/airport.broom',
  'library/district-plant.broom',
  'library/products.broom',
  'library/broom-and-rinse.broom',
  'library/low-pressure-water.broom',
  'library/soak-then-jet.broom',
];
const read = (name: string): string => readFileSync(new URL(`../../examples/${name}`, import.meta.url), 'utf8');
const texts: Files = Object.fromEntries([...EXAMPLES, ...LIBRARIES].map(name => [name, read(name)]));

async function analysisOf(name: string, text: string): Promise<Analysis> {
  const workspace = workspaceOf({ ...texts, [name]: text });
  const [document] = await workspace.open([`memory:/${name}`]);
  return analyse(document!, workspace, { conflicts: 200 });
}

/** Numbers, names and words to put where something else stood. */
const REPLACEMENTS = [
  '0',
  '-1',
  '1e300 m',
  '1e-300 m',
  '0 %',
  '0.001 mm',
  '1e9 m',
  'min(',
  'Main',
  '"',
  '}',
  '{',
  ':',
  'table',
  '2031-02-30',
  '25:61',
  '1:0',
  '¤',
  '\u0000',
  '٣',
];

interface Mutation {
  readonly at: number;
  readonly how: number;
  readonly with: number;
}

/** Cuts, doubles or replaces tokens of a text. */
function mutate(text: string, mutations: readonly Mutation[]): string {
  const tokens = text.match(/\s+|[A-Za-z][\w-]*|[0-9.]+|./gsu) ?? [];
  for (const each of mutations) {
    const i = Math.floor(each.at * tokens.length);
    const replacement = REPLACEMENTS[each.with % REPLACEMENTS.length] ?? '';
    if (each.how === 0) tokens.splice(i, 1);
    else if (each.how === 1) tokens.splice(i, 0, tokens[i] ?? '');
    else if (each.how === 2) tokens[i] = replacement;
    else if (each.how === 3) tokens.splice(i, 5);
    else {
      // A number somewhere after, made absurd: this is what reaches the engine.
      const j = tokens.findIndex((token, k) => k >= i && /^[0-9.]+$/.test(token));
      if (j >= 0) tokens[j] = ['0', '1e6', '0.0001', '99999999', '1'][each.with % 5]!;
    }
  }
  return tokens.join('');
}

describe('mutations of the examples', () => {
  for (const name of EXAMPLES) {
    test(name, async () => {
      await fc.assert(
        fc.asyncProperty(
          fc.array(
            fc.record({
              at: fc.double({ min: 0, max: 0.999999, noNaN: true }),
              how: fc.constantFrom(0, 1, 2, 3, 4, 4, 4),
              with: fc.nat(19),
            }),
            { minLength: 1, maxLength: 4 },
          ),
          async mutations => {
            const { findings, quantities } = await analysisOf(name, mutate(texts[name]!, mutations));
            expect(Array.isArray(findings)).toBe(true);
            expect(findings.map(each => each.code)).not.toContain('check-failed');
            for (const each of findings) expect(each.place.end).toBeGreaterThanOrEqual(each.place.start);
            for (const each of quantities.values()) expect(Number.isNaN(each.value)).toBe(false);
          },
        ),
        { numRuns: 25, seed: 20311 },
      );
    }, 240_000);
  }
});

describe('absurd jobs', () => {
  test('circuits that widen by a millimetre', async () => {
    const name = 'sanderling-field/touchdown-17.broom';
    const absurd = texts[name]!.replaceAll(/advance: +[^\n]+/g, 'advance: 1 mm').replaceAll(
      /width: +\d+ ft/g,
      'width: 0.5 m',
    );
    expect(absurd).not.toBe(texts[name]);
    const { findings } = await analysisOf(name, absurd);
    expect(findings.length).toBeGreaterThan(0);
  });

  test('two hundred works on one deposit', async () => {
    const text = texts['small-job.broom']!;
    const work = text.slice(text.indexOf('work Removal'));
    const many = text + Array.from({ length: 200 }, (_, i) => `\n${work.replace('Removal', `Removal${i}`)}`).join('');
    const { findings } = await analysisOf('small-job.broom', many);
    expect(findings.some(each => each.code === 'deposit-removed-twice')).toBe(true);
  }, 120_000);
});
