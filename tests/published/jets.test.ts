/** Pumps, nozzles, jets and tank cycles: published examples P-1 to P-11 and the forms with their constants. */
import { describe, expect, it, test } from 'vitest';
import {
  hydraulicPower,
  jetForce,
  jetSpeed,
  nozzleDiameter,
  nozzleFlow,
  nozzlePressure,
  pressureClass,
  pressureHead,
  shaftPower,
} from '../../language/formulas/jets.ts';
import {
  bar,
  type Example,
  expectDigits,
  expectExample,
  foot,
  gpm,
  horsepower,
  inch,
  litresPerMinute,
  millimetre,
  poundForce,
  psi,
  title,
} from './customary.ts';

/** Constants printed for gpm = k Cd d^2 sqrt(psi); ours is 29.824 for water of 1000 kg/m3, so k/29.824 acts as a Cd. */
const exactConstant = nozzleFlow(inch, psi, 1) / gpm;

const examples: readonly Example[] = [
  {
    id: 'P-1',
    source: 'hydraulic-power-pages',
    what: '20 gpm at 1,500 psi is 17.5 hp',
    computed: () => hydraulicPower(20 * gpm, 1500 * psi) / horsepower,
    printed: 17.5,
    within: 0.05,
    exact: 17.5,
  },
  {
    id: 'P-2',
    source: 'hydraulic-power-pages',
    what: '40 L/min at 150 bar is 10 kW',
    computed: () => hydraulicPower(40 * litresPerMinute, 150 * bar) / 1000,
    printed: 10,
    within: 1e-9,
  },
  {
    id: 'P-2 hp',
    source: 'hydraulic-power-pages',
    what: 'which is 13.41 hp',
    computed: () => hydraulicPower(40 * litresPerMinute, 150 * bar) / horsepower,
    printed: 13.41,
    within: 0.005,
  },
  {
    id: 'P-3',
    source: 'nozzle-flow-pages',
    what: '100 gpm through 0.75 in takes 35.8 psi (constant 29.71)',
    computed: () => nozzlePressure(0.75 * inch, 100 * gpm, 29.71 / exactConstant) / psi,
    printed: 35.8,
    within: 0.05,
    exact: 35.805,
  },
  {
    id: 'P-4',
    source: 'nozzle-flow-pages',
    what: '50 gpm through 2 in takes 0.177 psi (constant 29.71)',
    computed: () => nozzlePressure(2 * inch, 50 * gpm, 29.71 / exactConstant) / psi,
    printed: 0.177,
    within: 0.0005,
  },
  {
    id: 'P-5',
    source: 'nozzle-flow-pages',
    what: '0.5 in at 60 psi, Cd 0.97, passes 56.03 gpm (constant 29.83)',
    computed: () => nozzleFlow(0.5 * inch, 60 * psi, (0.97 * 29.83) / exactConstant) / gpm,
    printed: 56.03,
    within: 0.005,
  },
  {
    id: 'P-6 bore',
    source: 'fire-service-hydraulics',
    what: '450 L/min at 1.52 bar comes from 23.4 mm',
    computed: () => nozzleDiameter(450 * litresPerMinute, 1.52 * bar, 1) / millimetre,
    printed: 23.4,
    within: 0.05,
    exact: 23.4,
  },
  {
    id: 'P-6 force',
    source: 'fire-service-hydraulics',
    what: 'and pushes back with 130 N (printed truncated)',
    computed: () => jetForce(450 * litresPerMinute, 1.52 * bar),
    printed: 130,
    within: 1,
    exact: 130.8,
  },
  {
    id: 'P-7',
    source: 'jet-force-page',
    what: 'a 15 mm jet driven by 3 bar pushes with 106 N',
    computed: () => jetForce(nozzleFlow(15 * millimetre, 3 * bar, 1), 3 * bar),
    printed: 106,
    within: 0.5,
    exact: 106.03,
  },
  {
    id: 'P-8',
    source: 'ishikawa-exercise',
    what: 'a 16 mm jet at 0.15 MPa pushes with 60.32 N',
    computed: () => jetForce(nozzleFlow(16 * millimetre, 0.15e6, 1), 0.15e6),
    printed: 60.32,
    within: 0.005,
    exact: 60.319,
  },
  {
    id: 'P-8 speed',
    source: 'ishikawa-exercise',
    what: 'its speed squared is 300',
    computed: () => jetSpeed(0.15e6) ** 2,
    printed: 300,
    within: 1e-9,
  },
  {
    id: 'P-9',
    source: 'acre-inch',
    mark: 'published, second hand',
    what: '6.41 gpm from 3/16 in at 40 psi implies Cd 0.966 (derived); 30 of them need 190 gpm (rounded)',
    computed: () => (30 * nozzleFlow((3 / 16) * inch, 40 * psi, 0.966)) / gpm,
    printed: 190,
    within: 2.5,
    exact: 192,
  },
  {
    id: 'P-10 power',
    source: 'mechanics',
    what: '100 L/min at 1,000 bar is 166.7 kW',
    computed: () => hydraulicPower(100 * litresPerMinute, 1000 * bar) / 1000,
    printed: 166.7,
    within: 0.05,
  },
  {
    id: 'P-10 force',
    source: 'mechanics',
    what: 'it pushes with 745 N',
    computed: () => jetForce(100 * litresPerMinute, 1000 * bar),
    printed: 745,
    within: 0.5,
  },
  {
    id: 'P-10 speed',
    source: 'mechanics',
    what: 'at 447 m/s',
    computed: () => jetSpeed(1000 * bar),
    printed: 447,
    within: 0.5,
  },
  {
    id: 'P-11 power',
    source: 'mechanics',
    what: '6 gpm at 40,000 psi is 140 hp',
    computed: () => hydraulicPower(6 * gpm, 40_000 * psi) / horsepower,
    printed: 140,
    within: 0.5,
  },
  {
    id: 'P-11 force',
    source: 'mechanics',
    what: 'it pushes with 63.2 lbf',
    computed: () => jetForce(6 * gpm, 40_000 * psi) / poundForce,
    printed: 63.2,
    within: 0.05,
  },
  {
    id: 'Z nozzle',
    source: 'mechanics',
    what: '20.83 L/min at 3 bar, Cd 0.9, comes from 4.478 mm',
    computed: () => nozzleDiameter((250 / 12) * litresPerMinute, 3 * bar, 0.9) / millimetre,
    printed: 4.478,
    within: 0.0005,
  },
];

