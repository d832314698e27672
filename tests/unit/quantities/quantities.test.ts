import { describe, expect, it } from 'vitest';
import type { Explained } from '../../../language/explain/explain.ts';
import { quantitiesContract, quantitiesResult } from '../../../language/quantities/contract.ts';
import {
  analyseQuantities,
  computeQuantities,
  findQuantity,
  lookupIn,
  missingFor,
} from '../../../language/quantities/quantities.ts';
import { missingText } from '../../../language/quantities/quantity.ts';
import { sources } from '../../../language/sources/sources.ts';
import { type Block, block, job, ref, si, stations, type Values } from './build.ts';

/** The handbook's integrated example Z: invented inputs, exact outputs. Mark: derived. */
function exampleZ(change: { [Kind in string]?: Values } = {}, extra: readonly Block[] = []) {
  const runway = block('runway', 'Main', {
    length: '3000 m',
    width: '45 m',
    pavement: 'asphalt',
    ends: [block('end', '04')],
    ...change.runway,
  });
  const deposit = block('deposit', 'Zone', {
    on: { runway: ref(runway), end: '04' },
    stations: stations(150, 1050, 12, 12),
    buildUp: 'heavy',
    ...change.deposit,
  });
  const product = block('product', 'Cleaner', { dilution: { share: 0.2 }, ...change.product });
  const sprayer = block('sprayer', 'Sprayer1', {
    width: '6 m',
    tank: '4000 L',
    nozzles: '12',
    spacing: '0.5 m',
    nozzlePoints: [
      { pressure: si('2 bar'), flow: si('20.833333333333333333 L/min') * Math.sqrt(2 / 3) },
      { pressure: si('3 bar'), flow: si('20.833333333333333333 L/min') },
      { pressure: si('5 bar'), flow: si('20.833333333333333333 L/min') * Math.sqrt(5 / 3) },
    ],
    ...change.sprayer,
  });
  const broom = block('broom', 'Broom1', {
    width: '2.4 m',
    angle: '30 °',
    bristles: 'polypropylene',
    diameter: '0.91 m',
    rotation: '300 rpm',
    pattern: '75 mm',
    ...change.broom,
  });
  const truck = block('water-truck', 'Truck1', { width: '4 m', tank: '12000 L' });
  const method = block('method', 'Soak', {
    family: 'chemical and brooms',
    steps: [
      block('step', 'Spray', {
        does: 'apply',
        by: [ref(sprayer)],
        speed: '5 km/h',
        rate: { rate: si('0.5 L/m2'), of: 'mix' },
        ...change.spray,
      }),
      block('step', 'Soak', { does: 'soak', atLeast: '30 min' }),
      block('step', 'Broom', {
        does: 'agitate',
        by: [ref(broom)],
        speed: '6 km/h',
        advance: { of: 'length', length: 2.4 * Math.cos(Math.PI / 6) - 0.3 },
        returns: false,
        ...change.agitate,
      }),
      block('step', 'Rinse', {
        does: 'rinse',
        by: [ref(truck)],
        with: ref(broom),
        speed: '6 km/h',
        rate: { rate: si('3 L/m2'), of: 'water' },
      }),
      ...((change.steps ?? []) as Block[]),
    ],
    ...change.method,
  });
  const work = block('work', 'North', {
    removes: [ref(deposit)],
    method: ref(method),
    product: ref(product),
    ...change.work,
  });
  return job([runway, deposit, product, sprayer, broom, truck, method, ...extra, work]);
}

const valueIn = (map: ReadonlyMap<string, Explained>) => (path: string) => map.get(path)?.value;

