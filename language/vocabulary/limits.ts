import {
  blockKind,
  date,
  flag,
  nameOf,
  namesOf,
  phrase,
  quantity,
  range,
  table,
  text,
  textList,
  wordList,
  words,
} from './define.ts';

export const conditions = blockKind({
  kind: 'conditions',
  doc: 'The weather the job is planned for. Evaporation, film life and limits are judged on it.',
  group: 'limits',
  called: 'name or nothing',
  properties: {
    air: quantity('temperature', 'Air temperature.', {
      required: true,
      least: '-30 °C',
      most: '55 °C',
      example: '18 °C',
    }),
    surface: quantity('temperature', 'Pavement temperature.', { least: '-30 °C', most: '80 °C' }),
    humidity: quantity('share', 'Relative humidity.', { required: true, least: '1 %', most: '100 %', example: '70 %' }),
    wind: quantity('speed', 'Mean wind.', { required: true, least: '0 km/h', most: '120 km/h', example: '10 km/h' }),
    windHeight: quantity('length', 'Height at which the wind is measured; the evaporation formulas want about 0.5 m.', {
      least: '0.1 m',
      most: '10 m',
      default: '0.5 m',
    }),
    rain: words(['none', 'showers', 'rain'], 'Rain forecast.', { default: 'none' }),
    dryFor: quantity('time', 'Time until rain is forecast.', { least: '0 h', most: '14 d' }),
  },
});

/** Continuous friction measuring devices, as the published tables name them. */
const frictionDevices = [
  'Mu Meter',
  'Skiddometer BV-11',
  'Surface Friction Tester',
  'Runway Friction Tester',
  'Safegate',
  'GripTester',
  'Tatra',
  'RUNAR',
] as const;

export const survey = blockKind({
  kind: 'survey',
  doc: 'A friction survey: one device, one speed, one line, by chainage.',
  group: 'record',
  properties: {
    on: phrase('fromEnd', 'The runway, and the threshold from which chainage counts.', { required: true }),
    date: date('When it was run.', { required: true }),
    device: words(frictionDevices, 'The device, as the published tables name it.', { required: true }),
    speed: quantity('speed', 'Speed of the run.', {
      required: true,
      least: '20 km/h',
      most: '130 km/h',
      example: '65 km/h',
    }),
    water: quantity('depth', 'Water film laid by the device.', { least: '0 mm', most: '3 mm', default: '1 mm' }),
    offset: quantity('length', 'Distance of the line from the centreline.', {
      least: '0 m',
      most: '20 m',
      default: '3 m',
    }),
    side: words(['left', 'right', 'both'], 'Side of the centreline, in the direction of landing.', { default: 'both' }),
    basis: words(['FAA', 'ICAO', 'CAP 683', 'TP 312'], 'Whose levels it is judged by.', { default: 'ICAO' }),
    purpose: words(['need', 'before', 'after', 'trial'], 'What it is for.', { default: 'need' }),
    readings: table(
      {
        chainage: { kind: 'length', doc: 'Start of the stretch.' },
        friction: { kind: 'number', doc: 'Mean friction of the stretch.' },
      },
      'Mean friction, stretch by stretch; each lasts to the next chainage.',
      { required: true },
    ),
    stretch: quantity('length', 'Length of a stretch, for the last one.', {
      least: '5 m',
      most: '500 m',
      example: '100 m',
    }),
    by: text('Who ran it.'),
  },
});

export const acceptance = blockKind({
  kind: 'acceptance',
  doc: "How the finished work is judged. Colour is no evidence: rubber in the pores is slippery and can't be seen.",
  group: 'limits',
  called: 'name or nothing',
  properties: {
    removed: quantity('share', 'Share of the deposit removed.', { least: '1 %', most: '100 %' }),
    ofArea: quantity('share', 'Share of the area on which that has to be reached.', { least: '1 %', most: '100 %' }),
    device: words(frictionDevices, 'Friction device.'),
    speed: quantity('speed', 'Speed of the run.', { least: '20 km/h', most: '130 km/h', example: '65 km/h' }),
    friction: quantity('number', 'Least mean friction of every stretch.', { least: '0.1', most: '1' }),
    stretch: quantity('length', 'Length of a stretch.', { least: '10 m', most: '500 m', example: '100 m' }),
    texture: quantity('depth', 'Least mean texture depth.', { least: '0.1 mm', most: '5 mm' }),
    textureLoss: quantity('share', 'Greatest loss of texture against an untrafficked strip.', {
      least: '0 %',
      most: '100 %',
    }),
    within: quantity('time', 'Within which time after the work it is measured.', { least: '0 h', most: '60 d' }),
    by: text('Who judges it.'),
    visual: text('What is looked for by eye, besides measurements.'),
  },
});

