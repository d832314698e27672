import { blockKind, phrase, quantity, text, textList } from './define.ts';

/** A place on the airport where machines fill up, empty or wash. */
const stand = {
  distance: quantity('length', 'Driving distance from the work, one way.', {
    required: true,
    least: '0 m',
    most: '20 km',
  }),
  speed: quantity('speed', 'Driving speed on the way.', { least: '3 km/h', most: '80 km/h', default: '25 km/h' }),
  bays: quantity('count', 'How many machines can stand there at a time.', { least: '1', most: '20', default: '1' }),
};

export const waterPoint = blockKind({
  kind: 'water-point',
  doc: 'Where water trucks and sprayers fill up.',
  group: 'place',
  top: false,
  properties: {
    ...stand,
    flow: quantity('flow', 'Filling flow at the point.', {
      required: true,
      least: '10 L/min',
      most: '20000 L/min',
      example: '1000 L/min',
    }),
    hookUp: quantity('time', 'Time to couple and uncouple.', { least: '0 min', most: '60 min', default: '3 min' }),
  },
});

export const emptyingPoint = blockKind({
  kind: 'emptying-point',
  doc: 'Where recovery tanks and hoppers are emptied.',
  group: 'place',
  top: false,
  properties: {
    ...stand,
    takes: quantity('time', 'Time to empty one machine.', { required: true, least: '0 min', most: '120 min' }),
  },
});

export const washPad = blockKind({
  kind: 'wash-pad',
  doc: 'Where the plant is washed down; its drain has to be safe for the product.',
  group: 'place',
  top: false,
  properties: {
    ...stand,
    drainsTo: text('Where the wash water goes.', { required: true }),
    water: quantity('volume', 'Water used to wash one machine.', { least: '0 L', most: '20000 L' }),
    takes: quantity('time', 'Time to wash one machine.', { least: '0 min', most: '240 min', default: '30 min' }),
  },
});

export const productStore = blockKind({
  kind: 'product-store',
  doc: 'Where the product is kept and sprayers are loaded.',
  group: 'place',
  top: false,
  properties: {
    ...stand,
    flow: quantity('flow', 'Filling flow.', { least: '10 L/min', most: '5000 L/min', default: '400 L/min' }),
    holds: quantity('volume', 'How much product is in store.', { least: '0 L', most: '1000 m3' }),
    bunded: text('Spill containment of the store.'),
  },
});

export const airport = blockKind({
  kind: 'airport',
  doc: 'The airport: who operates it, its rules for work on the movement area, and where water, emptying and washing are.',
  group: 'place',
  properties: {
    operator: text('Who operates the airport and releases the runway.'),
    location: phrase('position', 'Latitude and longitude, for sun times and plans.'),
    timeZone: text('IANA time zone of local times.', { example: '"Europe/Dublin"' }),
    elevation: quantity('length', 'Elevation above mean sea level.', { least: '-430 m', most: '5000 m' }),
    radio: text('How vehicles are controlled: channel, escort, call sign.'),
    rules: textList('Documents that govern work on the movement area.'),
    noticeLead: quantity('time', 'How long before a closure the notice to air missions has to be issued.', {
      least: '0 h',
      most: '60 d',
    }),
  },
  blocks: { waterPoints: waterPoint, emptyingPoints: emptyingPoint, washPads: washPad, productStores: productStore },
});