describe('integrated example Z', () => {
  const quantities = computeQuantities(exampleZ());
  const value = valueIn(quantities);
  const perMinute = 1 / 60_000;

  it.each([
    ['North.area', 21_600],
    ['Zone.area', 21_600],
    ['North.mix', 10.8],
    ['North.product', 2.16],
    ['North.dilutionWater', 8.64],
    ['North.Spray.flow', 250 * perMinute],
    ['North.Spray.nozzleFlow', (250 / 12) * perMinute],
    ['North.Spray.pressure', 3e5],
    ['North.loads', 3],
    ['North.refills', 2],
    ['North.areaPerLoad', 8_000],
    ['North.Spray.lanes', 4],
    ['North.Spray.drivingTime', 2_592],
    ['Broom1.swept', 2.078460969082653],
    ['North.Broom.swept', 2.078460969082653],
    ['North.Broom.advance', 1.778460969082653],
    ['North.Broom.overlap', 0.3],
    ['North.Broom.circuits', 7],
    ['North.Broom.lanes', 14],
    ['North.Broom.drivenLength', 12_600],
    ['North.Broom.drivingTime', 126 * 60],
    ['North.Broom.contactTime', 0.045],
    ['North.rinseWater', 64.8],
    ['North.Rinse.loads', 6],
    ['Sprayer1.nozzlesTimesSpacing', 6],
    ['Main.area', 135_000],
  ])('%s', (path, expected) => expect(value(path)).toBeCloseTo(expected, 9));

  it('has a speed of the bristle tips of 14.3 m/s (handbook B9, derived)', () => {
    expect(value('Broom1.tipSpeed')).toBeCloseTo(14.294, 3);
  });

  it('raises the pressure by 1.44 from 5 to 6 km/h at the same rate', () => {
    const faster = computeQuantities(exampleZ({ spray: { speed: '6 km/h' } }));
    expect(valueIn(faster)('North.Spray.pressure')).toBeCloseTo(4.32e5, 3);
  });

  it('keeps the identity: flow by driving time is rate by area', () => {
    expect(value('North.Spray.flow')! * value('North.Spray.drivingTime')!).toBeCloseTo(value('North.mix')!, 9);
  });

  it('explains every quantity: formula and a source of the register', () => {
    for (const each of quantities.values()) {
      expect(each.formula ?? each.origin, each.path).toBeDefined();
      expect(each.source === 'the author' || each.source in sources, each.path).toBe(true);
    }
  });

  it('leads down to lines of the text: every leaf has a place, or stands for a count of machines', () => {
    const visit = (each: Explained): void => {
      if (each.inputs.length === 0 && each.formula === undefined) expect(each.place, each.path).toBeDefined();
      for (const input of each.inputs) visit(input);
    };
    for (const each of quantities.values()) visit(each);
  });

  it('gives the same map twice, in the same order', () => {
    const again = computeQuantities(exampleZ());
    expect([...again.keys()]).toEqual([...quantities.keys()]);
    expect([...again.values()].map(each => each.value)).toEqual([...quantities.values()].map(each => each.value));
  });
});

describe('areas', () => {
  it('counts what lies under two deposits once, and says how much that is', () => {
    const { known } = withSecond({ stations: stations(950, 1250, 12, 12) });
    expect(known.get('North.area')?.value).toBeCloseTo(1100 * 24, 9);
    expect(known.get('North.area')?.inputs.find(each => each.path === 'North.overlap')?.value).toBeCloseTo(2400, 9);
    expect(known.get('North.length')?.value).toBeCloseTo(1100, 9);
  });

  it('leaves gaps between deposits out of the length', () => {
    const { known } = withSecond({ stations: stations(2000, 2100, 5, 5) });
    expect(known.get('North.length')?.value).toBeCloseTo(1000, 9);
  });

  it('cuts to from and to, and deducts the exclusions that say so', () => {
    const base = exampleZ({ work: { from: '250 m', to: '950 m' } });
    expect(computeQuantities(base).get('North.area')?.value).toBeCloseTo(700 * 24, 9);
    const runway = base.blocks.runways[0]!;
    const hole = (deducted: boolean) =>
      block('exclusion', 'Lights', {
        on: { runway: ref(runway), end: '04' },
        what: 'lights',
        treatment: 'avoid',
        stations: [{ from: 300, to: 400, left: -1, right: 1 }],
        deducted,
      });
    const area = (deducted: boolean) => computeQuantities(exampleZ({}, [hole(deducted)])).get('North.area')?.value;
    expect(area(true)).toBeCloseTo(21_600 - 200, 9);
    expect(area(false)).toBeCloseTo(21_600, 9);
  });

  it('sees a deposit given from the other end in one frame, displaced thresholds included', () => {
    const ends = [block('end', '04', { displaced: '100 m' }), block('end', '22', { displaced: '50 m' })];
    const runway = block('runway', 'Main', { length: '3000 m', width: '45 m', pavement: 'asphalt', ends });
    // 2 850 m between the thresholds: 1 700 to 2 700 from 22 is 150 to 1 150 from 04, left and right changed over.
    const near = block('deposit', 'Near', {
      on: { runway: ref(runway), end: '04' },
      stations: stations(150, 1150, 4, 9),
      buildUp: 'light',
    });
    const far = block('deposit', 'Far', {
      on: { runway: ref(runway), end: '22' },
      stations: stations(1700, 2700, 9, 4),
      buildUp: 'light',
    });
    const method = block('method', 'None', { family: 'low-pressure water' });
    const work = block('work', 'Both', { removes: [ref(near), ref(far)], method: ref(method) });
    expect(computeQuantities(job([runway, near, far, method, work])).get('Both.area')?.value).toBeCloseTo(13_000, 9);
  });

  function withSecond(values: Values) {
    const first = exampleZ();
    const runway = first.blocks.runways[0]!;
    const second = block('deposit', 'Second', { on: { runway: ref(runway), end: '04' }, buildUp: 'heavy', ...values });
    return analyseQuantities(exampleZ({ work: { removes: [ref(first.blocks.deposits[0]!), ref(second)] } }, [second]));
  }
});

