/**
 * Every construct of the language goes through the formatter unchanged in meaning, and formatting twice changes nothing:
 * over a text that holds every construct, the examples, and the examples of every check, the wrong ones too.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { AstUtils } from 'langium';
import { describe, expect, test } from 'vitest';
import { chemicalJob, filesOf, unchanged, waterJob } from '../../../language/checks/example.ts';
import { checks } from '../../../language/checks/registry.ts';
import { STATEMENTS } from '../../../language/documents/reference/statements.ts';
import { FORMS } from '../../../language/documents/reference/values.ts';
import { format } from '../../../language/format/format.ts';
import { reflection } from '../../../language/generated/ast.ts';
import type { BroomLexer } from '../../../language/grammar/lexer.ts';
import { createSyntax } from '../../../language/grammar/services.ts';
import { nameRules } from '../../../language/vocabulary/names.ts';
import { codesOf, jobOf } from '../../support/jobs.ts';
import { show } from '../grammar/helpers.ts';

const syntax = createSyntax({ topLevelKinds: nameRules.topLevelKinds, rules: nameRules });
const grammar = readFileSync(new URL('../../../language/grammar/broomline.langium', import.meta.url), 'utf8');

/** One text with everything that the grammar has. It makes no sense as a job. */
const EVERYTHING = `// all of it
broomline 1
use "a.broom"
use "b.broom" as B
runway Main like B.Main { length: 2450 m, end "04" { displaced: 120 m } }
runway Bare
deposit D {
    stations: table chainage m, left, note
              150  -9  "first"
              300 2031-04-07 far
              .5 23:30 − 2 ft
    without Lights, Signs
    require area >= 3 m2
}
method M(soak: time = 3 h 30 min, rate: application rate, kind: word) like B.Other(rate: 2 L/m2) {
    step Soak { at-least: soak, at-most: >= 6 m, a: <= 5, b: < 4, c: > 3, d: ≥ 2, e: ≤ 1 }
    speed: 8 km/h ± 10 %, other: 8 km/h +/- 1 km/h
    sum: a + b - c − d * e / f × g · h ^ 2
    list: 1:4, "text", 23:00, 2031-04-07, half swept, (1 + 2) * 3, f(1, b: 2), A.B.C, g()
}
require a = b and c != d or not (e ≠ f) because "so"
require a < b
require -a ^ -2 <= −3 or a >= +b
waive some-check on D.x while a > 3 because "why" by "A. Engineer" until 2031-06-30
waive other-check
stray: 1
runway Wrong {
    length: * 3
}
`;

/** The syntax tree and the comments: what formatting must not change. */
function meaning(text: string): string {
  const { comments } = (syntax.services.parser.Lexer as BroomLexer).layOut(text);
  const { document } = syntax.parseText(text);
  // A number without its leading digit is spelt out.
  const tree = document.items
    .map(show)
    .join('\n')
    .replace(/(value|version)=\./g, '$1=0.');
  return [tree, ...comments.map(comment => comment.image.trimEnd())].join('\n');
}

/** Formats a text and holds what it promises. */
function expectKept(text: string): string {
  const once = format(text, syntax);
  expect(format(once, syntax)).toBe(once);
  expect(meaning(once)).toBe(meaning(text));
  const problems = (of: string) => syntax.parseText(of).problems.map(({ code }) => code);
  expect(problems(once)).toEqual(problems(text));
  return once;
}

