import { describe, expect, test } from 'vitest';
import { codesOf, jobOf } from '../../support/jobs.ts';

const base = `broomline 1
runway Main {
  length: 2450 m
  width: 45 m
  pavement: grooved asphalt
  end "04" { displaced: 120 m }
  end "22"
}
deposit North {
  on: Main from "04"
  stations: table chainage m, left m, right m
    150 9 9
    300 11 11
    750 8 9
  build-up: heavy
}
sprayer S1 { width: 8 m, tank: 4000 L }
broom B1 { width: 2.4 m, angle: 30 °, bristles: polypropylene }
method Wash(soak: time = 35 min, rate: application rate) {
  family: chemical and brooms
  role applicator { machine: sprayer, width: >= 6 m }
  role scrubbers { machine: broom }
  step Apply { does: apply, by: applicator, rate: rate of mix, speed: 7 mph }
  step Soak { does: soak, at-least: soak, at-most: soak + 55 min }
  step Agitate { does: agitate, by: scrubbers, speed: 5 km/h }
}
work East {
  removes: North
  method: Wash(soak: 40 min, rate: 0.35 L/m2)
  applicator: S1
  scrubbers: 2 of B1
}
`;

describe('plans', () => {
  test('a work calls its method with its arguments and binds its roles', async () => {
    const job = await jobOf(base);
    expect(codesOf(job)).toEqual([]);
    const [plan] = job.plans;
    expect(plan?.runway?.name).toBe('Main');
    expect(plan?.end?.displaced?.value).toBe(120);
    const [apply, soak, agitate] = plan!.steps;
    expect(apply?.step.rate?.value).toEqual({ rate: expect.closeTo(0.00035, 12), of: 'mix' });
    expect(apply?.step.rate?.origin).toMatchObject({ by: 'argument', parameter: 'rate' });
    // The finding of an argument stands at the call, not in the method.
    expect(base.slice(apply!.step.rate!.place.start, apply!.step.rate!.place.end)).toBe('0.35 L/m2');
    expect(soak?.step.atLeast?.value).toBe(2400);
    expect(soak?.step.atMost?.value).toBe(5700);
    expect(agitate?.machines).toMatchObject([{ count: 2, machine: { name: 'B1' } }]);
    expect(apply?.step.id.endsWith('#East.Apply')).toBe(true);
  });

  test.each([
    ['applicator: S1', 'applicator: B1', 'wrong-kind|role-kind'],
    ['applicator: S1\n', '', 'role-not-bound'],
    ['width: >= 6 m', 'width: >= 9 m', 'role-limit'],
    ['applicator: S1', 'aplicator: S1', 'unknown-property'],
    ['soak: 40 min, ', 'soack: 40 min, ', 'unknown-argument'],
    ['soak: 40 min, ', 'soak: 40 m, ', 'wrong-dimension'],
    [', rate: 0.35 L/m2', '', 'missing-argument'],
    ['soak: 40 min, ', 'soak: 40 min, soak: 3 min, ', 'duplicate-argument'],
    ['removes: North', 'removes: Nroth', 'unknown-name'],
    ['does: apply', 'does: aply', 'unknown-word'],
    ['speed: 7 mph', 'speed: 7 mph, cycles: 2', 'out-of-place'],
    ['rate: rate of mix', 'rate: rate', 'rate-of-what'],
    ['step Apply', 'step Soak', 'duplicate-name'],
    ['deposit North', 'depsit North', 'unknown-kind'],
    ['broomline 1', 'broomline 9', 'version-unknown'],
    ['broomline 1', 'broomline 1\nlength: 5 m', 'misplaced-statement'],
    ['end "22"', 'end {}', 'name-missing'],
    ['end "22"', 'role x { machine: broom }', 'misplaced-block'],
  ])('%s → %s: %s', async (from, to, codes) => {
    expect(base).toContain(from);
    const found = codesOf(await jobOf(base.replace(from, to))).join(',');
    expect(codes.split('|')).toContain(found);
  });
});

