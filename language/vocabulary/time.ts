import {
  blockKind,
  date,
  dateList,
  flag,
  nameOf,
  namesOf,
  phrase,
  quantity,
  range,
  table,
  text,
  wordList,
  words,
} from './define.ts';

export const closure = blockKind({
  kind: 'closure',
  doc: 'When the runway is closed for the work. Only the airport operator can close and reopen it.',
  group: 'time',
  properties: {
    on: namesOf(['runway'], 'The runways that are closed.', { required: true }),
    hours: phrase('hours', 'Local hours, and the weekdays on which a closure begins.', { required: true }),
    from: date('First date on which a closure may begin.', { required: true }),
    to: date('Last date on which a closure may begin.'),
    except: dateList('Dates on which there is no closure.'),
    number: quantity('count', 'How many closures there are at most.', { least: '1', most: '400' }),
    timeZone: text("IANA time zone of the hours; by default the airport's.", { example: '"Europe/Dublin"' }),
    handBack: quantity('time', 'Reserve before the end: the runway is clear and inspected by then.', {
      required: true,
      least: '0 min',
      most: '6 h',
      example: '45 min',
    }),
    recall: quantity('time', 'If the runway is called back, it has to be clear within this time.', {
      least: '0 min',
      most: '6 h',
    }),
    setUp: quantity('time', 'From the start of the closure until machines may work: escort, marking, lights.', {
      least: '0 min',
      most: '4 h',
      default: '0 min',
    }),
    part: table(
      {
        from: { kind: 'length', doc: 'Chainage from the first end at which the closed part begins.' },
        to: { kind: 'length', doc: 'Chainage at which it ends.' },
      },
      'A part of the runway, where not all of it is closed.',
    ),
    light: words(['any', 'darkness', 'daylight'], 'Whether the work has to be done in darkness or in daylight.', {
      default: 'any',
    }),
    notice: text('Reference of the notice to air missions, and who issues it.'),
    spare: quantity('count', 'Closures kept in reserve for weather.', { least: '0', most: '100', default: '0' }),
  },
});

export const crew = blockKind({
  kind: 'crew',
  doc: 'The people on the job and the hours they may work.',
  group: 'time',
  properties: {
    people: quantity('count', 'How many there are at a time.', { required: true, least: '1', most: '200' }),
    shift: quantity('time', 'Longest shift.', { required: true, least: '1 h', most: '16 h', example: '8 h' }),
    rest: quantity('time', 'Least rest between shifts.', { least: '0 h', most: '24 h', default: '11 h' }),
    breakAfter: quantity('time', 'Work after which a break is due.', { least: '1 h', most: '8 h', example: '4 h' }),
    breakOf: quantity('time', 'Length of the break.', { least: '0 min', most: '2 h' }),
    nights: quantity('count', 'Nights in a row at most.', { least: '1', most: '14' }),
    hourlyRate: quantity('money per time', 'Cost of a person for an hour.'),
    trained: text('Training and permits: airside driving, radio, product.'),
  },
});

export const weatherStop = blockKind({
  kind: 'weather-stop',
  doc: 'Weather in which work stops or does not begin.',
  group: 'time',
  called: 'name or nothing',
  properties: {
    wind: range('speed', 'Winds in which spraying may go on, at the height where it is measured.', {
      example: '<= 28 km/h',
    }),
    windAt: text('Where and how high the wind is measured.'),
    air: range('temperature', 'Air temperatures in which work may go on.', { example: '5 to 35 °C' }),
    surface: range('temperature', 'Pavement temperatures in which work may go on.'),
    rainWithin: quantity('time', 'No rain forecast within this time.', { least: '0 h', most: '72 h' }),
    dewPointMargin: quantity('temperature difference', 'Pavement warmer than the dew point by at least this.', {
      least: '0 Δ°C',
      most: '20 Δ°C',
    }),
    lightning: text('What is done when lightning is near.'),
    spareNights: quantity('count', 'Closures kept in reserve for it.', { least: '0', most: '100' }),
  },
});

export const holdPoint = blockKind({
  kind: 'hold-point',
  doc: 'Work does not go on until somebody releases it.',
  group: 'time',
  properties: {
    before: text('The step or event it stands before.', {
      required: true,
      example: '"the first spraying of the night"',
    }),
    step: text('Name of the step, where it belongs to one.'),
    releasedBy: text('Who releases it.', { required: true }),
    checks: wordList(
      [
        'weather',
        'calibration',
        'trial patch',
        'rinse water',
        'debris',
        'lights',
        'markings',
        'friction',
        'texture',
        'drains blocked',
        'closure confirmed',
      ],
      'What is looked at.',
    ),
    takes: quantity('time', 'How long it takes.', { least: '0 min', most: '4 h', default: '0 min' }),
    record: text('What is written down.'),
  },
});

export const trial = blockKind({
  kind: 'trial',
  doc: 'A trial patch that shows the method works before the whole is done, and freezes what it showed.',
  group: 'limits',
  properties: {
    on: phrase('fromEnd', 'The runway and end.', { required: true }),
    chainage: range('length', 'Where it lies along the runway.', { required: true, example: '300 to 330 m' }),
    left: quantity('length', 'How far left of the centreline.', { least: '0 m', most: '50 m' }),
    right: quantity('length', 'How far right of the centreline.', { least: '0 m', most: '50 m' }),
    work: nameOf(['work'], 'The work it is for.'),
    freezes: wordList(['rate', 'soak', 'cycles', 'speed', 'pressure', 'passes'], 'What is fixed by it.'),
    acceptedBy: text('Who accepts it.', { required: true }),
    accepts: text('How it is judged.'),
    counted: flag('The patch counts as done area.', { default: 'no' }),
  },
});
