/** Computed quantities for a person at a terminal: the table of a job, and the way one number came about. */
import { currencyOf, shownValue, sourceText } from '../../language/documents/derived.ts';
import type { Explained } from '../../language/explain/explain.ts';
import type { Job } from '../../language/job/job.ts';
import type { System } from '../../language/units/index.ts';
import type { Looks } from './findingText.ts';
import { pad, printable, width, wrap } from './terminal.ts';
import type { Texts } from './texts.ts';

/** What the tables are made from. */
export interface Derived {
  readonly job: Job;
  readonly quantities: ReadonlyMap<string, Explained>;
}

/**
 * The quantities of a job: deposits, then work by work and step by step, each with its value, its formula and the number
 * of its source; then the sources, then how to ask further. Ends with a line break.
 */
export function quantitiesText({ job, quantities }: Derived, file: string, looks: Looks): string {
  const { paint, columns } = looks;
  const { system } = job;
  const currency = currencyOf(job);
  const all = [...quantities.values()];
  const sources = [...new Set(all.map(sourceText))];
  const sections = [...Map.groupBy(all, each => each.path.split('.')[0]!)];
  const rows = (section: string, list: readonly Explained[]): readonly Row[] =>
    list.map(each => {
      const name = each.path.slice(section.length + 1);
      return {
        name,
        step: name.includes('.'),
        value: shownValue(each, system, currency) + intervalText(each, system, currency),
        what: [labelIn(each.label, section), each.formula].filter(Boolean).join(':  '),
        source: `[${sources.indexOf(sourceText(each)) + 1}]`,
        ...(each.note !== undefined && { note: each.note }),
      };
    });
  const tables = sections.map(([section, list]) => [section, rows(section, list)] as const);
  const everyRow = tables.flatMap(([, list]) => list);
  const widths: Widths = {
    name: Math.max(0, ...everyRow.map(row => width(row.name))),
    value: Math.max(0, ...everyRow.map(row => width(row.value))),
    source: Math.max(0, ...everyRow.map(row => row.source.length)),
  };
  const parts = [
    headingText(job, looks),
    ...tables.map(([section, list]) =>
      [paint('strong', section) + aboutText(section, job), ...list.flatMap(row => rowText(row, widths, looks))].join(
        '\n',
      ),
    ),
    ['Sources', ...sources.map((source, i) => hanging(`[${i + 1}] `.padStart(7), source, columns))].join('\n'),
    `Where a number comes from:  broomline explain ${file} ${all.at(-1)?.path ?? 'NAME'}`,
  ];
  return all.length === 0
    ? `${headingText(job, looks)}\n\nNothing can be computed from this file.\n`
    : `${parts.join('\n\n')}\n`;
}

interface Row {
  readonly name: string;
  readonly step: boolean;
  readonly value: string;
  readonly what: string;
  readonly source: string;
  readonly note?: string;
}

interface Widths {
  readonly name: number;
  readonly value: number;
  readonly source: number;
}

function rowText(row: Row, widths: Widths, { paint, columns }: Looks): readonly string[] {
  const start = `  ${pad(row.name, widths.name)}  ${pad(row.value, widths.value, 'right')}  `;
  const aside = `${pad(row.source, widths.source, 'right')}  `;
  const indent = ' '.repeat(width(start) + width(aside));
  const room = Math.max(24, columns - indent.length);
  const [first = '', ...more] = wrap(row.what, room);
  const notes = row.note === undefined ? [] : wrap(row.note, room);
  return [start + paint('quiet', aside + first), ...[...more, ...notes].map(line => paint('quiet', indent + line))].map(
    line => line.trimEnd(),
  );
}

/** `removes Touchdown22 by BroomAndRinse` behind the name of a work. */
function aboutText(section: string, job: Job): string {
  const plan = job.plans.find(each => each.work.name === section);
  if (!plan) return '';
  const deposits = plan.deposits.map(deposit => deposit.name).join(', ');
  return `  removes ${deposits || 'nothing'}${plan.method ? ` by ${plan.method.name}` : ''}`;
}

function headingText(job: Job, { paint }: Looks): string {
  const head = job.blocks.jobs[0];
  if (!head) return 'A library: a file without a job block.';
  const details = [head.revision && `revision ${head.revision.value}`, head.issue?.value, head.date?.value];
  return [paint('strong', printable(head.title?.value ?? head.name)), details.filter(Boolean).join(', ')]
    .filter(Boolean)
    .join('\n');
}

function labelIn(label: string, section: string): string {
  return label.replace(new RegExp(` of ${section}(?:\\.[\\w-]+)?$`), '');
}

function intervalText(each: Explained, system: System, currency: string | undefined): string {
  if (!each.interval) return '';
  const [least, greatest] = each.interval.map(value => shownValue({ value, kind: each.kind }, system, currency));
  return ` (${least} to ${greatest})`;
}

function hanging(start: string, text: string, columns: number): string {
  const indent = ' '.repeat(width(start));
  return wrap(text, Math.max(24, columns - indent.length))
    .map((line, i) => (i === 0 ? start : indent) + line)
    .join('\n');
}

/**
 * How one quantity came about, down to the lines of the text: formula, inputs in turn, sources. What was explained
 * further up is named, not repeated. Ends with a line break.
 */
export function explanationText(quantity: Explained, { job }: Derived, texts: Texts, looks: Looks): string {
  const { system } = job;
  const currency = currencyOf(job);
  const seen = new Set<Explained>();
  const lines: string[] = [];
  const tell = (each: Explained, rail: string, mark: string, next: string): void => {
    const value = shownValue(each, system, currency) + intervalText(each, system, currency);
    const head = `${each.symbol} = ${looks.paint('strong', value)}  ${each.label}`;
    const known = seen.has(each) && each.inputs.length > 0;
    lines.push(`${rail}${mark}${head}${known ? looks.paint('quiet', '  (explained above)') : ''}`);
    if (known) return;
    seen.add(each);
    const under = (text: string) => {
      const indent = `${rail}${next}${each.inputs.length > 0 ? '│ ' : '  '}`;
      for (const line of wrap(text, Math.max(24, looks.columns - indent.length)))
        lines.push(indent + looks.paint('quiet', line));
    };
    if (each.formula !== undefined) under(`${each.formula}   ${sourceText(each)}`);
    else under(originText(each, texts));
    if (each.note !== undefined) under(each.note);
    each.inputs.forEach((input, i) => {
      const last = i === each.inputs.length - 1;
      tell(input, rail + next, last ? '└ ' : '├ ', last ? '  ' : '│ ');
    });
  };
  lines.push(looks.paint('strong', quantity.path));
  tell(quantity, '', '', '');
  return `${lines.join('\n')}\n`;
}

/** `examples/a.broom, line 12: 'speed: 7 mph'`, with how the value got here where that is not its own line. */
function originText({ place, origin, source, path }: Explained, texts: Texts): string {
  if (origin?.by === 'default') return `${path}: nothing is said, so the default holds (${sourceText({ source })})`;
  if (!place) return sourceText({ source });
  const { line, lineText } = texts.excerptOf(place);
  const where = `${texts.nameOf(place.file)}, line ${line + 1}`;
  const said = lineText === undefined ? '' : `: ${printable(lineText.trim())}`;
  return `${path}, ${where}${said}${wayText(origin)}`;
}

function wayText(origin: Explained['origin']): string {
  switch (origin?.by) {
    case 'inherited':
      return ` (from ${origin.from})`;
    case 'argument':
      return ` (argument ${origin.parameter})`;
    case 'parameter default':
      return ` (default of the parameter ${origin.parameter})`;
    default:
      return '';
  }
}
