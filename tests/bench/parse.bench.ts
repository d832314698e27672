/**
 * Our syntax services beside Langium's own on the same 2,000 lines, in one run: `node tests/bench/parse.bench.ts`.
 * Warm, in turns, medians.
 *
 * Langium alone can't read the language: its lines need the layout pass. So the other side gets the lexer with its
 * layout, and everything else as Langium has it: parser with its recovery, scopes, linker, index.
 */
import { URI } from 'langium';
import { format } from '../../language/format/format.ts';
import { syntax, TOP_KINDS } from '../unit/grammar/helpers.ts';
import { SKETCH } from '../unit/grammar/sketch.ts';
import { build, plainLangium } from './langium.ts';

/** The sketch over and over, each copy with names of its own. */
function copies(lines: number): string {
  const body = SKETCH.slice(SKETCH.indexOf('runway'));
  const each = body.split('\n').length;
  return Array.from({ length: Math.ceil(lines / each) }, (_, k) =>
    body.replace(/\b(Main|NorthTouchdown|BroomAndRinse|North|Nights|B2)\b/g, `$1${k}`),
  ).join('\n');
}

const text = copies(2000);
const slip = text.replace('bays:       3', 'bays        3 (');
const plain = plainLangium(TOP_KINDS);
const uri = URI.parse('memory:/bench.broom');

const contenders: Readonly<Record<string, () => unknown>> = {
  'parse, lay out, link: Broomline': () => build(syntax.shared, text),
  'parse, lay out, link: Langium with our lexer': () => build(plain, text),
  'parse, lay out, link: Broomline, one statement broken': () => build(syntax.shared, slip),
  'parse, lay out: Broomline': () => syntax.parseText(text),
  'parse, lay out: Langium with our lexer': () => plain.workspace.LangiumDocumentFactory.fromString(text, uri),
  'format: Broomline': () => format(text, syntax),
};

const ROUNDS = 15;
const times = new Map<string, number[]>(Object.keys(contenders).map(name => [name, []]));
for (let round = -5; round < ROUNDS; round++) {
  for (const [name, run] of Object.entries(contenders)) {
    const start = performance.now();
    await run();
    if (round >= 0) times.get(name)!.push(performance.now() - start);
  }
}
console.log(`${text.split('\n').length} lines`);
for (const [name, all] of times) {
  const sorted = all.sort((a, b) => a - b);
  console.log(`${sorted[ROUNDS >> 1]!.toFixed(1).padStart(8)} ms  ${name}`);
}