describe('rates', () => {
  it('turns a rate of product into one of mix through the dilution', () => {
    const value = valueIn(computeQuantities(exampleZ({ spray: { rate: { rate: si('0.1 L/m2'), of: 'product' } } })));
    expect(value('North.rate')).toBeCloseTo(0.5e-3, 12);
    expect(value('North.product')).toBeCloseTo(2.16, 9);
  });

  it('lets the build-up put its own rate in place of the step', () => {
    const buildUps = [
      block('build-up', 'heavy', { rate: { rate: si('0.7 L/m2'), of: 'mix' }, coats: '2', cycles: '3' }),
    ];
    const value = valueIn(computeQuantities(exampleZ({ method: { buildUps } })));
    expect(value('North.rate')).toBeCloseTo(0.7e-3, 12);
    expect(value('North.Spray.coats')).toBe(2);
    expect(value('North.Spray.flow')).toBeCloseTo(175 / 60_000, 12);
    expect(value('North.Broom.drivenLength')).toBeCloseTo(3 * 12_600, 6);
  });

  it('gives each class of build-up its own rate and area; where they overlap the heavier counts', () => {
    const first = exampleZ();
    const runway = first.blocks.runways[0]!;
    const light = block('deposit', 'Light', {
      on: { runway: ref(runway), end: '04' },
      stations: stations(850, 1450, 12, 12),
      buildUp: 'light',
    });
    const buildUps = [block('build-up', 'light', { rate: { rate: si('0.25 L/m2'), of: 'mix' } })];
    const removes = [ref(first.blocks.deposits[0]!), ref(light)];
    const value = valueIn(computeQuantities(exampleZ({ method: { buildUps }, work: { removes } }, [light])));
    expect(value('North.heavy.area')).toBeCloseTo(21_600, 9);
    expect(value('North.light.area')).toBeCloseTo(400 * 24, 9);
    expect(value('North.mix')).toBeCloseTo(21_600 * 0.5e-3 + 9_600 * 0.25e-3, 9);
    expect(value('North.rate')).toBeCloseTo((21_600 * 0.5e-3 + 9_600 * 0.25e-3) / 31_200, 12);
  });

  it('takes as many coats as the surface needs', () => {
    const value = valueIn(computeQuantities(exampleZ({ spray: { passRate: '0.2 L/m2' } })));
    expect(value('North.Spray.coats')).toBe(3);
    expect(value('North.Spray.flow')).toBeCloseTo(250 / 3 / 60_000, 12);
  });

  it('corrects the nozzle pressure by the relative density', () => {
    const value = valueIn(computeQuantities(exampleZ({ product: { density: '1100 kg/m3' } })));
    // q_w = q · √1.1, so p grows by 1.1.
    expect(value('North.Spray.pressure')).toBeCloseTo(3.3e5, 3);
  });

  it('says where the pressure lies outside the calibrated points', () => {
    const pressure = computeQuantities(exampleZ({ spray: { speed: '9 km/h' } })).get('North.Spray.pressure');
    expect(pressure?.note).toContain('above the calibrated points');
    expect(pressure?.value).toBeCloseTo(3e5 * 1.8 ** 2, 3);
  });
});