export const environment = blockKind({
  kind: 'environment',
  doc: 'Where the water and the rubber go. Local rules and permits govern.',
  group: 'limits',
  called: 'name or nothing',
  properties: {
    drains: words(['none', 'blocked', 'to interceptor', 'open'], 'Drains that wash water can reach.'),
    recovery: words(['none', 'sweeper', 'vacuum', 'trench'], 'How wash water is taken up.'),
    recovered: quantity('share', 'Share of the water that has to be recovered.', { least: '0 %', most: '100 %' }),
    goesTo: text('Where the recovered water goes.'),
    permit: text('Permit for it.'),
    ph: range('number', 'pH allowed at discharge.', { least: '0', most: '14', example: '6 to 9' }),
    holding: quantity('volume', 'Volume that can be held on site.', { least: '0 L', most: '10000 m3' }),
    solids: text('Where rubber and sweepings go.'),
    edge: quantity('length', 'Distance from the soil at which rinsing stops and the water is swept back.', {
      least: '0 m',
      most: '20 m',
    }),
    spillKit: flag('A spill kit is at hand.', { default: 'no' }),
    protects: textList('What has to be protected: watercourses, wells, plants.'),
  },
});

export const exclusion = blockKind({
  kind: 'exclusion',
  doc: 'Something in the area that has to be spared: lights, sensors, joints, markings.',
  group: 'limits',
  properties: {
    on: phrase('fromEnd', 'The runway and end.', { required: true }),
    what: words(['lights', 'sensors', 'joints', 'markings', 'manholes', 'repairs', 'arrestor cable'], 'What it is.', {
      required: true,
    }),
    treatment: words(
      ['lift', 'avoid', 'hand-clean', 'protect'],
      'What is done there: tools are lifted, it is driven round, cleaned by hand, or covered.',
      { required: true },
    ),
    stations: table(
      {
        from: { kind: 'length', doc: 'Chainage where it begins.' },
        to: { kind: 'length', doc: 'Chainage where it ends.' },
        left: { kind: 'length', doc: 'Offset of its left edge, right positive.' },
        right: { kind: 'length', doc: 'Offset of its right edge, right positive.' },
      },
      'Rectangles, one a row; offsets from the centreline, right positive.',
    ),
    deducted: flag('Its area is deducted from what is measured and treated.', { default: 'no' }),
    note: text('Anything the crew should know.'),
  },
});

export const cost = blockKind({
  kind: 'cost',
  doc: 'Rates that are not with a machine, and how the work is paid.',
  group: 'limits',
  called: 'name or nothing',
  properties: {
    paidBy: words(['area', 'lump sum', 'closure', 'hour'], 'Basis of payment.', { required: true }),
    measuredAs: words(['deposit area', 'treated area', 'area accepted'], 'What is measured where payment is by area.', {
      default: 'deposit area',
    }),
    rate: quantity('money per area', 'Rate for the area.'),
    mobilisation: quantity('money', 'Bringing the plant and taking it away.'),
    closure: quantity('money', 'Cost of each closure: escort, lights, airport staff.'),
    water: quantity('money per volume', 'Water.'),
    disposal: quantity('money per volume', 'Disposal of recovered water.'),
    note: text('Deductions, what counts once.'),
  },
});

export const safety = blockKind({
  kind: 'safety',
  doc: "What keeps people safe. It adds to, and never replaces, the operator's rules, the safety data sheet and local codes.",
  group: 'limits',
  called: 'name or nothing',
  properties: {
    protection: textList('Personal protective equipment.'),
    eyewash: text('Where the eyewash is.'),
    exclusionZone: quantity('length', 'Distance that people keep from jets and brooms.', {
      least: '0 m',
      most: '100 m',
    }),
    escort: text('Escort and radio.'),
    emergency: text('What is done when an aircraft has to land: who calls, who leaves in which order.'),
    firstAid: text('First aid and the nearest hospital.'),
    lighting: text('Lighting of the work.'),
    noise: quantity('number', 'Sound level at the crew in dB(A).', { least: '30', most: '140', example: '88' }),
  },
});

export const warranty = blockKind({
  kind: 'warranty',
  doc: 'Damage, repair and how long the contractor stands for the work.',
  group: 'limits',
  called: 'name or nothing',
  properties: {
    period: quantity('time', 'How long.', { least: '1 d', most: '3650 d', example: '365 d' }),
    covers: wordList(
      ['lights', 'joints', 'markings', 'pavement', 'grooves', 'sensors'],
      'What damage has to be made good.',
    ),
    survey: text('Survey of the existing condition before the work.'),
  },
});

/** The record of what was done, night by night; checked against the specification. */
export const log = blockKind({
  kind: 'log',
  doc: 'What was done in a closure, as recorded on site.',
  group: 'record',
  properties: {
    work: nameOf(['work'], 'The work it belongs to.', { required: true }),
    date: date('Date on which the closure began.', { required: true }),
    passes: table(
      {
        machine: { is: 'word', doc: 'Machine.' },
        step: { is: 'word', doc: 'Step.' },
        bay: { kind: 'count', doc: 'Bay.' },
        from: { is: 'clock', doc: 'Start, local time.' },
        to: { is: 'clock', doc: 'End, local time.' },
      },
      'What was done when.',
    ),
    product: quantity('volume', 'Product used.', { least: '0 L', most: '1000 m3' }),
    water: quantity('volume', 'Water used.', { least: '0 L', most: '100000 m3' }),
    by: text('Who recorded it.'),
    witnesses: namesOf(['crew'], 'Crew on site.'),
  },
});
