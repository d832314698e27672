/** Readers of values with a wording of their own (see `phrases` in the vocabulary). */
import type { Phrase } from '../generated/ast.ts';
import type { PhraseName, Property } from '../vocabulary/define.ts';
import { kinds } from '../vocabulary/index.ts';
import { placeOf, textOf } from './places.ts';
import {
  evaluatePart,
  extras,
  only,
  partial,
  type ReadContext,
  type Reading,
  readName,
  readQuantity,
  refuse,
  wordOf,
} from './readers.ts';

type PhraseReader = (
  items: readonly Phrase[],
  word: string,
  context: ReadContext,
  property: Property,
) => Reading | undefined;

export const phraseReaders: Readonly<Record<PhraseName, PhraseReader>> = {
  rate: (items, word, context) => {
    const phrase = only(items, word, context);
    if (!phrase) return undefined;
    const at = phrase.parts.findIndex(part => wordOf(part) === 'of');
    const found = readQuantity(
      at < 0 ? phrase : partial(phrase, phrase.parts.slice(0, at)),
      'application rate',
      word,
      context,
    );
    const of =
      at < 0
        ? undefined
        : phrase.parts
            .slice(at + 1)
            .map(wordOf)
            .join(' ');
    const liquid = of ?? (context.variant && context.variant !== 'apply' ? 'water' : undefined);
    // A step that does not say what it does may lay water, which needs no word.
    if (liquid === undefined && context.variant === undefined && kinds.get(context.block.kind)?.variant) {
      context.world.doubt();
      return undefined;
    }
    if (liquid !== 'mix' && liquid !== 'product' && liquid !== 'water') {
      context.world.report({
        code: 'rate-of-what',
        message:
          of === undefined
            ? `${word} does not say of what. A rate of product and a rate of mix differ by the dilution: write ${textOf(phrase)} of mix, or of product.`
            : `${word} is a rate of mix, of product or of water, not of '${of}'.`,
        place: at < 0 ? placeOf(phrase) : placeOf(phrase.parts[at + 1] ?? phrase),
      });
      return undefined;
    }
    return found && { value: { rate: found.si, of: liquid }, ...extras(found), literal: found.literal };
  },

  dilution: (items, word, context, property) => {
    const phrase = only(items, word, context);
    if (!phrase) return undefined;
    const share = readShare(phrase, context);
    if (share === undefined || !(share > 0 && share <= 1)) {
      return refuse(
        context,
        phrase,
        `${word} says how much of the mix is product: write ${property.example}, 20 %, 1:4 (one part product to four of water), or neat.`,
      );
    }
    return { value: { share }, literal: true };
  },

  fromEnd: (items, word, context, property) => {
    const phrase = only(items, word, context);
    if (!phrase) return undefined;
    const [first, from, end] = phrase.parts;
    if (!first || wordOf(from) !== 'from' || end?.$type !== 'Text' || phrase.parts.length > 3) {
      return refuse(
        context,
        phrase,
        `${word} names the runway and the threshold from which chainage counts: ${word}: ${property.example}.`,
      );
    }
    const runway = readName(partial(phrase, [first]), ['runway'], word, context);
    return runway && { value: { runway: context.refer(runway), end: end.value }, literal: true };
  },

  advance: (items, word, context, property) => {
    const phrase = only(items, word, context);
    if (!phrase) return undefined;
    const { parts } = phrase;
    const last = wordOf(parts.at(-1));
    if (last === 'swept' || last === 'nominal') {
      const before = parts.slice(0, -1).filter(part => wordOf(part) !== 'of');
      const value = before.length === 1 ? evaluatePart(before[0], context) : undefined;
      const share =
        value?.is === 'word' && value.word === 'half'
          ? 0.5
          : value?.is === 'number' && value.magnitude.dimension.key === ''
            ? value.magnitude.si
            : undefined;
      if (share !== undefined && share > 0 && share <= 1) return { value: { of: last, share }, literal: true };
      return refuse(
        context,
        phrase,
        `${word} is a share of the ${last} width above 0 and up to 1: ${property.example}, 40 % of swept; or a length.`,
      );
    }
    const found = readQuantity(phrase, 'length', word, context);
    if (!found) return undefined;
    if (!(found.si > 0))
      return refuse(context, phrase, `${word} has to be more than nothing, or the circuits would never widen.`);
    return { value: { of: 'length', length: found.si }, ...extras(found), literal: found.literal };
  },

  hours: (items, word, context, property) => {
    const [first, ...rest] = items;
    const from = first && evaluatePart(first.parts[0], context);
    const to = first && evaluatePart(first.parts[2], context);
    if (
      !first ||
      from?.is !== 'clock' ||
      to?.is !== 'clock' ||
      wordOf(first.parts[1]) !== 'to' ||
      first.parts.length > 3
    ) {
      return refuse(
        context,
        first ?? context.block,
        `${word} gives the hours and the weekdays: ${word}: ${property.example}.`,
      );
    }
    const days: number[] = [];
    for (const phrase of rest) {
      const found = readDays(phrase);
      if (!found)
        return refuse(context, phrase, `'${textOf(phrase)}' names no weekdays. Write Mon to Thu, Sat, or daily.`);
      days.push(...found);
    }
    const value = {
      from: Math.round(from.minutes),
      to: Math.round(to.minutes),
      days: rest.length === 0 ? [1, 2, 3, 4, 5, 6, 7] : [...new Set(days)].sort((a, b) => a - b),
    };
    return { value, literal: true };
  },

  times: (items, word, context, property) => {
    const [first, second] = items;
    const usual = first && count(first, ['about'], context);
    const most = second ? count(second, ['at', 'most'], context) : usual;
    if (usual === undefined || most === undefined || items.length > 2) {
      return refuse(context, first ?? context.block, `${word} is a whole number of times: ${property.example}.`);
    }
    if (most < usual)
      return refuse(context, second ?? first!, `${word}: at most ${most} is less than the usual ${usual}.`);
    return { value: { usual, most }, literal: true };
  },

  bays: (items, word, context) => {
    const phrase = only(items, word, context);
    if (!phrase) return undefined;
    if (phrase.parts.length === 1 && wordOf(phrase.parts[0]) === 'auto')
      return { value: { by: 'auto' }, literal: true };
    const value = phrase.parts.length === 1 ? evaluatePart(phrase.parts[0], context) : undefined;
    const ways = `${word} is a whole number from 1 to 1000, a length such as 200 m, or auto.`;
    // A word that names nothing: whoever wrote it may have meant any of them.
    if (value?.is === 'word') return refuse(context, phrase, ways);
    if (value?.is === 'number' && value.magnitude.dimension.key === '') {
      const bays = value.magnitude.si;
      if (Number.isInteger(bays) && bays >= 1 && bays <= 1000)
        return { value: { by: 'count', count: bays }, literal: value.literal !== undefined };
      return refuse(context, phrase, ways);
    }
    const found = readQuantity(phrase, 'length', word, context);
    if (!found) return undefined;
    if (!(found.si >= 1)) return refuse(context, phrase, `${word}: a bay is at least 1 m long.`);
    return { value: { by: 'length', length: found.si }, ...extras(found), literal: found.literal };
  },

  position: (items, word, context, property) => {
    const [first, second] = items;
    const latitude = first && readQuantity(first, 'angle', word, context);
    const longitude = second && readQuantity(second, 'angle', word, context);
    if (!latitude || !longitude || items.length > 2) {
      return refuse(
        context,
        first ?? context.block,
        `${word} is latitude and longitude in degrees, north and east positive: ${property.example}.`,
      );
    }
    // Angles count full turns inside.
    return { value: { latitude: latitude.si * 360, longitude: longitude.si * 360 }, literal: true };
  },

  clock: (items, word, context, property) => {
    const phrase = only(items, word, context);
    const value = phrase?.parts.length === 1 ? evaluatePart(phrase.parts[0], context) : undefined;
    if (!phrase || value?.is !== 'clock')
      return phrase && refuse(context, phrase, `${word} is a time of day: ${property.example}.`);
    return { value: Math.round(value.minutes), literal: true };
  },

  tandem: (items, word, context, property) => {
    const phrase = only(items, word, context);
    if (!phrase) return undefined;
    const [lane, laneWord, ...rest] = phrase.parts;
    const which = wordOf(lane);
    const distance = rest.filter(part => wordOf(part) !== 'apart');
    if ((which !== 'same' && which !== 'next') || wordOf(laneWord) !== 'lane' || distance.length === 0) {
      return refuse(
        context,
        phrase,
        `${word} says which lane the brooms behind take, and how far behind: ${property.example}.`,
      );
    }
    const headway = readQuantity(partial(phrase, distance), 'length', word, context);
    if (!headway) return undefined;
    if (!(headway.si > 0)) return refuse(context, phrase, `${word}: the brooms need some distance from each other.`);
    return { value: { lane: which, headway: headway.si }, ...extras(headway), literal: headway.literal };
  },

  currency: (items, word, context, property) => {
    const phrase = only(items, word, context);
    const code = phrase && phrase.parts.length === 1 ? wordOf(phrase.parts[0]) : undefined;
    if (code && /^[A-Z]{3}$/.test(code)) return { value: code, literal: true };
    return (
      phrase && refuse(context, phrase, `${word} is a currency code of three capital letters: ${property.example}.`)
    );
  },
};