describe('tolerances', () => {
  it('carries them as intervals to flow and quantities', () => {
    const map = computeQuantities(exampleZ({ spray: { speed: '5 km/h ± 10 %' } }));
    expect(map.get('North.Spray.flow')?.interval?.map(end => end * 60_000)).toEqual([
      expect.closeTo(225, 9),
      expect.closeTo(275, 9),
    ]);
    expect(map.get('North.mix')?.interval).toBeUndefined();
    expect(map.get('North.Spray.drivingTime')?.interval?.[1]).toBeCloseTo(2_880, 6);
  });
});

describe('water', () => {
  const steps = (): Block[] => [
    block('step', 'KeepWet', {
      does: 'keep-wet',
      by: [{ kind: 'water-truck', id: 'water-truck Truck1', name: 'Truck1' }],
      speed: '8 km/h',
      rate: { rate: si('0.2 L/m2'), of: 'water' },
      every: '12 min',
    }),
    block('step', 'Wash', { does: 'wash-down', water: '500 L' }),
  ];

  it('sums all uses', () => {
    const value = valueIn(computeQuantities(exampleZ({ steps: steps() as never })));
    // 30 min of soak, every 12 min: at 12 and at 24 min.
    expect(value('North.keepWetWater')).toBeCloseTo(2 * 0.2e-3 * 21_600, 9);
    expect(value('North.washWater')).toBeCloseTo(1.5, 9);
    expect(value('North.water')).toBeCloseTo(8.64 + 64.8 + 8.64 + 1.5, 9);
    expect(value('Job.water')).toBeCloseTo(8.64 + 64.8 + 8.64 + 1.5, 9);
    expect(value('North.runoff')).toBeCloseTo(10.8 + 64.8 + 8.64, 9);
  });

  it('lets the texture lower the bound of what has to be collected', () => {
    const map = computeQuantities(exampleZ({ runway: { texture: '0.8 mm' } }));
    const held = 0.8e-3 * 21_600;
    expect(map.get('North.retained')?.value).toBeCloseTo(held, 9);
    expect(map.get('North.runoff')?.interval).toEqual([expect.closeTo(75.6 - held, 9), expect.closeTo(75.6, 9)]);
  });

  it('leaves a step out that is meant for a hotter pavement', () => {
    const hot = steps()
      .slice(0, 1)
      .map(step => ({ ...step, when: { value: { least: 308.15 }, text: '>= 35 °C' } }));
    const weather = (surface: string) =>
      block('conditions', '', { air: '20 °C', surface, humidity: '60 %', wind: '10 km/h' });
    const water = (surface: string) =>
      computeQuantities(exampleZ({ steps: hot as never }, [weather(surface)])).get('North.keepWetWater');
    expect(water('20 °C')?.value).toBe(0);
    expect(water('40 °C')?.value).toBeCloseTo(8.64, 9);
  });
});

describe('weather', () => {
  const film = (rate: string) => {
    const conditions = block('conditions', '', { air: '30 °C', surface: '30 °C', humidity: '50 %', wind: '20 km/h' });
    return computeQuantities(exampleZ({ spray: { rate: { rate: si(rate), of: 'mix' } } }, [conditions]));
  };

  // Handbook 4.1, derived with Menzel's formula, which itself is from memory.
  it('is dry after 30.9 min at 0.5 L/m² and 22 min at 0.35 L/m² (30 °C, 50 %, 20 km/h)', () => {
    expect(film('0.5 L/m2').get('North.Spray.filmLife')!.value / 60).toBeCloseTo(30.9, 1);
    expect(film('0.35 L/m2').get('North.Spray.filmLife')!.value / 60).toBeCloseTo(21.6, 1);
  });

  it('carries the band of ± 40 %', () => {
    const { value, interval } = film('0.5 L/m2').get('North.Spray.filmLife')!;
    expect(interval![0]).toBeCloseTo(value / 1.4, 6);
    expect(interval![1]).toBeCloseTo(value / 0.6, 6);
  });

  // Handbook 4.1 cross-check table, derived.
  it('gives both formulas: 0.971 and 0.958 kg/m²/h', () => {
    expect(film('0.5 L/m2').get('North.evaporation')!.value * 3600).toBeCloseTo(0.971, 3);
    expect(film('0.5 L/m2').get('North.evaporationUno')!.value * 3600).toBeCloseTo(0.958, 3);
  });

  it('has no film life where dew falls', () => {
    const conditions = block('conditions', '', { air: '20 °C', surface: '5 °C', humidity: '95 %', wind: '5 km/h' });
    const lacking = missingFor(exampleZ({}, [conditions]), 'North.Spray.filmLife');
    expect(missingText(lacking!)).toBe(
      'North.Spray.filmLife cannot be computed: nothing evaporates under the conditions of the job',
    );
  });
});

