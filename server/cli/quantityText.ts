/** Computed quantities for a person at a terminal: the table of a job, and the way one number came about. */
import { currencyOf } from '../../language/documents/derived.ts';
import type { Explained } from '../../language/explain/explain.ts';
import { explainText, shownValue, sourceText } from '../../language/explain/render.ts';
import type { Job, Plan } from '../../language/job/job.ts';
import type { Looks } from './findingText.ts';
import { pad, printable, width, wrap } from './terminal.ts';
import type { Texts } from './texts.ts';

/** What the tables are made from. */
export interface Derived {
  readonly job: Job;
  readonly quantities: ReadonlyMap<string, Explained>;
}

/**
 * The quantities of a job as a person reads them: the job as a whole, deposits, work by work with a table of its steps,
 * then what else was computed, notes, sources, and how to ask further. Ends with a line break.
 *
 * @param schedule a section of its own, put in after the job as a whole
 */
export function quantitiesText({ job, quantities }: Derived, file: string, looks: Looks, schedule = ''): string {
  const all = [...quantities.values()];
  if (all.length === 0) return `${headingText(job, looks)}\n\nNothing can be computed from this file.\n`;
  const page = new Page(job, all, looks);
  const sections = Map.groupBy(all, each => each.path.split('.')[0]!);
  const take = (name: string): readonly Explained[] => {
    const found = sections.get(name) ?? [];
    sections.delete(name);
    return found;
  };
  const deposits = job.blocks.deposits.flatMap(({ name }) => take(name));
  const whole = take('Job');
  const works = job.plans.map(plan => page.work(plan, take(plan.work.name)));
  const parts = [
    headingText(job, looks),
    whole.length > 0 ? [looks.paint('strong', 'The job as a whole'), page.rows('Job', whole)].join('\n') : '',
    schedule,
    ...works,
    deposits.length > 0 ? [looks.paint('strong', 'Deposits'), page.matrix('', deposits).text].join('\n') : '',
    sections.size > 0 ? [looks.paint('strong', 'Also computed'), page.asides([...sections])].join('\n') : '',
    page.notes(),
    page.sources(),
    `Where a number comes from:  broomline explain ${file} ${askFor(job, all)}`,
  ];
  return `${parts.filter(part => part !== '').join('\n\n')}\n`;
}

/** A quantity worth asking about first. */
function askFor(job: Job, all: readonly Explained[]): string {
  const work = job.plans[0]?.work.name;
  return (
    all.find(({ path }) => path === `${work}.product`) ??
    all.find(({ path }) => path.startsWith(`${work}.`)) ??
    all[0]!
  ).path;
}

/** Step by step, the quantities worth a column, in this order; the rest are rows. */
const COLUMNS = ['lanes', 'circuits', 'drivenLength', 'time', 'productionRate', 'mix', 'water', 'flow', 'loads'];

/** One printout: it numbers its sources and letters its notes as it meets them. */
class Page {
  private readonly job: Job;
  private readonly looks: Looks;
  private readonly currency: string | undefined;
  private readonly usedSources: string[] = [];
  private readonly usedNotes: string[] = [];
  /** Widths over the whole page, so that the columns of all sections stand under each other. */
  private readonly widths: { readonly label: number; readonly value: number };

  constructor(job: Job, all: readonly Explained[], looks: Looks) {
    this.job = job;
    this.looks = looks;
    this.currency = currencyOf(job);
    const rows = all.filter(each => each.path.split('.').length > 1);
    this.widths = {
      label: Math.min(36, Math.max(0, ...rows.map(each => width(labelIn(each))))),
      value: Math.min(14, Math.max(0, ...rows.map(each => width(this.value(each))))),
    };
  }

