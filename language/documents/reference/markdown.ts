/** The little Markdown that the pages need. */

export function code(text: string): string {
  return `\`${text}\``;
}

/** Parts with a blank line between; empty ones are left out. Ends with a line break. */
export function page(...parts: readonly string[]): string {
  return `${parts.filter(part => part !== '').join('\n\n')}\n`;
}

/** A table. A column in which no row says anything is left out. */
export function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return '';
  const used = heads.map((_, i) => rows.some(row => (row[i] ?? '') !== ''));
  const line = (cells: readonly string[]): string =>
    `| ${cells
      .filter((_, i) => used[i])
      .map(cell => cell.replaceAll('|', '\\|'))
      .join(' | ')} |`;
  return [line(heads), line(heads.map(() => '---')), ...rows.map(line)].join('\n');
}

export function fenced(text: string): string {
  return ['```broom', text.replace(/^\n+|\s+$/g, ''), '```'].join('\n');
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[], last = 'and'): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

export const CAUTION =
  'Broomline computes; it certifies nothing. The airport operator, the safety data sheet, local codes and licensed practice govern.';