/** Other blanks where there are some, outside of texts and comments; line breaks stay. */
function untidy(text: string): string {
  return text
    .split('\n')
    .map((line, i) => {
      const code = /^(?:[^"/]|"(?:[^"\\]|\\.)*"|\/(?!\/))*/.exec(line)![0];
      const loose = code
        .split(/("(?:[^"\\]|\\.)*")/)
        .map((part, k) => (k % 2 === 1 ? part : part.replace(/ +/g, i % 2 === 0 ? ' ' : '\t  ')))
        .join('');
      return `${' '.repeat(i % 3)}${loose.trim()}${code === line ? '  '.repeat(i % 2) : ` ${line.slice(code.length)}`}`;
    })
    .join('\n');
}

describe('every construct', () => {
  test('the text that holds everything', () => {
    expectKept(EVERYTHING);
    expectKept(untidy(EVERYTHING));
  });

  test('holds everything: every kind of node, every part of it, every operator and keyword', () => {
    const { document } = syntax.parseText(EVERYTHING);
    const nodes = [document, ...AstUtils.streamAllContents(document)] as unknown as Record<string, unknown>[];
    const missing: string[] = [];
    const abstract = new Set(['Entry', 'Expression', 'Item', 'Named', 'Value']);
    for (const type of reflection.getAllTypes().filter(each => !abstract.has(each))) {
      const ofType = nodes.filter(node => node.$type === type);
      if (ofType.length === 0) missing.push(type);
      for (const name of Object.keys(reflection.getTypeMetaData(type).properties)) {
        const isSet = ofType.some(node => {
          const value = node[name];
          return Array.isArray(value) ? value.length > 0 : value !== undefined && value !== false;
        });
        if (!isSet) missing.push(`${type}.${name}`);
      }
    }
    expect(missing).toEqual([]);
    // Quoted in the grammar outside of comments: keywords, brackets and operators.
    const words = new Set(
      [...grammar.replace(/\/\*[\s\S]*?\*\//g, '').matchAll(/'([^'\s]+)'/g)].map(match => match[1]!),
    );
    words.delete('./types');
    expect(words.size).toBeGreaterThan(30);
    expect([...words].filter(word => !EVERYTHING.includes(word))).toEqual([]);
  });
});

describe('the examples', () => {
  const folder = new URL('../../../examples/', import.meta.url);
  const names = (readdirSync(folder, { recursive: true }) as string[]).filter(name => name.endsWith('.broom'));

  test.each(names)('%s: laid out, and laid out again from other blanks', name => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    expect(expectKept(text)).toBe(text);
    const loose = untidy(text);
    expect(loose).not.toBe(text);
    expect(expectKept(loose)).toBe(text);
  });
});

describe('the examples of the checks, the statements and the values', () => {
  const statements = STATEMENTS.flatMap(({ job }) => filesOf(job)!.map(file => file.text));
  const forms = FORMS.map(({ at: [heading, property], written }) => {
    const block = new RegExp(`^ *${heading} \\{[\\s\\S]*?\\}`, 'm').exec(chemicalJob)![0];
    return chemicalJob.replace(block, block.replace(new RegExp(`(\\b${property}: +).*`), `$1${written}`));
  });

  test('statements, values and the common jobs', () => {
    for (const text of [chemicalJob, waterJob, ...statements, ...forms]) expectKept(text);
  });

  /** Most good examples are one of the common jobs as it stands. */
  const known = new Map<string, Promise<readonly string[]>>();
  const problemsOf = (files: readonly { readonly name: string; readonly text: string }[]) => {
    const texts = Object.fromEntries(files.map(({ name, text }) => [name, text]));
    const key = JSON.stringify(texts);
    const problems = known.get(key) ?? jobOf(texts).then(codesOf);
    known.set(key, problems);
    return problems;
  };

  test.each(checks.map(check => [check.code, check] as const))('%s', async (_, { bad, good }) => {
    for (const example of [bad, good ?? unchanged(bad)]) {
      const files = filesOf(example)!;
      const formatted = files.map(file => ({ ...file, text: expectKept(file.text) }));
      // Not only the tree: the job is wrong in the same places, and in no others.
      if (files.some(file => file.unreadable)) continue;
      expect(await problemsOf(formatted)).toEqual(await problemsOf(files));
    }
  });
});

describe('blocks in one line', () => {
  test('stay as the author wrote them, short or long, and those over several lines stay open', () => {
    const long = `fleet { owner: "${'x'.repeat(120)}", spares: broom }\n`;
    for (const text of ['fleet { spares: broom, owner: "a" }\n', long, 'fleet { }\n'])
      expect(expectKept(text)).toBe(text);
    expect(expectKept('fleet { spares:broom,owner:"a"}\n')).toBe('fleet { spares: broom, owner: "a" }\n');
    expect(expectKept('fleet {\nspares: broom }\n')).toBe('fleet {\n    spares: broom\n}\n');
  });

  test('nested ones too', () => {
    const text = 'runway Main { length: 2450 m, end "04" { displaced: 120 m }, end "22" }\n';
    expect(expectKept(text)).toBe(text);
  });
});