  /** A work: its own quantities, then a table of its steps, then what single steps have besides. */
  work({ work, deposits, method, steps }: Plan, list: readonly Explained[]): string {
    const removes = deposits.map(deposit => deposit.name).join(', ');
    const about = `  removes ${removes || 'nothing'}${method ? ` by ${method.name}` : ''}`;
    const stepNames = new Set(steps.map(({ step }) => step.name));
    const ofSteps = list.filter(({ path }) => stepNames.has(path.split('.')[1] ?? ''));
    const own = list.filter(each => !ofSteps.includes(each) && !isLeftOut(each));
    const { text, rest } = this.matrix(`${work.name}.`, ofSteps);
    return [
      this.looks.paint('strong', work.name) + about,
      this.rows(work.name, own),
      ...(ofSteps.length > 0 ? ['', text] : []),
      ...(rest.length > 0 ? ['', this.rows(work.name, rest, true)] : []),
    ].join('\n');
  }

  /** One quantity a line: what it is, the value, its bounds, source and notes, and the name to ask for. */
  rows(section: string, list: readonly Explained[], ofSteps = false): string {
    const { paint, columns } = this.looks;
    const lines = list.map(each => {
      const name = each.path.slice(section.length + 1);
      const label = ofSteps ? stepLabel(name, labelIn(each)) : labelIn(each);
      const [first = '', ...more] = wrap(label, this.widths.label);
      const start = `  ${pad(first, this.widths.label)}  ${pad(this.value(each), this.widths.value, 'right')}`;
      const aside = [this.bounds(each), this.marks(each), name].filter(Boolean).join('  ');
      const fits = width(start) + 2 + width(aside) <= columns;
      const rest = more.map(line => `    ${line}`);
      return fits
        ? [`${start}  ${paint('quiet', aside)}`, ...rest]
        : [start, ...rest, paint('quiet', `${' '.repeat(this.widths.label + 4)}${aside}`)];
    });
    return lines.flat().join('\n');
  }

  /** Several things of a kind with the same quantities: one a row, one quantity a column. */
  matrix(prefix: string, list: readonly Explained[]): { readonly text: string; readonly rest: readonly Explained[] } {
    const nameOf = (each: Explained) => each.path.slice(prefix.length).split('.');
    const columnOf = (each: Explained) => nameOf(each).slice(1).join('.');
    const things = Map.groupBy(list, each => nameOf(each)[0]!);
    const present = new Map<string, number>();
    for (const each of list) {
      const quantity = columnOf(each);
      present.set(quantity, (present.get(quantity) ?? 0) + 1);
    }
    const wanted = prefix === '' ? [...present.keys()] : COLUMNS.filter(column => (present.get(column) ?? 0) > 1);
    const cell = (thing: readonly Explained[], column: string) => {
      const found = thing.find(each => columnOf(each) === column);
      return found === undefined ? '' : this.value(found);
    };
    const table = [
      ['', ...wanted.map(wordsOf)],
      ...[...things]
        .map(([name, thing]) => [name, ...wanted.map(column => cell(thing, column))])
        .filter(([, ...cells]) => cells.some(text => text !== '')),
    ];
    const shown = fitting(table, this.looks.columns - 2);
    const columns = new Set(wanted.slice(0, shown[0]!.length - 1));
    const widths = shown[0]!.map((_, i) => Math.max(...shown.map(row => width(row[i]!))));
    const lines = shown.map((row, i) => {
      const line = `  ${row.map((text, k) => pad(text, widths[k]!, k === 0 ? 'left' : 'right')).join('  ')}`.trimEnd();
      return i === 0 ? this.looks.paint('quiet', line) : line;
    });
    return { text: lines.join('\n'), rest: list.filter(each => !columns.has(columnOf(each)) && !isLeftOut(each)) };
  }

  /** What belongs to single machines, runways and surveys: a line each. */
  asides(sections: readonly (readonly [string, readonly Explained[]])[]): string {
    const longest = Math.max(...sections.map(([name]) => width(name)));
    return sections
      .map(([name, list]) =>
        hanging(
          `  ${pad(name, longest)}  `,
          list.map(each => `${wordsOf(each.path.slice(name.length + 1))} ${this.value(each)}`).join(', '),
          this.looks.columns,
        ),
      )
      .join('\n');
  }

  notes(): string {
    if (this.usedNotes.length === 0) return '';
    return [
      this.looks.paint('strong', 'Notes'),
      ...this.usedNotes.map((note, i) => hanging(`  ${pad(letter(i), 4)}  `, note, this.looks.columns)),
    ].join('\n');
  }

