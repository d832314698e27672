/** The page on statements: what a file and a block are made of besides properties. */
import type { Example } from '../../checks/check.ts';
import { chemicalJob } from '../../checks/example.ts';
import { STANDING } from '../../job/assemble.ts';
import { code, fenced, listed, page } from './markdown.ts';

export function statementsPage(): string {
  return page(
    '# Statements',
    'A line is a statement. It ends with the line, except after a comma, after an operator or inside brackets. Between `{` and `}` commas may part ' +
      'the statements of a line.',
    ...STATEMENTS.flatMap(({ heading, text, shown }) => [`## ${heading}`, text, fenced(shownText(shown))]),
  );
}

/** One statement: what it does, and how it looks in a job that checks clean. */
export interface Statement {
  readonly heading: string;
  readonly text: string;
  /** Stretches of the job, in order. */
  readonly shown: readonly string[];
  /** The job that they are a part of; a test checks it. */
  readonly job: Example;
}

/** The stretches as they are shown, with a mark where something is left out. */
export function shownText(parts: readonly string[]): string {
  return parts.map(part => part.replace(/^\n+|\s+$/g, '')).join('\n…\n');
}

/** A statement shown as what takes the place of `from` in the common job. */
function inPlaceOf(from: string, shown: string, heading: string, text: string): Statement {
  return { heading, text, shown: [shown], job: [from, shown] };
}

const PRODUCT = /^product Detergent \{[\s\S]*?^\}\n/m.exec(chemicalJob)?.[0] ?? '';
const USES = 'use "products.broom"';
const WITHOUT = 'method NoPreWet like BroomAndRinse {\n    without PreWet\n}\n';
const REQUIRE = 'require North.product <= 6000 L because "one delivery"\n';
const WAIVE = `waive no-spare-broom on North
    because "the depot is on the airport, 10 min away"
    by "A. Engineer"
    until 2031-06-30
`;

export const STATEMENTS: readonly Statement[] = [
  inPlaceOf(
    'broomline 1\n',
    'broomline 1\n// A comment runs to the end of its line.\n/* This one ends where it says. */\n',
    'The file',
    'A file begins with the version of the language. What follows are blocks and statements, in any order. A file with a job block is a job; one ' +
      'without is a library.',
  ),
  inPlaceOf(
    'water-truck Tanker {\n    width:         4 m\n    tank:          12000 L\n    flow:          60 to 2000 L/min\n    working-speed: 3 to 15 km/h\n}',
    'water-truck Tanker { width: 4 m, tank: 12000 L, flow: 60 to 2000 L/min, working-speed: 3 to 15 km/h }',
    'Blocks',
    'A block has a kind, mostly a name, and a body of properties and further blocks. A short one may stand in one line. Names are letters, digits ' +
      'and hyphens; they are seen in the whole file.',
  ),
  inPlaceOf(
    '    stations: table chainage m, left m, right m\n        150   5    5\n        300   6    6\n        750   4    5\n',
    '    stations: table chainage m, left ft, right ft\n        150   16   16\n        300   20   20\n        750   13   16\n',
    'Tables',
    'A table names its columns, each with its unit, and has one row a line.',
  ),
  {
    heading: 'use',
    text:
      'Brings in what another file defines, by a path from this file inside the workspace. `as` gives it a prefix: `District.Broom1`. What that file ' +
      `brings in itself is not passed on. Without a prefix, ${listed([...STANDING].map(code))} of that file hold here as if they stood here.`,
    shown: [USES],
    job: `${chemicalJob.replace('broomline 1\n', `broomline 1\n${USES}\n`).replace(PRODUCT, '')}// file: products.broom\nbroomline 1\n\n${PRODUCT}`,
  },
  inPlaceOf(
    'broom Broom2 like Broom1 {\n}',
    'broom Broom2 like Broom1 {\n    pattern: 60 mm\n}',
    'like',
    'A block starts from another of its kind, and says what differs. A property takes the place of the inherited one, lists and tables whole; ' +
      'expressions are evaluated again with the new values. A step or role of the same name is changed in its place.',
  ),
  {
    heading: 'without',
    text: 'Leaves out a step, a role or another inner block of the block that this one is like.',
    shown: [WITHOUT],
    job: [
      '\nwork North {\n',
      `\n${WITHOUT}\nwork North {\n`,
      'BroomAndRinse(soak: 40 min)\n',
      'NoPreWet(soak: 40 min)\n',
    ],
  },
  {
    heading: 'Parameters and roles',
    text:
      'A method may take parameters, each with its kind of quantity and perhaps a default; a work gives them by name. Roles say what ' +
      'machines the method needs, and a work binds them: the role is the property, the machine its value.',
    shown: [
      'method BroomAndRinse(soak: time = 40 min, rinse: application rate = 3 L/m2) {',
      '    role applicator {\n        machine: sprayer\n        width:   >= 6 m\n    }',
      '        rate:          rinse of water\n',
      '    method:     BroomAndRinse(soak: 40 min, rinse: 3.2 L/m2)\n',
      '    applicator: Boom\n',
    ],
    job: [
      'method BroomAndRinse(soak: time = 40 min) {',
      'method BroomAndRinse(soak: time = 40 min, rinse: application rate = 3 L/m2) {',
      '        rate:          3 L/m2\n',
      '        rate:          rinse of water\n',
      'BroomAndRinse(soak: 40 min)\n',
      'BroomAndRinse(soak: 40 min, rinse: 3.2 L/m2)\n',
    ],
  },
  {
    heading: 'require',
    text:
      "The author's own demand on what is computed. What does not hold is an error, with the reason. `broomline derive` lists the names that may be used. " +
      'Inside a block the names are those of that block.',
    shown: [REQUIRE],
    job: ['\ncrew Night {', `\n${REQUIRE}\ncrew Night {`],
  },
  {
    heading: 'waive',
    text:
      'Keeps a finding and marks it as waived, with who answers for it. `on` names the block it is about, `while` says how long it may be so, `until` when it ' +
      'has to be looked at again; dates are judged on the date of the job. A waiver without a reason is an error, one that matches nothing a warning. ' +
      'Errors of the language and the safety list are not to be waived, and a waiver of a library does not reach the jobs.',
    shown: [WAIVE],
    job: ['    spares:    broom, nozzles\n', '    spares:    nozzles\n', '\ncrew Night {', `\n${WAIVE}\ncrew Night {`],
  },
];
