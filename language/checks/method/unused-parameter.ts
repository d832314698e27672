import type { BlockHead } from '../../vocabulary/given.ts';
import { kinds, propertyOf } from '../../vocabulary/index.ts';
import { check, type Edit } from '../check.ts';
import { fix, refOf } from '../help.ts';

export default check({
  code: 'unused-parameter',
  title: 'A method never uses one of its parameters',
  severity: 'hint',
  why: 'A work that gives a value for such a parameter changes nothing, but whoever reads the work takes the value for what is done. Often the step that should use it still has a number of its own.',
  source: 'tool-policy',
  bad: [
    'method BroomAndRinse(soak: time = 40 min) {',
    'method BroomAndRinse(soak: time = 40 min, scrub: time = 5 min) {',
  ],
  *find({ job, textOf }) {
    const text = textOf(job.file);
    const code = withoutTexts(text);
    const methods = job.blocks.methods.filter(method => !method.fromLibrary && method.place.file === job.file);
    const isLike = (method: BlockHead) => /\blike\s/.test(headOf(code, method.place.start));
    for (const method of methods) {
      // What the method behind it does with a parameter that is declared anew here may stand in another file.
      if (isLike(method)) continue;
      // A method that is like this one may use the parameter in a step that it overrides.
      const bodies = methods
        .filter(each => each === method || isLike(each))
        .map(({ place }) => ({ start: bodyOf(code, place.start), end: place.end }));
      for (const parameter of parametersIn(code, method.place.start, method.place.end)) {
        if (bodies.some(body => isUsed(code, parameter.name, body.start, body.end))) continue;
        const arguments_ = argumentsFor(code, method.name, parameter.name, method.place.start);
        const edits: readonly Edit[] = [parameter.cut, ...arguments_].map(([start, end]) => ({
          place: { file: job.file, start, end },
          text: '',
        }));
        yield {
          message: `The method ${method.name} never uses its parameter ${parameter.name}: a work that gives it changes nothing. Use it in a step, or remove it.`,
          place: { file: job.file, start: parameter.start, end: parameter.end },
          about: refOf(method),
          unused: true,
          // Calls in other files would be left with an argument that nobody takes.
          fixes: fix(`Remove the parameter ${parameter.name}`, edits, !job.isLibrary),
        };
      }
    }
  },
});

const NAME = /[A-Za-zÀ-ɏ_][0-9A-Za-zÀ-ɏ_]*(?:-[0-9A-Za-zÀ-ɏ_]+)*/g;

/** The text with blanks in the place of comments and texts in quotes: every other character stays where it is. */
function withoutTexts(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*|"(?:[^"\\\n]|\\.)*"/g, found => found.replace(/[^\n]/g, ' '));
}

/** Offset behind the brace that opens a block. */
function bodyOf(code: string, start: number): number {
  const brace = code.indexOf('{', start);
  return brace < 0 ? code.length : brace + 1;
}

function headOf(code: string, start: number): string {
  return code.slice(start, bodyOf(code, start));
}

type Span = readonly [start: number, end: number];

interface Parameter {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  /** What goes with it: its comma, or the brackets where it is alone. */
  readonly cut: Span;
}

function parametersIn(code: string, start: number, end: number): readonly Parameter[] {
  const open = start + headOf(code, start).indexOf('(');
  if (open < start) return [];
  return itemsIn(code, open, end).flatMap(({ name, start: from, end: to, cut }) =>
    name === undefined ? [] : [{ name, start: from, end: to, cut }],
  );
}

/** Arguments of that name wherever the method is called. */
function argumentsFor(code: string, method: string, name: string, declared: number): readonly Span[] {
  const found: Span[] = [];
  for (const match of code.matchAll(NAME)) {
    const open = match.index + match[0].length;
    if (match[0] !== method || code[open] !== '(' || code.slice(declared, match.index).trim() === 'method') continue;
    for (const item of itemsIn(code, open, code.length)) if (item.name === name) found.push(item.cut);
  }
  return found;
}

/** What stands between brackets, parted by commas: `name: …`. */
function itemsIn(
  code: string,
  open: number,
  most: number,
): readonly { readonly name: string | undefined; readonly start: number; readonly end: number; readonly cut: Span }[] {
  const commas: number[] = [];
  let close = open + 1;
  for (let depth = 1; close < most; close += 1) {
    const letter = code[close];
    if (letter === '(') depth += 1;
    if (letter === ')') depth -= 1;
    if (depth === 0) break;
    if (letter === ',' && depth === 1) commas.push(close);
  }
  const borders = [open, ...commas, close];
  return borders.slice(1).map((border, i) => {
    const before = borders[i]!;
    const item = code.slice(before + 1, border);
    const start = before + 1 + (item.length - item.trimStart().length);
    const name = /^([^\s:,()]+)\s*:/.exec(item.trimStart())?.[1];
    const cut: Span =
      borders.length === 2
        ? [open, close + 1]
        : i === 0
          ? [start, border + 1 + /^\s*/.exec(code.slice(border + 1))![0].length]
          : [before, border - (item.length - item.trimEnd().length)];
    return { name, start, end: start + (name?.length ?? 0), cut };
  });
}

/** Whether a name stands in a block other than as the name of a property, behind a dot, or as one of a property's own words. */
function isUsed(code: string, name: string, start: number, end: number): boolean {
  const body = code.slice(start, end);
  for (const { 0: word, index } of body.matchAll(NAME)) {
    if (word !== name || body[index - 1] === '.' || /^\s*:/.test(body.slice(index + word.length))) continue;
    const line = body.slice(body.lastIndexOf('\n', index) + 1, index);
    const property = /([\w-]+)\s*:[^:]*$/.exec(line)?.[1];
    if (property === undefined || !takesWords(property, name)) return true;
  }
  return false;
}

/** Whether a word may be one of a property's own: the `soak` of `does: soak` is no parameter. */
function takesWords(property: string, word: string): boolean {
  return ['method', 'step', 'role', 'build-up'].some(each => {
    const kind = kinds.get(each);
    const type = kind && propertyOf(kind, property)?.property.type;
    return type?.is === 'words' && (type.words as readonly string[]).includes(word);
  });
}
