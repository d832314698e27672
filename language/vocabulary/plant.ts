import { blockKind, date, nameOf, phrase, quantity, range, table, text, wordList, words } from './define.ts';

/** What every machine has. */
const machine = {
  travelSpeed: quantity('speed', 'Speed on the way, not working.', {
    least: '3 km/h',
    most: '90 km/h',
    default: '25 km/h',
  }),
  turningRadius: quantity('length', 'Least radius on which it turns round.', {
    least: '0.5 m',
    most: '40 m',
    default: '8 m',
  }),
  turnSpeed: quantity('speed', 'Speed while turning.', { least: '1 km/h', most: '40 km/h', default: '6 km/h' }),
  turnTime: quantity('time', 'Time lost at each turn besides the driving.', {
    least: '0 s',
    most: '10 min',
    default: '0 s',
  }),
  turns: words(
    ['loop', 'reverse'],
    'How it turns where the lanes are closer than twice its radius: in a loop, or backing once.',
    { default: 'loop' },
  ),
  workingSpeed: range('speed', 'Speeds at which it can work.', { example: '3 to 12 km/h' }),
  setUp: quantity('time', 'Time to make it ready once it is on the runway.', {
    least: '0 min',
    most: '4 h',
    default: '0 min',
  }),
  crew: quantity('count', 'People needed to run it.', { least: '0', most: '10', default: '1' }),
  hourlyRate: quantity('money per time', 'Cost of an hour, machine and fuel.'),
  note: text('Anything a reader should know of it.'),
};

const trackKeeping = quantity('length', 'How well it keeps its lane: greatest deviation to either side.', {
  least: '0 m',
  most: '2 m',
  default: '0 m',
});

export const sprayer = blockKind({
  kind: 'sprayer',
  doc: 'A boom sprayer: agricultural sprayer or de-icing vehicle, calibrated with this product.',
  group: 'plant',
  properties: {
    width: quantity('length', 'Swath of the boom.', { required: true, least: '1 m', most: '40 m', example: '8 m' }),
    tank: quantity('volume', 'Usable volume of the tank.', {
      required: true,
      least: '50 L',
      most: '40000 L',
      example: '4000 L',
    }),
    nozzles: quantity('count', 'Number of nozzles on the boom.', { least: '1', most: '400' }),
    spacing: quantity('length', 'Distance of the nozzles.', { least: '0.1 m', most: '3 m' }),
    fan: quantity('angle', 'Fan angle of a nozzle.', { least: '15 °', most: '160 °', example: '110 °' }),
    height: quantity('length', 'Height of the nozzles over the pavement.', { least: '0.1 m', most: '2 m' }),
    nozzlePoints: table(
      {
        pressure: { kind: 'pressure', doc: 'Pressure at the nozzle.' },
        flow: { kind: 'flow', doc: 'Flow of one nozzle, with water.' },
      },
      'Calibrated points of one nozzle, with water. Between the points flow follows the square root of pressure.',
    ),
    flow: range('flow', 'Flows of the whole boom that the pump and nozzles can deliver.', {
      example: '60 to 400 L/min',
    }),
    calibratedSpeed: range('speed', 'Speeds for which the applicator is calibrated.', { example: '6 to 14 km/h' }),
    calibrated: date('When it was last calibrated.'),
    calibratedWith: text('With what it was calibrated: water, or this product.'),
    flushed: words(['yes', 'no'], 'Flushed of what it carried before; a de-icing vehicle has to be.'),
    ...machine,
    trackKeeping,
  },
});

export const broom = blockKind({
  kind: 'broom',
  doc: 'A rotary broom that works the product in, or pushes rinse water out.',
  group: 'plant',
  properties: {
    width: quantity('length', 'Nominal width of the broom, square across.', {
      required: true,
      least: '0.5 m',
      most: '8 m',
      example: '2.4 m',
    }),
    angle: quantity('angle', 'Angle of the broom from square across.', { least: '0 °', most: '60 °', default: '0 °' }),
    diameter: quantity('length', 'Diameter of the brush.', { least: '0.2 m', most: '2 m' }),
    rotation: quantity('rotation speed', 'Speed of rotation.', {
      least: '10 rpm',
      most: '1500 rpm',
      example: '300 rpm',
    }),
    bristles: words(
      ['polypropylene', 'nylon', 'steel', 'mixed'],
      'Bristle material. Steel and mixed bristles shed wire.',
      { required: true },
    ),
    pattern: quantity('length', 'Contact pattern: width of the strip the bristle tips touch, standing still.', {
      least: '5 mm',
      most: '400 mm',
      example: '75 mm',
    }),
    ...machine,
    trackKeeping,
  },
});

export const waterTruck = blockKind({
  kind: 'water-truck',
  doc: 'A truck with a spray bar: pre-wetting, keeping wet, rinsing.',
  group: 'plant',
  properties: {
    width: quantity('length', 'Width of the spray bar.', {
      required: true,
      least: '1 m',
      most: '20 m',
      example: '4 m',
    }),
    tank: quantity('volume', 'Usable volume of the tank.', {
      required: true,
      least: '200 L',
      most: '60000 L',
      example: '12000 L',
    }),
    flow: range('flow', 'Flows the spray bar can deliver.', { example: '200 to 2000 L/min' }),
    pressure: quantity('pressure', 'Pressure at the bar.', { least: '0.1 bar', most: '30 bar' }),
    ...machine,
    trackKeeping,
  },
});