describe('published pump, nozzle and jet examples', () => {
  test.each(examples.map(example => [title(example), example] as const))('%s', (_, example) => expectExample(example));
});

describe('the forms with constants are the same formulas', () => {
  it(title({ id: 'P1', source: 'hydraulic-power-pages', what: 'kW = L/min bar / 600' }), () => {
    expect(hydraulicPower(37 * litresPerMinute, 200 * bar) / 1000).toBeCloseTo((37 * 200) / 600, 10);
    expect(shaftPower(37 * litresPerMinute, 200 * bar, 0.8) / 1000).toBeCloseTo((37 * 200) / 600 / 0.8, 10);
  });
  it(title({ id: 'P2', source: 'hydraulic-power-pages', what: 'hp = gpm psi / 1714 (exactly 1714.2857)' }), () => {
    expectDigits(horsepower / hydraulicPower(gpm, psi), 1714.2857);
  });
  it(
    title({ id: 'P3', source: 'mechanics', what: 'L/min = 0.6664 Cd d^2 sqrt(bar); 0.06664 with kPa; 2.107 with MPa' }),
    () => {
      expectDigits(nozzleFlow(millimetre, bar, 1) / litresPerMinute, 0.6664);
      expectDigits(nozzleFlow(millimetre, 1000, 1) / litresPerMinute, 0.06664);
      expectDigits(nozzleFlow(millimetre, 1e6, 1) / litresPerMinute, 2.107);
    },
  );
  it(title({ id: 'P3', source: 'fire-service-hydraulics', what: 'L/min = 2/3 d^2 sqrt(bar)' }), () => {
    expect(nozzleFlow(millimetre, bar, 1) / litresPerMinute / (2 / 3)).toBeCloseTo(1, 2);
  });
  it(title({ id: 'P4', source: 'mechanics', what: 'gpm = 29.824 Cd d^2 sqrt(psi) for 1000 kg/m3' }), () => {
    expectDigits(exactConstant, 29.824);
  });
  it(title({ id: 'P4', source: 'nozzle-flow-pages', what: 'constants 29.83, 29.7 and 29.71 are seen' }), () => {
    for (const seen of [29.83, 29.7, 29.71]) expect(exactConstant / seen).toBeCloseTo(1, 2);
  });
  it(
    title({ id: 'P5', source: 'fire-service-hydraulics', what: 'N = 0.157 p d^2 (bar, mm); lbf = 1.57 d^2 psi' }),
    () => {
      expectDigits(jetForce(nozzleFlow(millimetre, bar, 1), bar), 0.157);
      expectDigits(jetForce(nozzleFlow(inch, psi, 1), psi) / poundForce, 1.57);
    },
  );
  it(title({ id: 'P5', source: 'mechanics', what: 'N = 0.2357 L/min sqrt(bar); lbf = 0.0526 gpm sqrt(psi)' }), () => {
    expectDigits(jetForce(litresPerMinute, bar), 0.2357);
    expect(jetForce(gpm, psi) / poundForce).toBeCloseTo(0.0527, 4);
  });
  it(title({ id: 'P6', source: 'mechanics', what: 'm/s = 14.14 sqrt(bar); ft/s = 12.18 sqrt(psi)' }), () => {
    expectDigits(jetSpeed(bar), 14.14);
    expectDigits(jetSpeed(psi) / foot, 12.18);
  });
  it(title({ id: 'P7', source: 'fire-service-hydraulics', what: 'head in ft = psi / 0.433' }), () => {
    expect(pressureHead(psi) / foot / (1 / 0.433)).toBeCloseTo(1, 2);
  });
});