describe('like and without', () => {
  test('a child changes some lines, and what the parent computes follows', async () => {
    const job = await jobOf(`broomline 1
broom A { width: 2.4 m, pattern: width / 30, bristles: steel }
broom B like A { width: 3 m, bristles: nylon }`);
    expect(codesOf(job)).toEqual([]);
    const b = job.blocks.brooms.find(each => each.name === 'B');
    expect(b?.pattern?.value).toBeCloseTo(0.1, 12);
    expect(b?.pattern?.origin).toEqual({ by: 'inherited', from: 'A' });
    expect(b?.bristles?.value).toBe('nylon');
    expect(b?.bristles?.literal).toBe(true);
  });

  test('steps are overridden by name and dropped by without', async () => {
    const job = await jobOf(`${base}
method Quick(rate: application rate) like Wash(rate: rate) {
  without Agitate
  step Soak { at-least: 20 min }
}`);
    const quick = job.blocks.methods.find(each => each.name === 'Quick');
    expect(quick?.steps.map(each => each.name)).toEqual(['Apply', 'Soak']);
    expect(quick?.steps[1]?.atLeast?.value).toBe(1200);
    expect(quick?.steps[1]?.does?.value).toBe('soak');
  });

  test('a method that is like another takes its parameters, less those it has given', async () => {
    const methods = `broomline 1
product P { dilution: 20 % }
method Wash(soak: time, rate: application rate = 0.3 L/m2) {
  step Soak { does: soak, at-least: soak }
  step Put { does: apply, rate: rate of mix }
}
method Plain like Wash { }
method Slow like Wash(soak: 50 min) { }
`;
    const work = (call: string) => `${methods}work W { method: ${call} }`;
    const soakOf = async (call: string) => {
      const job = await jobOf(work(call));
      const wrong = codesOf(job).filter(code => /argument/.test(code));
      const [soak, put] = job.plans[0]!.steps.map(each => each.step);
      return [soak?.atLeast?.value, put?.rate?.value.rate, ...wrong];
    };
    expect(await soakOf('Plain(soak: 40 min, rate: 0.4 L/m2)')).toEqual([2400, 0.4e-3]);
    expect(await soakOf('Plain(rate: 0.4 L/m2)')).toEqual([undefined, 0.4e-3, 'missing-argument']);
    expect(await soakOf('Slow(rate: 0.4 L/m2)')).toEqual([3000, 0.4e-3]);
    expect(await soakOf('Slow(soak: 20 min)')).toEqual([1200, 0.3e-3]);
    expect(await soakOf('Slow(sok: 20 min)')).toContain('unknown-argument');
  });

  test('what a method hands on to the one it is like is what it is called with', async () => {
    const methods = `broomline 1
product P { dilution: 20 % }
method Wash(soak: time, rate: application rate = 0.3 L/m2) {
  step Soak { does: soak, at-least: soak }
  step Put { does: apply, rate: rate of mix }
}
method Slow(wait: time, rate: application rate = 0.2 L/m2) like Wash(soak: 2 * wait, rate: rate) { }
method Slower(long: time = 5 min) like Slow(wait: long + 1 min) { }
method Same like Slower { }
`;
    const soakOf = async (call: string) => {
      const job = await jobOf(`${methods}work W { method: ${call} }`);
      const [soak, put] = job.plans[0]!.steps.map(each => each.step);
      const found = codesOf(job).filter(code => /argument|unknown/.test(code));
      return [soak?.atLeast?.value, put?.rate?.value.rate, ...found];
    };
    expect(await soakOf('Slow(wait: 20 min)')).toEqual([2400, 0.2e-3]);
    expect(await soakOf('Slow(wait: 20 min, rate: 0.4 L/m2)')).toEqual([2400, 0.4e-3]);
    expect(await soakOf('Slower')).toEqual([720, 0.2e-3]);
    expect(await soakOf('Slower(long: 9 min)')).toEqual([1200, 0.2e-3]);
    expect(await soakOf('Same(long: 9 min)')).toEqual([1200, 0.2e-3]);
    expect(await soakOf('Slow')).toContain('missing-argument');
  });

  test('circles are findings', async () => {
    const job = await jobOf('broomline 1\nbroom A like B {}\nbroom B like A {}');
    expect(codesOf(job)).toContain('cyclic-like');
    const values = await jobOf(
      'broomline 1\nbroom A { width: B.width, bristles: steel }\nbroom B { width: A.width, bristles: steel }',
    );
    expect(codesOf(values)).toEqual(['cyclic-value']);
  });
});