export const sweeper = blockKind({
  kind: 'sweeper',
  doc: 'A sweeper that picks up: vacuum, regenerative air or mechanical, with or without a magnet bar.',
  group: 'plant',
  properties: {
    width: quantity('length', 'Swept width.', { required: true, least: '0.5 m', most: '8 m', example: '2.6 m' }),
    picksUpBy: words(['regenerative air', 'vacuum', 'mechanical'], 'How it picks up.', { required: true }),
    bristles: words(['polypropylene', 'nylon', 'steel', 'mixed', 'none'], 'Bristle material of its brushes.', {
      required: true,
    }),
    rotation: quantity('rotation speed', 'Speed of rotation of the main brush.', {
      least: '10 rpm',
      most: '1500 rpm',
      example: '250 rpm',
    }),
    magnet: words(['none', 'full width', 'part width'], 'Magnet bar that picks up wire.', { default: 'none' }),
    hopper: quantity('volume', 'Usable volume of hopper or recovery tank.', {
      least: '0.1 m3',
      most: '30 m3',
      example: '6 m3',
    }),
    recovers: quantity('share', 'Share of standing water it takes up in a pass.', { least: '0 %', most: '100 %' }),
    ...machine,
    trackKeeping,
  },
});

export const magnet = blockKind({
  kind: 'magnet',
  doc: 'A towed magnet bar.',
  group: 'plant',
  properties: {
    width: quantity('length', 'Width of the bar.', { required: true, least: '0.5 m', most: '8 m', example: '2.4 m' }),
    height: quantity('length', 'Height over the pavement.', { least: '5 mm', most: '300 mm', example: '40 mm' }),
    ...machine,
    trackKeeping,
  },
});

export const jet = blockKind({
  kind: 'jet',
  doc: 'A water-jetting unit with rotating or fixed nozzles under a deck.',
  group: 'plant',
  properties: {
    width: quantity('length', 'Working width of the deck.', {
      required: true,
      least: '0.3 m',
      most: '6 m',
      example: '2 m',
    }),
    pressure: range('pressure', 'Pressures at which the unit can work.', { example: '100 to 340 bar' }),
    pressureClass: words(
      ['low pressure', 'high pressure', 'ultra-high pressure'],
      'What the specification calls its pressure; the number has to agree.',
    ),
    flow: range('flow', 'Flows the pump delivers.', { example: '60 to 200 L/min' }),
    nozzles: quantity('count', 'Number of nozzles.', { least: '1', most: '200' }),
    bore: quantity('length', 'Bore of a nozzle.', { least: '0.05 mm', most: '10 mm', example: '1.1 mm' }),
    discharge: quantity('number', 'Discharge coefficient of the nozzles.', { least: '0.5', most: '1', default: '0.9' }),
    standOff: quantity('length', 'Distance of nozzle and pavement.', {
      least: '5 mm',
      most: '500 mm',
      example: '40 mm',
    }),
    tank: quantity('volume', 'Usable water on board.', {
      required: true,
      least: '200 L',
      most: '40000 L',
      example: '8000 L',
    }),
    recoveryTank: quantity('volume', 'Usable volume of the recovery tank.', {
      least: '200 L',
      most: '40000 L',
      example: '8000 L',
    }),
    recovers: quantity('share', 'Share of the water it takes up again.', { least: '0 %', most: '100 %' }),
    leastSpeed: quantity('speed', 'Speed below which the jet harms the surface; slower, it has to be shut off.', {
      least: '0.05 km/h',
      most: '10 km/h',
    }),
    efficiency: quantity('share', 'Efficiency of the pump.', { least: '30 %', most: '100 %', default: '90 %' }),
    ...machine,
    trackKeeping,
  },
});

/** Every kind a role or a work can bind as a machine. */
export const plantKinds = ['sprayer', 'broom', 'water-truck', 'sweeper', 'magnet', 'jet'] as const;

/** A named set of machines and what is common to them. */
export const fleet = blockKind({
  kind: 'fleet',
  doc: 'How many of each machine there are. A machine that is not listed is there once.',
  group: 'plant',
  called: 'name or nothing',
  properties: {
    owner: text('Whose plant it is.'),
    available: table(
      { machine: { is: 'word', doc: 'Name of the machine.' }, number: { kind: 'count', doc: 'How many there are.' } },
      'Number of each machine.',
    ),
    spares: wordList(
      ['broom', 'nozzles', 'pump', 'water truck', 'sweeper', 'tyres', 'hoses'],
      'What is kept in reserve on site.',
    ),
    standby: nameOf(plantKinds, 'A machine that stands by.'),
    basedAt: phrase('position', 'Where it comes from.'),
  },
});
