import {
  blockKind,
  flag,
  nameOf,
  namesOf,
  phrase,
  quantity,
  range,
  text,
  textList,
  wordList,
  words,
} from './define.ts';
import { plantKinds } from './plant.ts';
import { pavements } from './runway.ts';

/** A machine that the method asks for, without saying which: the work binds it. */
export const role = blockKind({
  kind: 'role',
  doc: 'A machine the method asks for, with the limits it has to keep. A work binds it to machines by `name: machine`.',
  group: 'method',
  top: false,
  properties: {
    machine: words(plantKinds, 'Kind of machine.', {
      required: true,
    }),
    width: range('length', 'Widths that serve.', { example: '>= 6 m' }),
    tank: range('volume', 'Tank sizes that serve.', { example: '>= 3000 L' }),
    pressure: range('pressure', 'Pressures the machine has to reach.'),
    bristles: wordList(['polypropylene', 'nylon', 'steel', 'mixed', 'none'], 'Bristle materials that serve.'),
    number: quantity('count', 'How many are needed at least.', { least: '1', most: '20', default: '1' }),
    note: text('Anything a tenderer should know.'),
  },
});

const DOES = [
  'sweep',
  'pre-wet',
  'apply',
  'keep-wet',
  'soak',
  'agitate',
  'rinse',
  'jet',
  'pick-up',
  'wash-down',
  'inspect',
  'hand-clean',
] as const;
/** Steps in which a machine drives over the pavement. */
const DRIVES = ['sweep', 'pre-wet', 'apply', 'keep-wet', 'agitate', 'rinse', 'jet', 'pick-up'] as const;

