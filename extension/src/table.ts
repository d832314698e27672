/** Tables of what was computed; pure, so that a test can read them. */
import type { DerivedDocument } from '../../language/documents/derived.ts';

export interface Table {
  readonly id: string;
  /** The block whose quantities these are; undefined for all, and for the schedule. */
  readonly block?: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The schedule, all quantities, and those of each top block that has some. */
export function tablesOf({ quantities, schedule }: DerivedDocument): readonly Table[] {
  const head = ['Quantity', 'What it is', 'Value', 'Unit', 'Shown', 'Source'];
  const rowOf = (each: DerivedDocument['quantities'][number]) => [
    each.path,
    each.label,
    String(each.value),
    each.unit,
    each.shown,
    each.source,
  ];
  const blocks = [...new Set(quantities.map(each => each.path.split('.')[0] ?? ''))];
  return [
    scheduleTable(schedule),
    { id: 'quantities', head, rows: quantities.map(rowOf) },
    ...blocks.map(block => ({
      id: `quantities of ${block}`,
      block,
      head,
      rows: quantities.filter(each => each.path.startsWith(`${block}.`)).map(rowOf),
    })),
  ];
}

function scheduleTable({ closures, withoutClosure = [] }: DerivedDocument['schedule']): Table {
  const activities = [
    ...closures.flatMap((closure, i) => closure.activities.map(each => ({ ...each, closure: String(i + 1) }))),
    ...withoutClosure.map(each => ({ ...each, closure: '' })),
  ];
  return {
    id: 'schedule',
    head: ['Closure', 'Start', 'End', 'Work', 'Bay', 'Step', 'Machines'],
    rows: activities.map(each => [
      each.closure,
      String(each.start),
      String(each.end),
      each.work,
      String(each.bay),
      each.step,
      each.machines.join(', '),
    ]),
  };
}

/** For a spreadsheet. A cell holds no tab and no line break; a leading sign that would start a formula is kept from it. */
export function asTabs({ head, rows }: Table): string {
  const cell = (text: string) => {
    const flat = text.replace(/[\t\r\n]+/g, ' ');
    return /^[=+@]|^-(?!\d)/.test(flat) ? `'${flat}` : flat;
  };
  return `${[head, ...rows].map(row => row.map(cell).join('\t')).join('\n')}\n`;
}

export function asMarkdown({ head, rows }: Table): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map(each => each.replace(/[\r\n]+/g, ' ').replaceAll('|', '\\|')).join(' | ')} |`;
  return `${[line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n')}\n`;
}
