/** The page on values: numbers with units, values with a wording of their own, expressions. */
import { articled, KINDS, magnitudeName, parseUnit, rational, type Unit } from '../../units/index.ts';
import { ATOMS, WORDS } from '../../units/table.ts';
import type { PhraseName } from '../../vocabulary/define.ts';
import { phraseTexts } from '../../vocabulary/describe.ts';
import { functions } from '../../vocabulary/functions.ts';
import { kinds, propertyTable } from '../../vocabulary/index.ts';
import { code, listed, page, table } from './markdown.ts';

export function valuesPage(): string {
  return page(
    '# Values and units',
    'Every number that has a dimension carries its unit. Metric and US customary units may stand side by side; what is computed is shown in the ' +
      "author's own system, with the other on demand.",
    '## Ways to write a number',
    table(
      ['written', 'means', ''],
      FORMS.map(form => [code(form.written), form.means, form.note ?? '']),
    ),
    '## Kinds of quantity',
    'A property wants a quantity of one kind. The units in front are the ones in which results are shown.',
    kindsTable(),
    '## Units',
    'A unit stands right after its number. Units are put together with `/` and `*` and raised with 2 and 3: `L/m2`, `kg/m²`, `ft^3`. ' +
      'Factors are exact fractions; where one does not end, `about` stands before its first digits.',
    unitsTable(),
    'Composed units that have words of their own:',
    shorthands(),
    'Areas of application rates may be counted in hundreds and thousands: `gal/1000 ft2`, `L/100 m2`.',
    moneyText(),
    '## Values with a wording of their own',
    phrasesTable(),
    '## Other values',
    table(
      ['written', 'what it is'],
      LITERALS.map(([written, what]) => [code(written), what]),
    ),
    '## Expressions',
    'Wherever a value stands, it may be computed. Names are those of parameters, of other properties of the block, and of other blocks: ' +
      '`District.Broom1.width`. Minus between two names has blanks round it, because names may hold hyphens.',
    table(
      ['operator', 'what it does'],
      OPERATORS.map(([signs, what]) => [signs.split(' ').map(code).join(' '), what]),
    ),
    'What stands higher in this list is done first; brackets say otherwise.',
    table(
      ['function', 'what it does'],
      Object.values(functions).map(({ call, doc }) => [code(call), doc]),
    ),
  );
}

// ── numbers ──────────────────────────────────────────────────────────────────────────────────────────────────────

/** A way to write a value, at a property where a test reads it; `same` is the same value written plainly. */
export interface Form {
  readonly at: readonly [heading: string, property: string];
  readonly written: string;
  readonly means: string;
  readonly note?: string;
  readonly same?: string;
}

export const FORMS: readonly Form[] = [
  { at: ['step Spray', 'speed'], written: '8 km/h', means: 'a number and its unit' },
  { at: ['runway Main', 'length'], written: '.245e4 m', means: '2450 m', same: '2450 m' },
  {
    at: ['step Soak', 'at-most'],
    written: '3 h 30 min',
    means: '210 min',
    note: 'numbers of one kind side by side add up, each smaller than the one before',
    same: '210 min',
  },
  { at: ['broom Broom1', 'width'], written: '7 ft 10 in', means: '94 in', same: '94 in' },
  {
    at: ['step Spray', 'speed'],
    written: '8 km/h ± 10 %',
    means: '7.2 to 8.8 km/h, 8 km/h as a rule',
    note: 'a tolerance; `+/-` does as well. Checks are made at both ends',
  },
  { at: ['step Soak', 'at-least'], written: '40 min ± 5 min', means: '35 to 45 min, 40 min as a rule' },
  {
    at: ['product Detergent', 'air'],
    written: '5 to 35 °C',
    means: 'a range; the first number takes the unit of the second',
  },
  {
    at: ['role applicator', 'width'],
    written: '>= 6 m',
    means: '6 m or more',
    note: '`at least 6 m`, `≥ 6 m`',
    same: 'at least 6 m',
  },
  {
    at: ['weather-stop', 'wind'],
    written: '<= 25 km/h',
    means: '25 km/h or less',
    note: '`at most 25 km/h`',
    same: 'at most 25 km/h',
  },
  {
    at: ['conditions', 'air'],
    written: '54 °F',
    means: 'a temperature',
    note: 'a difference of temperatures is written in `K`, `Δ°C` or `Δ°F`',
  },
  {
    at: ['product Detergent', 'dilution'],
    written: '1:4',
    means: '1 part product to 4 parts water, so a fifth of the mix',
    note: 'a ratio',
    same: '20 %',
  },
];

function kindsTable(): string {
  const rows = Object.values(KINDS).map(({ name, metric, us, likely }) => {
    const units = (system: 'metric' | 'us', first: Unit | undefined): string =>
      [...new Set([first?.symbol.replace('¤', 'EUR'), ...likely[system]])]
        .filter(symbol => symbol !== undefined)
        .map(code)
        .join(', ');
    return [name, units('metric', metric) || 'no unit', units('us', us) || 'no unit'];
  });
  return table(['kind', 'metric', 'US customary'], rows);
}