export const step = blockKind({
  kind: 'step',
  doc: 'One step of the method. Steps follow each other in the order in which they stand, bay by bay.',
  group: 'method',
  top: false,
  variant: 'does',
  properties: {
    does: words(DOES, 'What is done in this step.', { required: true, example: 'apply' }),
    by: namesOf(['role', ...plantKinds], 'The role, or the machines, that do it.', {
      only: [...DRIVES, 'wash-down'],
      requiredFor: DRIVES,
    }),
    with: nameOf(['role', ...plantKinds], 'A second machine in the same convoy: the broom behind the water truck.', {
      only: ['rinse', 'pick-up', 'sweep'],
    }),
    speed: quantity('speed', 'Working speed.', {
      only: DRIVES,
      requiredFor: DRIVES,
      least: '0.1 km/h',
      most: '60 km/h',
      example: '7 mph',
    }),
    rate: phrase('rate', 'How much is put on, per area, in this step altogether.', {
      only: ['pre-wet', 'apply', 'keep-wet', 'rinse', 'jet'],
      requiredFor: ['pre-wet', 'apply', 'keep-wet', 'rinse'],
    }),
    product: nameOf(['product'], 'The product, where the work does not name it.', { only: ['apply'] }),
    pattern: words(
      ['alternate sides', 'lane by lane'],
      'Order of the passes: alternating either side of the centreline, or one beside the other.',
      {
        only: ['apply', 'pre-wet', 'keep-wet', 'jet'],
        default: 'alternate sides',
      },
    ),
    overlap: quantity('length', 'Overlap of neighbouring passes.', {
      only: ['sweep', 'pre-wet', 'apply', 'keep-wet', 'jet', 'pick-up'],
      least: '0 m',
      most: '4 m',
      default: '0 m',
    }),
    coats: quantity('count', 'In how many coats the rate is put on; by default as many as the single pass needs.', {
      only: ['apply'],
      least: '1',
      most: '10',
    }),
    passRate: quantity('application rate', 'Most that the surface takes in one pass without running off.', {
      only: ['apply'],
      least: '0.01 L/m2',
      most: '5 L/m2',
    }),
    direction: words(
      ['against landing', 'with landing', 'both ways'],
      'Direction of travel against the direction of landing.',
      {
        only: ['sweep', 'jet', 'pick-up'],
      },
    ),
    passes: quantity('count', 'How often the whole width is gone over.', {
      only: ['sweep', 'pre-wet', 'jet', 'pick-up'],
      least: '1',
      most: '20',
      default: '1',
    }),
    when: range('temperature', 'Pavement temperatures at which the step is done; otherwise it is left out.', {
      only: ['pre-wet', 'keep-wet'],
      example: '>= 35 °C',
    }),
    every: quantity('time', 'How often it is repeated while the product stands.', {
      only: ['keep-wet'],
      requiredFor: ['keep-wet'],
      least: '2 min',
      most: '4 h',
      example: '15 min',
    }),
    atLeast: quantity('time', 'Shortest soak before the first tool.', {
      only: ['soak'],
      requiredFor: ['soak'],
      least: '0 min',
      most: '12 h',
      example: '30 min',
    }),
    atMost: quantity('time', 'Longest time the product may stand until it is rinsed off.', {
      only: ['soak'],
      least: '1 min',
      most: '24 h',
      example: '90 min',
    }),
    dwellFrom: words(
      ['each point', 'end of bay'],
      'From when the soak counts: at each point from the moment it is wet, or for the whole bay from its last pass.',
      {
        only: ['soak'],
        default: 'each point',
      },
    ),
    advance: phrase('advance', 'How much wider each circuit is than the one before.', {
      only: ['agitate', 'rinse'],
      default: { text: 'half swept', value: { of: 'swept', share: 0.5 } },
    }),
    extraCircuits: quantity('count', 'Circuits beyond the one that reaches the edge of the deposit.', {
      only: ['agitate', 'rinse'],
      least: '0',
      most: '20',
      default: '0',
    }),
    cycles: quantity('count', 'How often the circuits go out and back in.', {
      only: ['agitate'],
      least: '1',
      most: '10',
      default: '1',
    }),
    contacts: range('count', 'Contacts that every point has to get.', { only: ['agitate'], example: '>= 4' }),
    tandem: phrase('tandem', 'Where the brooms behind the leader run, and how far behind.', { only: ['agitate'] }),
    faces: words(['centreline', 'edge'], 'Which way the broom throws.', { only: ['agitate', 'rinse', 'sweep'] }),
    returns: flag('After the outward circuits the brooms turn round and come in again over the same circuits.', {
      only: ['agitate'],
      default: 'yes',
    }),
    travel: words(['outward', 'inward', 'out and in'], 'Order of the rinse circuits across the runway.', {
      only: ['rinse'],
      default: 'outward',
    }),
    firstCircuit: phrase('times', 'How often the first circuit is repeated until the centreline runs clear.', {
      only: ['rinse'],
      default: { text: '3', value: { usual: 3, most: 3 } },
    }),
    eachCircuit: phrase('times', 'How often every wider circuit is repeated until it runs clear.', {
      only: ['rinse'],
      default: { text: '1', value: { usual: 1, most: 1 } },
    }),
    pressure: quantity('pressure', 'Water pressure at the nozzles.', {
      only: ['jet', 'rinse'],
      requiredFor: ['jet'],
      least: '0.5 bar',
      most: '3000 bar',
      example: '300 bar',
    }),
    pressureClass: words(
      ['low pressure', 'high pressure', 'ultra-high pressure'],
      'What the specification calls the pressure; the number has to agree.',
      { only: ['jet', 'rinse'] },
    ),
    magnet: flag('With the magnet bar down.', { only: ['pick-up', 'sweep'], default: 'no' }),
    headway: quantity('length', 'Distance of the machines of a convoy.', {
      only: ['rinse', 'pick-up', 'sweep'],
      least: '5 m',
      most: '500 m',
      default: '20 m',
    }),
    until: text('What the crew looks for before the step counts as done.', { example: '"the water runs clear"' }),
    takes: quantity('time', 'How long it takes for a bay.', {
      only: ['inspect', 'wash-down', 'hand-clean'],
      requiredFor: ['inspect'],
      least: '0 min',
      most: '12 h',
      example: '15 min',
    }),
    of: wordList(
      ['pavement', 'markings', 'lights', 'joints', 'drains', 'plant', 'signs', 'debris', 'residue', 'friction'],
      'What is inspected or cleaned.',
      {
        only: ['inspect', 'hand-clean', 'wash-down'],
      },
    ),
    reopening: flag('This is the inspection before the runway is handed back.', { only: ['inspect'], default: 'no' }),
    at: text('Where it is done, if not on the runway.', { only: ['wash-down'] }),
    water: quantity('volume', 'Water used for each machine.', { only: ['wash-down'], least: '0 L', most: '20000 L' }),
    interval: range('time', 'Least and longest wait between the step before and this one.', { example: '0 to 10 min' }),
    note: text('Anything the crew should know.'),
  },
});

export const buildUp = blockKind({
  kind: 'build-up',
  doc: 'What changes with the heaviness of the deposit: rate, coats, cycles, soak.',
  group: 'method',
  top: false,
  called: 'name',
  properties: {
    rate: phrase('rate', "Rate for this build-up, in place of the apply step's."),
    coats: quantity('count', 'Coats for this build-up.', { least: '1', most: '10' }),
    cycles: quantity('count', 'Broom cycles for this build-up.', { least: '1', most: '10' }),
    soak: quantity('time', 'Shortest soak for this build-up.', { least: '0 min', most: '12 h' }),
    passes: quantity('count', 'Jet passes for this build-up.', { least: '1', most: '20' }),
  },
});

export const method = blockKind({
  kind: 'method',
  doc: 'A way of removing rubber, written once and used by many works: the machines it needs as roles, and its steps in order.',
  group: 'method',
  takesParameters: true,
  properties: {
    family: words(
      ['chemical and brooms', 'low-pressure water', 'chemical then low-pressure water'],
      'Which family of methods it belongs to.',
      { required: true },
    ),
    suits: wordList(pavements, 'Surfaces the method may be used on.'),
    degree: quantity('share', 'Share of the deposit that has to be removed.', { least: '1 %', most: '100 %' }),
    submittals: textList('What the contractor has to hand in before the work.'),
    cautions: textList('Cautions for the crew.'),
    note: text('Anything a reader should know of it.'),
  },
  blocks: { roles: role, steps: step, buildUps: buildUp },
});
