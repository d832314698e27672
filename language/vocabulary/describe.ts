/** What may stand behind a property's colon, in words: for completion, hover and the reference. */
import { articled } from '../units/index.ts';
import type { PhraseName, ValueType } from './define.ts';
import { plantKinds } from './plant.ts';

/** How each value with a wording of its own may be written. */
export const phraseTexts: Readonly<Record<PhraseName, string>> = {
  rate: 'an application rate, and of what: `of mix`, `of product` or `of water`',
  dilution: '`1 part product to 4 parts water`, the ratio `1:4`, a share of the mix such as `20 %`, or `neat`',
  fromEnd: 'a runway and the end from which chainage counts: `Main from "04"`',
  advance: '`half swept`, `40 % of swept`, the same of `nominal`, or a length',
  hours: 'two times of day and the weekdays on which it begins: `23:00 to 05:00, Mon to Thu`; `daily`, `weekdays`',
  times: 'how often: `3`, or `about 3, at most 5`',
  bays: 'a number of bays, the length of one, or `auto`',
  position: 'latitude and longitude in degrees, north and east positive',
  clock: 'a time of day as `23:30`',
  tandem: '`same lane` or `next lane`, and how far behind: `same lane 60 m apart`',
  currency: 'a currency in three letters: `EUR`',
};

/** What may stand behind the colon, in a few words of Markdown, with its limits. */
export function typeText(type: ValueType): string {
  switch (type.is) {
    case 'quantity':
      return withRange(articled(type.kind), type);
    case 'range':
      return `${withRange(articled(type.kind), type)}, or a range: \`… to …\`, \`>= …\`, \`<= …\``;
    case 'words':
      return `${type.many ? 'some' : 'one'} of ${type.words.map(code).join(', ')}`;
    case 'names':
      return `the name of ${articled(namesText(type.kinds))}${type.many ? ', or several parted by commas' : ''}`;
    case 'machines':
      return 'machines by name, parted by commas; `2 of Tanker` for several of a kind';
    case 'call':
      return `${articled(type.kinds.join(' or '))} with its arguments in brackets`;
    case 'text':
      return type.many ? 'texts between double quotes, parted by commas' : 'a text between double quotes';
    case 'flag':
      return '`yes` or `no`';
    case 'date':
      return type.many ? 'dates as `2031-04-07`, parted by commas' : 'a date as `2031-04-07`';
    case 'table':
      return 'a table, one row a line';
    default:
      return phraseTexts[type.is];
  }
}

/** A list of all plant reads as `machine`. */
function namesText(kinds: readonly string[]): string {
  const plant: readonly string[] = plantKinds;
  const others = kinds.filter(kind => !plant.includes(kind));
  const machines = kinds.filter(kind => plant.includes(kind));
  return [...others, ...(machines.length > 3 ? ['machine'] : machines)].join(' or ');
}

function withRange(text: string, { least, most }: { readonly least?: string; readonly most?: string }): string {
  if (least !== undefined && most !== undefined) return `${text} from ${least} to ${most}`;
  if (least !== undefined) return `${text}, ${least} or more`;
  return most === undefined ? text : `${text}, ${most} or less`;
}

function code(word: string): string {
  return `\`${word}\``;
}
