/**
 * A page of the reference for a person at a terminal. It knows only what those pages are made of: headings, paragraphs,
 * lists, tables and examples. A table becomes a list, since its cells are sentences and a terminal is narrow.
 */
import type { Looks } from './findingText.ts';
import { width, wrap } from './terminal.ts';

/** The page, wrapped to the columns of the terminal. Ends with a line break. */
export function pageText(markdown: string, looks: Looks): string {
  return `${blocksOf(markdown)
    .map(block => blockText(block, looks))
    .join('\n\n')}\n`;
}

/** What blank lines part, an example being one piece whatever it holds. */
function blocksOf(markdown: string): readonly string[] {
  return markdown
    .trim()
    .split(/(^```[\s\S]*?^```$)/m)
    .flatMap(piece => (piece.startsWith('```') ? [piece] : piece.split(/\n{2,}/)))
    .map(piece => piece.replace(/^\n+|\n+$/g, ''))
    .filter(piece => piece !== '');
}

function blockText(block: string, looks: Looks): string {
  const { paint, columns } = looks;
  if (block.startsWith('```')) {
    const lines = block.split('\n').slice(1, -1);
    return lines.map(line => (line === '' ? '' : `    ${line}`)).join('\n');
  }
  const heading = /^#+ (.*)$/.exec(block)?.[1];
  if (heading !== undefined) return paint('strong', plainOf(heading));
  if (block.startsWith('|')) return tableText(block, looks);
  if (block.startsWith('- ')) {
    return block
      .split(/\n(?=- )/)
      .map(item => hanging('  ', plainOf(item.slice(2)), columns))
      .join('\n');
  }
  return wrap(plainOf(block), columns).join('\n');
}

/** Broader names than this get a line to themselves. */
const WIDEST_NAME = 24;

/** Columns that need no name before what they say. */
const UNLABELLED: ReadonlySet<string> = new Set(['', 'value', 'what it is', 'also written']);

/** A row as a name and what is said of it; what stands in later columns is named by its heading. */
function tableText(block: string, { paint, columns }: Looks): string {
  const [heads = [], , ...rows] = block.split('\n').map(cellsOf);
  const names = rows.map(row => plainOf(row[0] ?? ''));
  const indent = Math.min(WIDEST_NAME, Math.max(0, ...names.map(width))) + 4;
  return rows
    .map((row, i) => {
      const said = row.slice(1).flatMap((cell, k) => {
        const text = plainOf(cell);
        if (text === '') return [];
        const label = heads[k + 1] ?? '';
        return [ended(k === 0 || UNLABELLED.has(label) ? capital(text) : `${label}: ${text}`)];
      });
      const name = names[i] ?? '';
      const lines = wrap(said.join(' '), Math.max(24, columns - indent));
      const start = `  ${paint('mend', name)}`;
      if (width(name) + 4 > indent) return [start, ...lines.map(line => ' '.repeat(indent) + line)].join('\n');
      const gap = ' '.repeat(indent - 2 - width(name));
      return lines
        .map((line, k) => (k === 0 ? start + gap : ' '.repeat(indent)) + line)
        .join('\n')
        .trimEnd();
    })
    .join('\n');
}

function cellsOf(line: string): readonly string[] {
  return line
    .slice(1, -1)
    .split(/(?<!\\)\|/)
    .map(cell => cell.trim().replaceAll('\\|', '|'));
}

/** `a length` → `A length`; a word of the language stays as it is. */
function capital(text: string): string {
  return /^[a-z]+ /.test(text) ? text[0]!.toUpperCase() + text.slice(1) : text;
}

/** A sentence ends with its full stop, also where a cell leaves it out. */
function ended(text: string): string {
  return /[.!?…:]$/.test(text) ? text : `${text}.`;
}

/** Without the signs of Markdown: the words of a link, the words of a code. */
function plainOf(text: string): string {
  return text.replace(/\[([^\]]*)\]\([^)]*\)/g, '$1').replaceAll('`', '');
}

function hanging(indent: string, text: string, columns: number): string {
  return wrap(text, columns - indent.length - 2)
    .map((line, i) => `${indent}${i === 0 ? '- ' : '  '}${line}`)
    .join('\n');
}
