import { blockKind, phrase, quantity, table, text, words } from './define.ts';

export const deposit = blockKind({
  kind: 'deposit',
  doc: 'Where rubber lies: stations along the runway with the offsets of its two edges, and how heavy it is.',
  group: 'place',
  properties: {
    on: phrase('fromEnd', 'The runway, and the landing threshold from which chainage counts.', { required: true }),
    stations: table(
      {
        chainage: { kind: 'length', doc: 'Distance from the landing threshold, in the direction of landing.' },
        left: { kind: 'length', doc: 'Offset of the left edge from the centreline, to the left positive.' },
        right: { kind: 'length', doc: 'Offset of the right edge from the centreline, to the right positive.' },
      },
      'Edges of the deposit, station by station; straight between them. Offsets are distances to either side of the centreline.',
      { required: true },
    ),
    buildUp: words(
      ['light', 'medium', 'heavy', 'very heavy'],
      'How heavy the deposit is. A build-up block of the method can change rate, coats and cycles with it.',
      {
        required: true,
        example: 'heavy',
      },
    ),
    thickness: quantity('depth', 'Mean thickness of the rubber.', { least: '0 mm', most: '10 mm' }),
    covers: quantity('share', 'Share of the texture that is covered, by eye.', { least: '0 %', most: '100 %' }),
    note: text('Anything a reader should know of it.'),
  },
});