  sources(): string {
    return [
      this.looks.paint('strong', 'Sources, and how well each is verified'),
      ...this.usedSources.map((source, i) => hanging(`  ${pad(`[${i + 1}]`, 4)}  `, source, this.looks.columns)),
    ].join('\n');
  }

  private value(each: Explained): string {
    return this.shown(each);
  }

  private bounds(each: Explained): string {
    return (each.interval ?? []).map(value => this.shown({ value, kind: each.kind })).join(' to ');
  }

  private shown(each: Pick<Explained, 'value' | 'kind'>): string {
    return shownValue(each, this.job.system, this.currency === undefined ? {} : { currency: this.currency });
  }

  private marks(each: Explained): string {
    const mark = `[${numberIn(this.usedSources, sourceText(each)) + 1}]`;
    return each.note === undefined ? mark : `${mark} ${letter(numberIn(this.usedNotes, each.note))}`;
  }
}

/** Where a text stands in a list; it is added when it is new. */
function numberIn(list: string[], text: string): number {
  const known = list.indexOf(text);
  return known >= 0 ? known : list.push(text) - 1;
}

function letter(index: number): string {
  return index < 26 ? String.fromCharCode(97 + index) : letter(Math.floor(index / 26) - 1) + letter(index % 26);
}

/** Water of a step that this weather does without, and the like: nothing to read. */
function isLeftOut({ value, kind }: Explained): boolean {
  return value === 0 && kind === 'volume';
}

/** `Apply: rate of mix`, or `Apply: rate of mix (heavy)` where it is of one class of build-up only. */
function stepLabel(name: string, label: string): string {
  const [step, ...between] = name.split('.').slice(0, -1);
  const part = between.join(' ');
  return `${step}: ${label}${part === '' || label.includes(part) ? '' : ` (${part})`}`;
}

/** Columns from the left as long as they fit. */
function fitting(table: readonly (readonly string[])[], room: number): readonly (readonly string[])[] {
  let [used, count] = [0, 0];
  for (const [i] of table[0]!.entries()) {
    used += Math.max(...table.map(row => width(row[i]!))) + (i > 0 ? 2 : 0);
    if (used > room) break;
    count = i + 1;
  }
  return table.map(row => row.slice(0, Math.max(count, 2)));
}

/** `drivenLength` → `driven length`. */
function wordsOf(name: string): string {
  return name.replace(/[A-Z]/g, sign => ` ${sign.toLowerCase()}`).replaceAll('.', ' ');
}

/** The label without the block that the section's heading already names. */
function labelIn({ label, path }: Explained): string {
  const [section = ''] = path.split('.');
  return label.replace(new RegExp(` (?:of|for|in) ${section.replace(/[^\w-]/g, '.')}(?:\\.[\\w-]+)*(?=,| |$)`), '');
}

function headingText(job: Job, { paint }: Looks): string {
  const head = job.blocks.jobs[0];
  if (!head) return 'A library: a file without a job block.';
  const details = [head.revision && `revision ${head.revision.value}`, head.issue?.value, head.date?.value];
  return [paint('strong', printable(head.title?.value ?? head.name)), details.filter(Boolean).join(', ')]
    .filter(Boolean)
    .join('\n');
}

function hanging(start: string, text: string, columns: number): string {
  const indent = ' '.repeat(width(start));
  return wrap(text, Math.max(24, columns - indent.length))
    .map((line, i) => (i === 0 ? start : indent) + line)
    .join('\n');
}

/** How one quantity came about, down to the lines of the text, and what may be computed with it. Ends with a line break. */
export function explanationText(quantity: Explained, job: Job, texts: Texts, { columns }: Looks): string {
  const currency = currencyOf(job);
  const text = explainText(quantity, job.system, {
    where: ({ file, start }) => `${texts.nameOf(file)}:${texts.positionOf(file, start).line + 1}`,
    columns,
    ...(currency !== undefined && { currency }),
  });
  return `${text}\n`;
}