/** Share of product, from any of the ways to write a dilution. */
function readShare(phrase: Phrase, context: ReadContext): number | undefined {
  const { parts } = phrase;
  const words = parts.map(wordOf);
  if (parts.length === 1) {
    if (words[0] === 'neat') return 1;
    const value = evaluatePart(parts[0], context);
    // One part to four is a fifth of the mix, not a quarter.
    if (value?.is === 'ratio') return value.left / (value.left + value.right);
    if (value?.is === 'number' && value.magnitude.dimension.key === '' && value.unit === '%') return value.magnitude.si;
    return undefined;
  }
  const to = words.indexOf('to');
  if (to < 0) return undefined;
  const product = parts[0]?.$type === 'Quantity' ? Number(parts[0].value) : Number.NaN;
  const after = parts[to + 1];
  const water = after?.$type === 'Quantity' ? Number(after.value) : Number.NaN;
  const allowed = new Set(['part', 'parts', 'product', 'water', 'of', 'to']);
  if (parts.some((part, i) => part.$type !== 'Quantity' && !allowed.has(words[i] ?? ''))) return undefined;
  return product / (product + water);
}

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** Weekdays, 1 is Monday; `Fri to Mon` goes round the end of the week. */
function readDays(phrase: Phrase): number[] | undefined {
  const words = phrase.parts.map(wordOf);
  if (words.length === 1 && words[0] === 'daily') return [1, 2, 3, 4, 5, 6, 7];
  if (words.length === 1 && words[0] === 'weekdays') return [1, 2, 3, 4, 5];
  const day = (word: string | undefined): number =>
    DAYS.findIndex(each => word?.slice(0, 3).toLowerCase() === each.toLowerCase()) + 1;
  const first = day(words[0]);
  if (first === 0) return undefined;
  if (words.length === 1) return [first];
  const last = day(words[2]);
  if (words[1] !== 'to' || last === 0 || words.length !== 3) return undefined;
  const days: number[] = [];
  for (let each = first; ; each = (each % 7) + 1) {
    days.push(each);
    if (each === last) return days;
  }
}

function count(phrase: Phrase, lead: readonly string[], context: ReadContext): number | undefined {
  const parts = phrase.parts.filter(part => !lead.includes(wordOf(part) ?? ''));
  const value = parts.length === 1 ? evaluatePart(parts[0], context) : undefined;
  if (value?.is !== 'number' || value.magnitude.dimension.key !== '') return undefined;
  const number = value.magnitude.si;
  return Number.isInteger(number) && number >= 1 && number <= 1000 ? number : undefined;
}
