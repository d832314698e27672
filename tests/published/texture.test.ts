/** Sand patch, profile depth, outflow meter, texture and groove levels. */
import { describe, expect, it, test } from 'vitest';
import {
  estimatedTextureDepth,
  estimatedTextureDepthIso,
  grooveEquivalentDepth,
  outflowTextureDepth,
  sandPatchDepth,
  sandPatchDiameter,
  sandPatchVolume,
} from '../../language/formulas/texture.ts';
import { groovesWorn, judgeGrooveDepths, judgeTextureDepth } from '../../language/friction/texture.ts';
import { type Example, expectDigits, expectExample, foot, inch, millimetre, title } from './customary.ts';

const examples: readonly Example[] = [
  {
    id: '3.1',
    source: 'pavement-analysis-9-4',
    what: '2 cu in of beads, a patch of 10 in: 0.0255 in',
    computed: () => sandPatchDepth(2 * inch ** 3, [10 * inch]) / inch,
    printed: 0.0255,
    within: 0.00005,
    exact: 0.025465,
  },
  {
    id: '3.1',
    source: 'pavement-analysis-9-4',
    what: 'which is 0.647 mm',
    computed: () => sandPatchDepth(2 * inch ** 3, [10 * inch]) / millimetre,
    printed: 0.647,
    within: 0.0005,
  },
  {
    id: '3.1',
    source: 'nz-t3',
    what: '45 ml and a circle of 350 mm: about 0.45 mm',
    computed: () => sandPatchDepth(45e-6, [0.35]) / millimetre,
    printed: 0.45,
    within: 0.02,
  },
  {
    id: '3.1',
    source: 'geometry',
    what: '25 ml, diameters 198, 202, 205, 199: 0.788 mm',
    computed: () => sandPatchDepth(sandPatchVolume, [0.198, 0.202, 0.205, 0.199]) / millimetre,
    printed: 0.788,
    within: 0.0005,
  },
  {
    id: '1.7',
    source: 'geometry',
    what: 'grooves 6.35 x 6.35 at 38.1 mm hold 1.06 mm',
    computed: () => grooveEquivalentDepth(6.35e-3, 6.35e-3, 38.1e-3) / millimetre,
    printed: 1.06,
    within: 0.005,
  },
  {
    id: '3.2',
    source: 'etd-linear',
    what: 'MPD 0.5 mm is 0.60 mm',
    computed: () => estimatedTextureDepth(0.5e-3) / millimetre,
    printed: 0.6,
    within: 1e-9,
  },
  {
    id: '3.2',
    source: 'etd-linear',
    what: 'MPD 1.2 mm is 1.16 mm',
    computed: () => estimatedTextureDepth(1.2e-3) / millimetre,
    printed: 1.16,
    within: 1e-9,
  },
  {
    id: '3.2',
    source: 'iso-13473-1',
    what: 'MPD 1.2 mm is 1.32 mm',
    computed: () => estimatedTextureDepthIso(1.2e-3) / millimetre,
    printed: 1.32,
    within: 1e-9,
  },
  {
    id: '3.3',
    source: 'astm-e2380',
    what: 'an outflow time of 10 s is 0.947 mm',
    computed: () => outflowTextureDepth(10) / millimetre,
    printed: 0.947,
    within: 0.0005,
  },
];

describe('texture depth', () => {
  test.each(examples.map(example => [title(example), example] as const))('%s', (_, example) => expectExample(example));

  it.each([
    [1.14, 167.1],
    [1.0, 178.4],
    [0.76, 204.7],
    [0.63, 224.8],
    [0.4, 282.1],
    [0.25, 356.8],
  ])('25 ml at %d mm spreads to %d mm (derived)', (depth, diameter) => {
    expectDigits(sandPatchDiameter(sandPatchVolume, depth * millimetre) / millimetre, diameter);
  });
  it.each([
    [120, 2.21],
    [150, 1.415],
    [178.4, 1.0],
    [200, 0.796],
    [250, 0.509],
    [282, 0.4],
    [350, 0.26],
  ])('a patch of %d mm is %d mm (derived)', (diameter, depth) => {
    expectDigits(sandPatchDepth(sandPatchVolume, [diameter * millimetre]) / millimetre, depth);
  });
  it('the two profile transforms meet at 0.67 mm (derived)', () => {
    const meeting = 0.2e-3 / 0.3;
    expectDigits(meeting / millimetre, 0.67);
    expect(estimatedTextureDepth(meeting)).toBeCloseTo(estimatedTextureDepthIso(meeting), 12);
  });
});

describe('texture and groove levels, from memory', () => {
  it.each([
    [1.2, 'none'],
    [1.14, 'none'],
    [0.8, 'measure texture with every friction survey'],
    [0.65, 'plan to correct within 1 year'],
    [0.4, 'not assigned: engineer to review'],
    [0.3, 'not assigned: engineer to review'],
    [0.25, 'not assigned: engineer to review'],
    [0.22, 'correct within 2 months'],
  ])(`${title({ id: '7.5', source: 'faa-12c-texture', what: 'depth' })} %d mm: %s`, (depth, action) => {
    expect(judgeTextureDepth(depth * millimetre)).toMatchObject({ action, mark: 'from memory' });
  });
  it(title({ id: '7.6', source: 'faa-12c-grooves', what: 'ten groove depths are accepted' }), () => {
    const depths = [7, 7, 6.5, 6.4, 6, 5, 4.5, 4.8, 6.6, 6.9].map(depth => depth * millimetre);
    expect(judgeGrooveDepths(depths)).toMatchObject({
      shareAtLeast3Over16: 0.9,
      shareAtLeast1Over4: 0.6,
      shareOver5Over16: 0,
      accepted: true,
    });
    const shallower = depths.with(0, 6.3 * millimetre);
    expect(judgeGrooveDepths(shallower)?.accepted).toBe(false);
    expect(judgeGrooveDepths([])).toBeUndefined();
  });
  it(title({ id: '1.6', source: 'faa-12c-grooves', what: 'worn grooves' }), () => {
    const worn = [3, 3, 5, 6, 6].map(depth => depth * millimetre);
    expect(groovesWorn(worn, 1500 * foot)).toBe(true);
    expect(groovesWorn(worn, 1400 * foot)).toBe(false);
    expect(groovesWorn(worn.with(0, 5 * millimetre), 1500 * foot)).toBe(false);
  });
});