describe('libraries', () => {
  const library = 'broomline 1\nsprayer Wide { width: 12 m, tank: 6000 L }\nweather-stop { wind: <= 20 km/h }\n';

  test('a prefixed file gives what is named; an unprefixed one also what stands in it', async () => {
    const job = await jobOf({
      'job.broom': 'broomline 1\nuse "lib.broom" as Lib\nsprayer Own like Lib.Wide { tank: 5000 L }',
      'lib.broom': library,
    });
    expect(codesOf(job)).toEqual([]);
    expect(job.blocks.weatherStops).toEqual([]);
    const own = job.blocks.sprayers.find(each => each.name === 'Own');
    expect(own?.width?.value).toBe(12);
    expect(own?.width?.origin.by).toBe('library');
    expect(own?.width?.literal).toBe(false);
    const open = await jobOf({ 'job.broom': 'broomline 1\nuse "lib.broom"\n', 'lib.broom': library });
    expect(open.blocks.weatherStops).toHaveLength(1);
    expect(open.blocks.sprayers).toEqual([]);
  });
});

describe('requirements', () => {
  const judge = async (condition: string) => {
    const job = await jobOf(`${base}\nrequire ${condition} because "so"`);
    return job.requirements[0]!.evaluate(path =>
      path === 'East.product' ? { value: 6.9, kind: 'volume' } : path === 'East.water' ? 'missing' : 'unknown',
    );
  };

  test('they read computed quantities in any unit', async () => {
    expect(await judge('East.product <= 6000 L')).toMatchObject({ holds: false, left: '6 900 L', right: '6 000 L' });
    expect(await judge('East.product <= 2000 gal')).toMatchObject({ holds: true });
    expect(await judge('North.area > 9000 m2 and Main.length = 2450 m')).toMatchObject({ holds: true });
  });

  test('what is missing, unknown or of another dimension is said, not guessed', async () => {
    expect(await judge('East.water <= 6000 L')).toEqual({ missing: 'East.water' });
    expect(await judge('East.produkt <= 6000 L')).toMatchObject({ problem: { code: 'unknown-quantity' } });
    expect(await judge('East.product <= 6000 min')).toMatchObject({ problem: { code: 'wrong-dimension' } });
    expect(await judge('Est.product <= 6000 L')).toMatchObject({
      problem: { code: 'unknown-name', data: { meant: ['East'] } },
    });
    expect(await judge('East.product')).toMatchObject({ problem: { code: 'wrong-value' } });
  });

  test('an input may not use what is computed from inputs', async () => {
    const job = await jobOf(base.replace('tank: 4000 L', 'tank: East.Apply.volume'));
    expect(codesOf(job)).toContain('quantity-too-late');
    const named =
      await jobOf(`${base.replace('method: Wash', 'product: P\n  method: Wash').replace('tank: 4000 L', 'tank: East.product')}
product P { safety-data-sheet: "x", dilution: neat, dwell-least: 30 min, dwell-most: 90 min }`);
    expect(codesOf(named)).toEqual(['quantity-too-late']);
  });
});

test('a long chain of names ends in a finding, not in an overflow', async () => {
  const blocks = Array.from({ length: 3000 }, (_, i) => `broom B${i} { width: B${i + 1}.width, bristles: steel }`);
  const job = await jobOf(`broomline 1\n${blocks.join('\n')}\nbroom B3000 { width: 2 m, bristles: steel }`);
  expect(codesOf(job).length).toBeGreaterThan(0);
});
