/**
 * An explained quantity for people: value, formula in symbols, the formula with the numbers in it, then every input down to
 * the lines of the text, each once. For terminals of 80 to 100 columns and for the calculation sheet.
 */
import { citation, findSource } from '../sources/sources.ts';
import { parseUnit, quantityKind, type System, show, showIn } from '../units/index.ts';
import type { Origin, Place } from '../vocabulary/given.ts';
import type { Explained } from './explain.ts';

export interface RenderOptions {
  /** `jobs/tern.broom:14` for a place; without it no place is shown. */
  readonly where?: (place: Place) => string;
  /** Currency of the job, for money. */
  readonly currency?: string;
  /** Columns to wrap notes and sources at. Default 96. */
  readonly columns?: number;
}

/** The whole explanation as text, inputs indented below what they go into. */
export function explainText(explained: Explained, system: System, options: RenderOptions = {}): string {
  return linesOf(explainData(explained, system, options), 0, options.columns ?? 96, true).join('\n');
}

/** One quantity of an explanation as plain data, for JSON, hovers and sheets. */
export interface ExplainedData {
  readonly path: string;
  readonly label: string;
  readonly symbol: string;
  /** With unit, in the reader's system. */
  readonly shown: string;
  /** As the author wrote it, where that is in another unit. */
  readonly written?: string;
  /** What the tolerances leave: `4.8 L/min to 5.2 L/min`. */
  readonly range?: string;
  readonly formula?: string;
  /** The right side of the formula with the inputs' values in the place of their symbols. */
  readonly filled?: string;
  readonly where?: string;
  /** How an input came to be: 'default', 'argument of soak'; nothing for the block's own line. */
  readonly origin?: string;
  readonly source: string;
  readonly note?: string;
  readonly inputs: readonly ExplainedData[];
  /** Explained before; its inputs are not repeated. */
  readonly above?: true;
}

export function explainData(explained: Explained, system: System, options: RenderOptions = {}): ExplainedData {
  return dataOf(explained, system, options, new Set());
}

function dataOf(explained: Explained, system: System, options: RenderOptions, done: Set<string>): ExplainedData {
  const { path, label, symbol, formula, place, note, origin, interval } = explained;
  const shown = shownValue(explained, system, options);
  const above = done.has(path);
  done.add(path);
  const filled = filledIn(explained, system, options);
  const from = originText(origin);
  const unit = explained.unit === undefined ? undefined : parseUnit(explained.unit);
  const written = unit && showIn(explained.value, unit);
  return {
    path,
    label,
    symbol,
    shown,
    ...(written !== undefined && written !== shown && { written }),
    ...(interval && {
      range: interval.map(end => shownValue({ ...explained, value: end }, system, options)).join(' to '),
    }),
    ...(formula !== undefined && { formula }),
    ...(filled !== undefined && { filled }),
    // A computed quantity belongs to a block; only an input stands on a line.
    ...(place && formula === undefined && options.where && { where: options.where(place) }),
    ...(from && { origin: from }),
    source: sourceText(explained),
    ...(note && { note }),
    ...(above && { above }),
    inputs: above ? [] : explained.inputs.map(each => dataOf(each, system, options, done)),
  };
}

/** A value as its kind is shown; money in the job's currency. */
export function shownValue(
  { value, kind }: Pick<Explained, 'value' | 'kind'>,
  system: System,
  options: Pick<RenderOptions, 'currency'> = {},
): string {
  return show(value, quantityKind(kind), system, options.currency ? { currency: options.currency } : {});
}

/** 'the author', or the publication with how well this fact is verified. */
export function sourceText({ source, mark }: Pick<Explained, 'source' | 'mark'>): string {
  if (source === 'the author') return source;
  const entry = findSource(source);
  return entry ? citation(mark ? { source, mark } : source) : source;
}

/** How a value came to be where it is used; undefined for the block's own line. */
export function originText(origin: Origin | undefined): string | undefined {
  switch (origin?.by) {
    case 'default':
      return 'default';
    case 'inherited':
      return `inherited from ${origin.from}`;
    case 'library':
      return 'library';
    case 'argument':
      return `argument ${origin.parameter}`;
    case 'parameter default':
      return `default of the parameter ${origin.parameter}`;
    default:
      return undefined;
  }
}

// A symbol: letters with subscripts, as `t_l`, `A₁`, `T`.
const symbols = /[\p{L}ᵢ][\p{L}₀-₉]*(?:_[\p{L}\p{N}]+)?[₀-₉]*/gu;

/**
 * The right side of a formula with numbers for symbols; undefined where that says nothing: a formula in words, a symbol
 * that two inputs share, or nothing to fill in.
 */
