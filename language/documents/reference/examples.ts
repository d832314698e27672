/**
 * The examples of the block pages. They are cut out of the two common jobs, which check clean, with what these lack
 * added; so an example is always a part of a job that holds together.
 */
import type { Changes } from '../../checks/check.ts';
import { filesOf, waterJob } from '../../checks/example.ts';
import { format } from '../../format/format.ts';
import { createSyntax, type Syntax } from '../../grammar/services.ts';
import type { BlockKind } from '../../vocabulary/define.ts';
import { nameRules } from '../../vocabulary/names.ts';

/** What the common chemical job has no block of: it has to be somewhere to be shown. */
const ADDED: Changes = [
  '    wash-pad Pad {',
  `    product-store Store {
        distance: 900 m
        flow:     400 L/min
        holds:    6 m3
        bunded:   "steel tray, 110 % of the largest container"
    }
    wash-pad Pad {`,
  '        reopening: yes\n    }\n}\n',
  `        reopening: yes
    }
    build-up light {
        rate: 0.3 L/m2 of mix
    }
    build-up heavy {
        rate:   0.35 L/m2 of mix
        cycles: 2
        soak:   40 min
    }
}
`,
  'fleet {\n',
  `magnet Bar {
    width:  2.4 m
    height: 40 mm
}

fleet {
    standby: Bar
`,
  'crew Night {\n',
  `exclusion Lights {
    on:        Main from "04"
    what:      lights
    treatment: hand-clean
    stations:  table from m, to m, left m, right m
        320 321 0.3 0.3
        335 336 0.3 0.3
    note:      "centreline lights, flush with the pavement"
}

cost {
    paid-by:      area
    measured-as:  deposit area
    rate:         1.9 EUR/m2
    mobilisation: 8500 EUR
    water:        2.6 EUR/m3
    disposal:     38 EUR/m3
}

log FirstNight {
    work:    North
    date:    2031-04-07
    passes:  table machine, step, bay, from, to
        "Sweeper1" "Sweep" 1 23:25 23:50
        "Boom"     "Spray" 1 23:52 00:10
    product: 60 L
    by:      "crew leader"
}

crew Night {
`,
];

/** The whole texts from which the examples are cut, in the one layout. Both check clean; a test holds that. */
export function exampleTexts(syntax: Syntax = createSyntax(environment)): readonly string[] {
  const chemical = filesOf(ADDED)?.[0]?.text ?? '';
  return [chemical, waterJob].map(text => format(text, syntax));
}

const environment = { topLevelKinds: nameRules.topLevelKinds, rules: nameRules };

/** Blocks of a kind from a job, as they stand there, set against the left edge. Steps come all, in their order. */
export function exampleOf(kind: BlockKind): string {
  for (const text of exampleTexts()) {
    const found = blocksIn(text, kind.kind);
    if (found.length > 0) return (kind.variant ? found : found.slice(0, 1)).join('\n');
  }
  return '';
}

function blocksIn(text: string, kind: string): readonly string[] {
  const lines = text.split('\n');
  return lines.flatMap((line, first) => {
    const [, margin] = new RegExp(`^( *)${kind}(?: [^{]*)?\\{`).exec(line) ?? [];
    if (margin === undefined) return [];
    const last = line.endsWith('}') ? first : lines.indexOf(`${margin}}`, first);
    return [
      lines
        .slice(first, last + 1)
        .map(each => each.slice(margin.length))
        .join('\n'),
    ];
  });
}