describe('jets', () => {
  const jetJob = (values: Values, ofStep: Values) => {
    const jet = block('jet', 'Jet1', { width: '2 m', tank: '8000 L', ...values });
    const jetting = block('step', 'Jet', { does: 'jet', by: [ref(jet)], speed: '3 km/h', ...ofStep });
    return valueIn(computeQuantities(exampleZ({ method: { steps: [jetting] } }, [jet])));
  };

  // Handbook P-10, derived: 100 L/min at 1,000 bar is 166.7 kW, 745 N, 447 m/s.
  it('has power, force and speed of 100 L/min at 1,000 bar', () => {
    const value = jetJob({ efficiency: '100 %' }, { rate: { rate: si('1 L/m2'), of: 'water' }, pressure: '1000 bar' });
    expect(value('North.Jet.flow')! * 60_000).toBeCloseTo(100, 9);
    expect(value('North.Jet.power')! / 1000).toBeCloseTo(166.67, 2);
    expect(value('North.Jet.force')).toBeCloseTo(745.36, 2);
    expect(value('North.Jet.jetSpeed')).toBeCloseTo(447.2, 1);
  });

  it('takes the rate from the nozzles where none is stated', () => {
    const value = jetJob({ nozzles: '12', bore: '4.478 mm', discharge: '0.9' }, { pressure: '3 bar', passes: '2' });
    // Handbook Z: a bore of 4.478 mm gives 20.83 L/min at 3 bar with Cd 0.9; twelve of them 250 L/min.
    expect(value('North.Jet.nozzlesDeliver')! * 60_000).toBeCloseTo(250, 1);
    expect(value('North.jetWater')).toBeCloseTo((2 * value('North.Jet.nozzlesDeliver')! * 21_600) / (2 * (3 / 3.6)), 9);
  });
});

describe('frequency and friction', () => {
  // Handbook 1.4, published, second hand: 100 landings a day, survey monthly, removal every 4 months.
  it('reads the published table by landings', () => {
    const ends = [block('end', '04', { landings: '100' })];
    const map = computeQuantities(exampleZ({ runway: { ends } }));
    expect(map.get('Main.04.surveyInterval')?.note).toContain('1 month');
    expect(map.get('Main.04.removalInterval')?.note).toContain('4 months');
    expect(map.get('Main.04.removalInterval')?.mark).toBe('published, second hand');
  });

  it('has means weighted by length and the published levels with the mark of their row', () => {
    const runway = exampleZ().blocks.runways[0]!;
    const survey = block('survey', 'Spring', {
      on: { runway: ref(runway), end: '04' },
      device: 'GripTester',
      speed: '65 km/h',
      basis: 'ICAO',
      readings: [
        { chainage: 0, friction: 0.6 },
        { chainage: 100, friction: 0.4 },
        { chainage: 400, friction: 0.8 },
      ],
      stretch: '100 m',
    });
    const map = computeQuantities(exampleZ({}, [survey]));
    expect(map.get('Spring.mean')?.value).toBeCloseTo((0.6 * 100 + 0.4 * 300 + 0.8 * 100) / 500, 9);
    expect(map.get('Spring.least')?.value).toBe(0.4);
    expect(map.get('Spring.leastOverLength')?.value).toBeCloseTo(0.4, 9);
    expect(map.get('Spring.minimum')?.value).toBe(0.43);
    expect(map.get('Spring.minimum')?.mark).toBe('from memory');
  });
});

