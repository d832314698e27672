/** The pages that lead to the others: the whole reference, and the checks by group. */
import type { Check } from '../../checks/check.ts';
import { checks, groupOf } from '../../checks/registry.ts';
import type { BlockKind } from '../../vocabulary/define.ts';
import { kinds } from '../../vocabulary/index.ts';
import { CAUTION, code, page, table } from './markdown.ts';

export function indexPage(): string {
  return page(
    '# Reference',
    'A text is made of blocks, and a block of lines `property: value`. What each kind of block may say stands on its page.',
    [
      '- [Statements](statements.md): files, blocks, reuse, parameters, requirements, waivers',
      '- [Values and units](values.md): numbers, units, phrases, expressions',
      `- [Checks](checks.md): the ${checks.length} things that are looked for, each with its reason and its source`,
    ].join('\n'),
    '## Kinds of block',
    ...groups.flatMap(([group, title]) => {
      const ofGroup = [...kinds.values()].filter(kind => kind.group === group);
      return [`### ${title}`, table(['kind', 'what it describes'], ofGroup.map(row))];
    }),
    '## Cautions',
    CAUTION,
  );
}

const groups: readonly (readonly [BlockKind['group'], string])[] = [
  ['job', 'The job'],
  ['place', 'Airport, runway, deposits'],
  ['plant', 'Plant and product'],
  ['method', 'Methods'],
  ['work', 'Work'],
  ['time', 'Closures and people'],
  ['limits', 'Limits and terms'],
  ['record', 'Records'],
];

function row(kind: BlockKind): readonly string[] {
  const inside = kind.top ? '' : ' (inside another block)';
  return [`[${kind.kind}](blocks/${kind.kind}.md)${inside}`, kind.doc];
}

export function checkIndexPage(): string {
  const byGroup = Map.groupBy(checks, check => groupOf(check.code) ?? '');
  return page(
    '# Checks',
    'Errors must be mended, warnings should be, hints are worth a look. A check can be waived with a reason and a name, unless it is marked: ' +
      'errors of the language and of values stay, and so does what is on the safety list.',
    ...[...byGroup].flatMap(([group, list]) => [
      `## ${titles[group] ?? group}`,
      table(['check', 'what is wrong', 'severity', 'waiver'], list.map(checkRow)),
    ]),
    CAUTION,
  );
}

const titles: Readonly<Record<string, string>> = {
  language: 'Language',
  values: 'Values',
  place: 'Places',
  plant: 'Plant and product',
  method: 'Method',
  work: 'Work',
  time: 'Time',
  limits: 'Limits and terms',
  record: 'Records',
};

function checkRow({ code: name, title, severity, safety, waivable }: Check): readonly string[] {
  return [`[${code(name)}](checks/${name}.md)`, title, severity, safety ? 'none: safety' : waivable ? '' : 'none'];
}