describe('what a pressure is called', () => {
  it(title({ id: '4.5', source: 'sspc-nace-water-jetting', what: 'classes as reprinted' }), () => {
    const name = (value: number) => pressureClass(value * psi, 'sspc-nace-water-jetting')?.name;
    expect(name(4_999)).toBe('low-pressure water cleaning');
    expect(name(5_000)).toBe('high-pressure water cleaning');
    expect(name(9_999)).toBe('high-pressure water cleaning');
    expect(name(10_000)).toBe('high-pressure water jetting');
    expect(name(25_000)).toBe('high-pressure water jetting');
    expect(name(25_001)).toBe('ultra-high-pressure water jetting');
    expect(pressureClass(Number.NaN, 'sspc-nace-water-jetting')).toBeUndefined();
  });
  it(title({ id: '4.5', source: 'wjta-practice', what: 'other words, from memory' }), () => {
    expect(pressureClass(4_000 * psi, 'wjta-practice')?.name).toBe('pressure cleaning');
    expect(pressureClass(31_000 * psi, 'wjta-practice')?.name).toBe('ultra-high-pressure water cleaning');
  });
  it(
    title({ id: 'RM16', source: 'ufgs-02763a-preparation', what: '17.9 MPa is 2,600 psi: low pressure by class' }),
    () => {
      expect(Math.round(17.9e6 / psi / 100) * 100).toBe(2_600);
      expect(pressureClass(17.9e6, 'sspc-nace-water-jetting')?.name).toBe('low-pressure water cleaning');
    },
  );
});
