/**
 * Findings for a person at a terminal: the line of the text first, as on a marked-up drawing, and under it the note:
 * what is wrong, where else to look, and what would mend it.
 */
import type { Finding, Severity } from '../../language/checks/check.ts';
import type { Place } from '../../language/vocabulary/given.ts';
import { type Paint, pad, printable, type Style, width, wrap } from './terminal.ts';
import type { Texts } from './texts.ts';

export interface Looks {
  readonly paint: Paint;
  /** Columns to fill at most. */
  readonly columns: number;
}

/** All findings with a heading for each file, and the summary. Ends with a line break. */
export function findingsText(findings: readonly Finding[], files: number, texts: Texts, looks: Looks): string {
  const byFile = Map.groupBy(findings, finding => finding.place.file);
  const parts = [...byFile].map(([file, ofFile]) =>
    [looks.paint('strong', texts.nameOf(file)), ...ofFile.map(finding => findingText(finding, texts, looks))].join(
      '\n\n',
    ),
  );
  return `${[...parts, summaryText(findings, files, looks.paint)].join('\n\n')}\n`;
}

/** Columns before the text of a line: the number and its blanks. */
const GUTTER = 7;

function findingText(finding: Finding, texts: Texts, looks: Looks): string {
  const { paint, columns } = looks;
  const style: Style = finding.waived ? 'quiet' : finding.severity;
  const note = (text: string, paintedAs: Style = 'plain') => indented(text, columns, paint, paintedAs);
  const waived = finding.waived;
  return [
    ...excerpt(finding.place, texts, looks, style),
    verdict(finding, style, looks),
    ...(finding.related ?? []).map(({ place, message }) =>
      note(`see ${whereText(place, finding.place, texts)}: ${message}`),
    ),
    ...finding.fixes.map(fix => note(`to mend: ${fix.title}`, 'mend')),
    ...(waived
      ? [note(`waived by ${waived.by}${waived.until ? ` until ${waived.until}` : ''}: ${waived.reason}`, 'quiet')]
      : []),
  ].join('\n');
}

/** `error: message  [code]`, wrapped, the code at the end of the last line or on one of its own. */
function verdict(finding: Finding, style: Style, { paint, columns }: Looks): string {
  const word = `${finding.waived ? 'waived ' : ''}${finding.severity}: `;
  const lines = wrap(word + printable(finding.message), columns - GUTTER);
  const code = `(${finding.code})`;
  const last = lines.at(-1) ?? '';
  const fits = width(last) + 2 + code.length <= columns - GUTTER;
  const painted = lines.map((line, i) =>
    i === 0 ? paint(style, line.slice(0, word.length)) + line.slice(word.length) : line,
  );
  const all = fits
    ? [...painted.slice(0, -1), `${painted.at(-1)}  ${paint('quiet', code)}`]
    : [...painted, paint('quiet', code)];
  return all.map(line => ' '.repeat(GUTTER) + line).join('\n');
}

/** The line of the place with its number, and a stroke under the place. */
function excerpt(place: Place, texts: Texts, { paint, columns }: Looks, style: Style): readonly string[] {
  const { line, lineText, from, to, more } = texts.excerptOf(place);
  if (lineText === undefined) return [];
  const room = Math.max(20, columns - GUTTER);
  const cut = window(lineText, from, to, room);
  const before = printable(cut.before);
  const inside = printable(cut.inside, width(before));
  const after = printable(cut.after, width(before) + width(inside));
  const stroke = '‾'.repeat(Math.max(1, width(inside)));
  return [
    `${paint('quiet', pad(String(line + 1), GUTTER - 2, 'right'))}  ${before}${paint(style, inside)}${after}`.trimEnd(),
    `${' '.repeat(GUTTER + width(before))}${paint(style, stroke)}${more > 0 ? paint('quiet', ` and ${lines(more)} more`) : ''}`,
  ];
}

/** The part of a long line round the place. Lengths are code units; one sign too many or too few does no harm. */
function window(text: string, from: number, to: number, room: number) {
  const end = Math.min(to, from + room);
  const start = text.length <= room ? 0 : Math.max(0, Math.min(from - 10, text.length - room));
  const stop = Math.min(text.length, Math.max(start + room, end));
  const dots = (cut: boolean) => (cut ? '…' : '');
  return {
    before: dots(start > 0) + text.slice(start > 0 ? start + 1 : 0, from),
    inside: text.slice(from, end),
    after: text.slice(end, stop > end && stop < text.length ? stop - 1 : stop) + dots(stop < text.length),
  };
}

function whereText(place: Place, near: Place, texts: Texts): string {
  const line = `line ${texts.positionOf(place.file, place.start).line + 1}`;
  return place.file === near.file ? line : `${texts.nameOf(place.file)}, ${line}`;
}

function indented(text: string, columns: number, paint: Paint, style: Style): string {
  const [first = '', ...rest] = wrap(printable(text), columns - GUTTER - 2);
  return [first, ...rest.map(line => `  ${line}`)].map(line => ' '.repeat(GUTTER) + paint(style, line)).join('\n');
}

const SEVERITIES: readonly Severity[] = ['error', 'warning', 'hint'];

/** `3 errors, 1 warning and 1 waived in 2 files`. */
export function summaryText(findings: readonly Finding[], files: number, paint: Paint): string {
  const { waived = [], open = [] } = Object.groupBy(findings, finding => (finding.waived ? 'waived' : 'open'));
  const parts = SEVERITIES.flatMap(severity => {
    const number = open.filter(finding => finding.severity === severity).length;
    return number === 0 ? [] : [paint(severity, `${number} ${severity}${number === 1 ? '' : 's'}`)];
  });
  if (waived.length > 0) parts.push(paint('quiet', `${waived.length} waived`));
  const where = `in ${files} file${files === 1 ? '' : 's'}`;
  return parts.length === 0 ? `No findings ${where}.` : `${list(parts)} ${where}.`;
}

function list(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

function lines(number: number): string {
  return `${number} line${number === 1 ? '' : 's'}`;
}
