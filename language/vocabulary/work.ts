import { blockKind, callOf, flag, nameOf, namesOf, phrase, quantity, text, words } from './define.ts';

export const work = blockKind({
  kind: 'work',
  doc: 'The method applied to deposits: which machines take which role, in which bays.',
  group: 'work',
  bindsRoles: true,
  properties: {
    removes: namesOf(['deposit'], 'The deposits this work removes.', { required: true }),
    method: callOf(['method'], 'The method, with its arguments.', { required: true }),
    product: nameOf(['product'], 'The product that is applied.'),
    bays: phrase(
      'bays',
      'How the work is divided along the runway: a number, a length, or the longest that the dwell limits allow.',
      {
        default: { text: '1', value: { by: 'count', count: 1 } },
      },
    ),
    from: quantity('length', 'Where the work begins, if not where the deposits do.', {
      least: '-1500 m',
      most: '6000 m',
    }),
    to: quantity('length', 'Where the work ends, if not where the deposits do.', { least: '-1500 m', most: '6000 m' }),
    order: words(['downhill', 'away from threshold', 'towards threshold'], 'In what order the bays are done.', {
      default: 'away from threshold',
    }),
    closure: namesOf(['closure'], 'The closures in which it may be done; by default any on its runway.'),
    crew: nameOf(['crew'], 'The crew that does it.'),
    before: namesOf(['work'], 'Works that have to follow this one.'),
    waterPoint: text('The water point it uses, where the airport has several.'),
    measured: flag('This work is measured and paid.', { default: 'yes' }),
    note: text('Anything a reader should know of it.'),
  },
});
