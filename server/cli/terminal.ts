/**
 * What a terminal needs to know: colours, widths of characters, wrapping. Everything that comes from a file goes
 * through `printable` first, so no text can move the cursor or change a colour by itself.
 */
import { styleText } from 'node:util';

export type Style = 'error' | 'warning' | 'hint' | 'quiet' | 'strong' | 'mend' | 'plain';

/** Paints a piece of text, or leaves it as it is where there is no colour. */
export type Paint = (style: Style, text: string) => string;

const FORMATS: Readonly<Record<Exclude<Style, 'plain'>, Parameters<typeof styleText>[0]>> = {
  error: ['bold', 'red'],
  warning: ['bold', 'yellow'],
  hint: ['bold', 'cyan'],
  quiet: 'dim',
  strong: 'bold',
  mend: 'green',
};

export const plain: Paint = (_, text) => text;

export const coloured: Paint = (style, text) =>
  style === 'plain' || text === '' ? text : styleText(FORMATS[style], text, { validateStream: false });

/**
 * Whether to colour: FORCE_COLOR decides when it is set, then NO_COLOR (when set and not empty), then whether a person
 * is reading.
 */
export function wantsColour(env: Readonly<Record<string, string | undefined>>, isTerminal: boolean): boolean {
  const { FORCE_COLOR: force, NO_COLOR: none, TERM: terminal } = env;
  if (force !== undefined) return force !== '0' && force !== 'false';
  if (none) return false;
  return isTerminal && terminal !== 'dumb';
}

/** Columns a tab goes to the next multiple of. */
const TAB = 4;

/** A line of a file as it may be printed: tabs as blanks, control characters as one visible sign. `at` is the column it starts in. */
export function printable(text: string, at = 0): string {
  let shown = '';
  let column = at;
  for (const sign of graphemes(text)) {
    const piece = sign === '\t' ? ' '.repeat(TAB - (column % TAB)) : sign.replace(UNPRINTABLE, '\uFFFD');
    shown += piece;
    column += sign === '\t' ? piece.length : signWidth(piece);
  }
  return shown;
}

/** Control characters, line separators, and the marks that turn the direction of text. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const UNPRINTABLE = /[\u0000-\u001F\u007F-\u009F\u2028-\u202E\u2066-\u2069\u200E\u200F\u061C]/g;

/** How many columns a text takes. */
export function width(text: string): number {
  if (/^[\u0020-\u007E]*$/.test(text)) return text.length;
  let sum = 0;
  for (const sign of graphemes(text)) sum += signWidth(sign);
  return sum;
}

/** Scripts and signs that take two columns, by Unicode's East Asian Width (W and F), in ranges coarse enough to read. */
const WIDE =
  /[\u1100-\u115F\u2E80-\u303E\u3041-\uA4CF\uA960-\uA97C\uAC00-\uD7A3\uF900-\uFAFF\uFE30-\uFE6F\uFF01-\uFF60\uFFE0-\uFFE6\u{1F300}-\u{1F64F}\u{1F680}-\u{1F6FF}\u{1F900}-\u{1F9FF}\u{20000}-\u{3FFFD}]|\p{Emoji_Presentation}/u;
const NO_WIDTH = /^[\p{Mn}\p{Me}\p{Cf}]+$/u;

function signWidth(sign: string): number {
  if (sign.length === 1 && sign >= ' ' && sign <= '~') return 1;
  if (NO_WIDTH.test(sign)) return 0;
  return WIDE.test(sign) || sign.includes('\uFE0F') ? 2 : 1;
}

const segmenter = new Intl.Segmenter('en', { granularity: 'grapheme' });

function* graphemes(text: string): Iterable<string> {
  for (const { segment } of segmenter.segment(text)) yield segment;
}

/**
 * Breaks a text into lines of at most `columns`, at blanks only: a long word stands out rather than being cut. A number
 * stays with its groups of digits and its unit.
 */
export function wrap(text: string, columns: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text
    .replace(HELD_TOGETHER, '\u00A0')
    .split(/[ \t\r\n]+/)
    .filter(Boolean)) {
    if (line !== '' && width(line) + 1 + width(word) > columns) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  const all = line === '' && lines.length > 0 ? lines : [...lines, line];
  return all.map(each => each.replaceAll('\u00A0', ' '));
}

/** The blank in `2 450`, in `11.3 km/h`, in `± 40`. */
const HELD_TOGETHER = /(?<=\d) (?=\d{3}(?!\d))|(?<=\d) (?=[%°]|[A-Za-zµ°Δ²³/]{1,8}(?![A-Za-z]))|(?<=±) /g;

/** Fills a text up to a width. */
export function pad(text: string, columns: number, side: 'left' | 'right' = 'left'): string {
  const blanks = ' '.repeat(Math.max(0, columns - width(text)));
  return side === 'left' ? text + blanks : blanks + text;
}
