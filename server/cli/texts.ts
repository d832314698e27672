/** Offsets to lines and columns, and file addresses to the names a person knows them by. */
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Place } from '../../language/vocabulary/given.ts';

export interface Position {
  /** Both from 0; `character` counts UTF-16 units, as editors do. */
  readonly line: number;
  readonly character: number;
}

export interface Excerpt {
  readonly line: number;
  /** The first line of the place; undefined where the file could not be read. */
  readonly lineText: string | undefined;
  /** Where the place begins and ends in it. */
  readonly from: number;
  readonly to: number;
  /** Further lines that the place goes on for. */
  readonly more: number;
}

export interface Texts {
  positionOf(file: string, offset: number): Position;
  excerptOf(place: Place): Excerpt;
  /** The path from the working directory, with forward slashes. */
  nameOf(file: string): string;
}

/** Over the texts of the files by address. */
export function createTexts(textOf: (file: string) => string | undefined, cwd: string): Texts {
  const starts = new Map<string, readonly number[]>();
  const startsOf = (file: string): readonly number[] => {
    const known = starts.get(file);
    if (known) return known;
    const fresh = lineStarts(textOf(file) ?? '');
    starts.set(file, fresh);
    return fresh;
  };
  const positionOf = (file: string, offset: number): Position => {
    const all = startsOf(file);
    const line = lastAtMost(all, offset);
    return { line, character: Math.max(0, Math.min(offset, (textOf(file) ?? '').length) - all[line]!) };
  };
  return {
    positionOf,
    nameOf: file => nameOf(file, cwd),
    excerptOf: ({ file, start, end }) => {
      const text = textOf(file);
      const first = positionOf(file, start);
      const last = positionOf(file, Math.max(start, end));
      if (text === undefined) return { line: first.line, lineText: undefined, from: 0, to: 0, more: 0 };
      const begin = startsOf(file)[first.line]!;
      const lineText = text.slice(begin, startsOf(file)[first.line + 1]).replace(/[\r\n]+$/, '');
      const from = Math.min(first.character, lineText.length);
      const to = last.line > first.line ? lineText.length : Math.min(last.character, lineText.length);
      return { line: first.line, lineText, from, to, more: last.line - first.line };
    },
  };
}

function nameOf(file: string, cwd: string): string {
  if (!file.startsWith('file:')) return file;
  return relative(cwd, fileURLToPath(file)).replaceAll('\\', '/') || '.';
}

/** `\r\n`, `\n` and a lone `\r` end a line. */
function lineStarts(text: string): readonly number[] {
  return [0, ...Array.from(text.matchAll(/\r\n|\n|\r/g), match => match.index + match[0].length)];
}

/** The index of the last number that is not above the limit, by halving. */
function lastAtMost(sorted: readonly number[], limit: number): number {
  let [low, high] = [0, sorted.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (sorted[middle]! <= limit) low = middle;
    else high = middle - 1;
  }
  return low;
}