describe('cost and contingency', () => {
  it('prices materials and area, adds what is ordered', () => {
    const product = { price: '4 EUR/L' };
    const cost = block('cost', '', { paidBy: 'area', rate: '2 EUR/m2', water: '3 EUR/m3' });
    const head = block('job', 'Tern', { title: 'x', contingency: '10 %' });
    const value = valueIn(computeQuantities(exampleZ({ product }, [cost, head])));
    expect(value('North.cost.product')).toBeCloseTo(2_160 * 4, 6);
    expect(value('North.cost.water')).toBeCloseTo((8.64 + 64.8) * 3, 6);
    expect(value('North.cost.area')).toBeCloseTo(43_200, 6);
    expect(value('Job.cost.materials')).toBeCloseTo(2_160 * 4 + 73.44 * 3, 6);
    expect(value('Job.productOrdered')).toBeCloseTo(2.376, 9);
  });
});

describe('what is missing', () => {
  it('is absent, and named', () => {
    const broken = exampleZ({ spray: { rate: undefined } });
    const lacking = {
      ...broken,
      plans: broken.plans.map(plan => ({
        ...plan,
        steps: plan.steps.map(s => ({
          ...s,
          step: { ...s.step, rate: s.step.name === 'Spray' ? undefined : s.step.rate },
        })),
      })),
    };
    expect(computeQuantities(lacking).has('North.product')).toBe(false);
    expect(missingText(missingFor(lacking, 'North.product')!)).toBe(
      'North.product cannot be computed: the rate of mix of North.Spray is missing',
    );
    expect(missingFor(lacking, 'Job.product')?.lacks).toHaveLength(1);
    expect(computeQuantities(lacking).get('North.area')?.value).toBeCloseTo(21_600, 9);
    expect(missingFor(lacking, 'North.area')).toBeUndefined();
  });

  it('never throws on a job of empty blocks', () => {
    const empty = [
      'runway',
      'deposit',
      'product',
      'sprayer',
      'broom',
      'jet',
      'survey',
      'conditions',
      'cost',
      'job',
    ].map(kind => block(kind, `${kind}1`));
    const work = block('work', 'North', { removes: [{ kind: 'deposit', id: 'deposit deposit1', name: 'deposit1' }] });
    expect(() => analyseQuantities(job([...empty, work]))).not.toThrow();
    expect(missingFor(job([...empty, work]), 'North.area')?.lacks[0]?.clause).toContain('missing');
    expect(() => analyseQuantities(job([]))).not.toThrow();
  });

  it('does not answer with an infinite or undefined number', () => {
    for (const each of computeQuantities(exampleZ({ sprayer: { width: 0 }, spray: { speed: 0 } })).values()) {
      expect(Number.isFinite(each.value), each.path).toBe(true);
    }
  });
});

describe('lookup', () => {
  it('takes paths as the language writes words, and tells unknown from missing', () => {
    const lookup = lookupIn(analyseQuantities(exampleZ()));
    expect(lookup('North.dilution-water')).toEqual({ value: expect.closeTo(8.64, 9), kind: 'volume' });
    expect(lookup('North.nothing')).toBe('unknown');
    expect(lookup('North.evaporation')).toBe('missing');
  });

  it('finds what only stands inside another quantity, such as an input of the text', () => {
    const quantities = computeQuantities(exampleZ());
    expect(findQuantity(quantities, 'Sprayer1.width')?.value).toBe(6);
    expect(findQuantity(quantities, 'Zone.stations.2.chainage')?.value).toBe(1050);
    expect(findQuantity(quantities, 'North.dilution-water')?.path).toBe('North.dilutionWater');
    expect(findQuantity(quantities, 'Nobody.width')).toBeUndefined();
  });
});

describe('the contract of derive', () => {
  it('prints litres with their unit beside them', () => {
    const result = quantitiesResult(computeQuantities(exampleZ()), 'metric');
    expect(quantitiesContract.parse(result)).toEqual(result);
    expect(result.find(each => each.path === 'North.mix')).toMatchObject({
      value: 10_800,
      unit: 'L',
      shown: '10 800 L',
      formula: 'r · A',
      inputs: ['North.rate', 'North.area'],
    });
    expect(result.find(each => each.path === 'North.Spray.drivingTime')).toMatchObject({ value: 2592, unit: 's' });
  });

  it('keeps values and units when the reader wants US units', () => {
    const map = computeQuantities(exampleZ());
    const metric = quantitiesResult(map, 'metric');
    const us = quantitiesResult(map, 'us');
    expect(us.map(({ shown: _, ...rest }) => rest)).toEqual(metric.map(({ shown: _, ...rest }) => rest));
    expect(us.find(each => each.path === 'North.mix')?.shown).toBe('2 853 gal');
  });
});