function filledIn(explained: Explained, system: System, options: RenderOptions): string | undefined {
  const { formula, inputs } = explained;
  if (formula === undefined || inputs.length === 0) return undefined;
  const right = formula.slice(formula.indexOf('=') + 1).trim();
  const values = new Map<string, string>();
  for (const each of inputs) {
    if (values.has(each.symbol)) return undefined;
    values.set(each.symbol, shownValue(each, system, options));
  }
  const words = new Set(['cos', 'tan', 'max', 'π', 'kg', 'm³']);
  let unknown = false;
  const replaced = right.replace(symbols, word => {
    const value = values.get(word);
    if (value === undefined && !words.has(word)) unknown = true;
    return value ?? word;
  });
  // A bare symbol filled in is the value itself.
  return unknown || replaced === right || values.has(right) ? undefined : replaced;
}

// Text

function linesOf(data: ExplainedData, depth: number, columns: number, top: boolean): string[] {
  const pad = '  '.repeat(depth);
  const heading = `${pad}${top ? '' : `${data.symbol}: `}${data.path} = ${data.shown}`;
  const written = data.written ? ` (written ${data.written})` : '';
  const range = data.range ? ` (${data.range})` : '';
  if (data.above) return [`${heading}${written}${range}  (see above)`];
  const lines = beside(`${heading}${written}${range}`, standing(data), pad, columns);
  if (data.formula !== undefined) lines.push(`${pad}  ${data.label}`);
  if (data.formula !== undefined && !isCarriedOver(data)) {
    lines.push(...wrap(data.formula, `${pad}    `, columns));
    if (data.filled !== undefined) {
      const left = data.formula.slice(0, data.formula.indexOf('=')).trim();
      lines.push(...wrap(`= ${data.filled}`, `${pad}    ${' '.repeat(left.length + 1)}`, columns));
    }
  }
  if (data.source !== 'the author' && !isCarriedOver(data))
    lines.push(...wrap(`source: ${data.source}`, `${pad}  `, columns));
  if (data.note) lines.push(...wrap(`note: ${data.note}`, `${pad}  `, columns));
  return [...lines, ...inputLines(data.inputs, depth + 1, columns)];
}

/** The value of its one input under another name: the formula says nothing. */
function isCarriedOver({ formula, inputs }: ExplainedData): boolean {
  return inputs.length === 1 && formula?.slice(formula.indexOf('=') + 1).trim() === inputs[0]!.symbol;
}

function standing({ where, origin }: ExplainedData): string {
  const parts = [where, origin].filter(part => part !== undefined);
  return parts.length > 0 ? `  [${parts.join(', ')}]` : '';
}

/** The place beside a value, or below it where the line would grow too long. */
function beside(text: string, place: string, pad: string, columns: number): string[] {
  return text.length + place.length <= columns || place === '' ? [text + place] : [text, `${pad}    ${place.trim()}`];
}

/** Inputs one below the other; cells of one row of a table share a line, and a table shown before is not repeated. */
function inputLines(inputs: readonly ExplainedData[], depth: number, columns: number): string[] {
  const pad = '  '.repeat(depth);
  const lines: string[] = [];
  const tablesAbove = new Set<string>();
  for (let i = 0; i < inputs.length; ) {
    const row = rowOf(inputs[i]!);
    if (!row) {
      lines.push(...linesOf(inputs[i]!, depth, columns, false));
      i++;
      continue;
    }
    const cells = [inputs[i]!];
    while (i + cells.length < inputs.length && rowOf(inputs[i + cells.length]!)?.path === row.path) {
      cells.push(inputs[i + cells.length]!);
    }
    i += cells.length;
    if (!cells.every(cell => cell.above)) {
      const named = cells.map(cell => `${cell.symbol} = ${cell.shown}`).join(', ');
      lines.push(...beside(`${pad}${row.path}: ${named}`, standing(cells[0]!), pad, columns));
    } else if (!tablesAbove.has(row.table)) {
      tablesAbove.add(row.table);
      lines.push(`${pad}${row.table}  (see above)`);
    }
  }
  return lines;
}

/** `Zone.stations.2.width` → table `Zone.stations`, row `Zone.stations.2`; undefined for what is in no table. */
function rowOf({ path, formula }: ExplainedData): { readonly table: string; readonly path: string } | undefined {
  const [row, table] = /^(.+\.[a-z-]+)\.\d+(?=\.|$)/.exec(path) ?? [];
  return row !== undefined && table !== undefined && formula === undefined ? { table, path: row } : undefined;
}

/** Words wrapped at a width; further lines two blanks further in. */
function wrap(text: string, pad: string, columns: number): string[] {
  const width = Math.max(24, columns - pad.length);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const room = lines.length === 0 ? width : width - 2;
    if (line && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else line = line ? `${line} ${word}` : word;
  }
  lines.push(line);
  return lines.map((each, i) => `${pad}${i === 0 ? '' : '  '}${each}`);
}