function unitsTable(): string {
  const rows = ATOMS.flatMap(atom => {
    const unit = parseUnit(atom.symbol);
    // Squares of a number stand only after a `/`, and currencies have their own line.
    if (unit === undefined || isMoney(unit)) return [];
    const words = atom.also.filter(word => word.toLowerCase() !== atom.symbol.toLowerCase());
    return [[code(atom.symbol), magnitudeName(unit), factorText(unit), words.map(code).join(', ')]];
  });
  return table(['unit', 'of', 'is', 'also written'], rows);
}

function isMoney(unit: Unit): boolean {
  return unit.dimension.key.startsWith('money');
}

/** The units of which the others are multiples, by dimension; a turn is counted as what it is. */
const BASES = ['m', 'm2', 'm3', 's', 'm/s', 'kg', 'N', 'Pa', 'J', 'W', 'rev', 'rev/s', 'Hz', 'K'];

/** `0.3048 m`, exactly. Of a temperature scale the difference. */
function factorText(unit: Unit): string {
  if (unit.offset) return unit.symbol === '°C' ? 'a reading' : 'a reading; 32 °F is 0 °C, 212 °F is 100 °C';
  const base = BASES.map(symbol => parseUnit(symbol)!).find(each => each.dimension.key === unit.dimension.key);
  const { n, d } = unit.factor;
  const short = unit.exact && n < 10_000n && d < 10_000n ? `${n}/${d}` : `about ${rational.toDecimal(unit.factor, 12)}`;
  const number = unit.exact && isDecimal(d) ? rational.toDecimal(unit.factor, 20) : short;
  if (base?.symbol === unit.symbol) return '';
  return base === undefined ? number : `${number} ${base.symbol}`;
}

/** A fraction in lowest terms ends as a decimal when its denominator has no factors but 2 and 5. */
function isDecimal(denominator: bigint): boolean {
  let rest = denominator;
  for (const factor of [2n, 5n]) while (rest % factor === 0n) rest /= factor;
  return rest === 1n;
}

function shorthands(): string {
  const atoms = new Set(ATOMS.flatMap(atom => [atom.symbol, ...atom.also]));
  const words = Map.groupBy(
    [...WORDS.keys()].filter(word => !atoms.has(word)),
    word => parseUnit(word)?.symbol ?? word,
  );
  return table(
    ['unit', 'also written'],
    [...words].map(([symbol, also]) => [code(symbol), also.map(code).join(', ')]),
  );
}

function moneyText(): string {
  const currencies = ATOMS.filter(atom => {
    const unit = parseUnit(atom.symbol);
    return unit && isMoney(unit) && atom.symbol !== '¤';
  });
  const signs = currencies.flatMap(({ symbol, also }) => also.map(sign => `${code(sign)} is ${symbol}`));
  return `Money is written with the three letters of its currency, by ISO 4217 (${currencies.length} are known): \`120 EUR\`, \`1.9 EUR/m2\`. ${listed(signs)}. Sums in two currencies never add up, and none is converted.`;
}

// ── wordings ─────────────────────────────────────────────────────────────────────────────────────────────────────

function phrasesTable(): string {
  const uses = new Map<PhraseName, Set<string>>();
  for (const kind of kinds.values()) {
    for (const [word, { property }] of propertyTable(kind)) {
      if (!Object.hasOwn(phraseTexts, property.type.is)) continue;
      const name = property.type.is as PhraseName;
      uses.set(name, (uses.get(name) ?? new Set()).add(`[${word}](blocks/${kind.kind}.md)`));
    }
  }
  const rows = [...uses].map(([name, words]) => [[...words].join(', '), phraseTexts[name]]);
  return table(['property', 'written as'], rows);
}

const LITERALS: readonly (readonly [written: string, what: string])[] = [
  ['2031-04-07', 'a date, ISO 8601'],
  ['23:30', 'a time of day, local'],
  ['"any text"', 'a text; a quote inside it is written `\\"`'],
  ['grooved asphalt', 'words of a closed list stand without quotes'],
  ['yes', 'or `no`'],
  [
    'District.Broom1, Broom2',
    'names of other blocks, with commas between; a file brought in with a prefix is named before the dot',
  ],
  ['2 of Tanker', 'several machines alike'],
];

const OPERATORS: readonly (readonly [signs: string, what: string])[] = [
  ['^', `to the power; the square of ${articled('length')} is an area`],
  ['- not', 'before one value: its opposite; `-2^2` is −4. A comparison after `not` stands in brackets'],
  ['±', 'a tolerance'],
  ['* /', 'times, divided by'],
  ['+ -', 'plus, minus; only of one kind'],
  ['< <= > >= = !=', 'comparison; values that differ by less than 1 part in 10⁹ are the same'],
  ['and', 'both hold'],
  ['or', 'one of them holds'],
];
