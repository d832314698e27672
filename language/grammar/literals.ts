/** Slips within numbers, texts and single characters: what they mean is known, or at least what to write instead. */
import type { LexerResult } from 'langium';
import { type Layout, OPERATORS, type Statement } from './layout.ts';
import { problem, type SyntaxProblem } from './problems.ts';
import { isClosed, textOf, type Token } from './tokens.ts';

type LexingError = LexerResult['errors'][number];

/** All of them, in no particular order. `comments` are the hidden tokens, `errors` the characters no token begins with. */
export function literalProblems(
  text: string,
  layout: Layout,
  comments: readonly Token[],
  errors: readonly LexingError[],
): SyntaxProblem[] {
  const found: SyntaxProblem[] = [];
  for (const error of errors) found.push(strangeCharacters(text, error));
  hiddenCharacters(text, found);
  const last = comments[comments.length - 1];
  if (last?.image.startsWith('/*') && (!last.image.endsWith('*/') || last.image.length < 4)) {
    const message = 'This comment has no end, so all that follows is part of it. Add `*/` where it ends.';
    found.push(problem('comment-not-closed', last.startOffset, last.startOffset + 2, message, { insert: '*/' }));
  }
  const rows = rowMarks(layout);
  const { tokens } = layout;
  for (let i = 0; i < tokens.length; i++) {
    const { name } = tokens[i]!.tokenType;
    if (name === 'STRING') quotes(tokens[i]!, found);
    else if (name === 'NUMBER') numbers(text, tokens, i, rows[i] === 1, found);
    else if (name === 'RATIO') clocks(tokens[i]!, found);
  }
  return found;
}

function endOf(token: Token): number {
  return token.endOffset! + 1;
}

/** 1 where a token is a cell of a table: there numbers stand side by side. */
function rowMarks(layout: Layout): Uint8Array {
  const marks = new Uint8Array(layout.tokens.length);
  const visit = (statements: readonly Statement[]): void => {
    for (const statement of statements) {
      for (const row of statement.rows) marks.fill(1, row.first, row.last + 1);
      visit(statement.body);
    }
  };
  visit(layout.statements);
  return marks;
}

function quotes(token: Token, found: SyntaxProblem[]): void {
  const { image, startOffset } = token;
  if (image[0] !== '"') {
    const message = 'Texts stand between straight quotes. Write `"` in place of the typographic quotes.';
    const data = { replace: `"${textOf(image).replace(/[\\"]/g, '\\$&')}"` };
    found.push(problem('curly-quotes', startOffset, endOf(token), message, data));
  }
  if (!isClosed(image)) {
    const message = 'This text has no closing quote, so it runs to the end of the line. Add `"` where the text ends.';
    found.push(problem('string-not-closed', startOffset, endOf(token), message, { insert: '"' }));
  }
}

function numbers(text: string, tokens: readonly Token[], i: number, inRow: boolean, found: SyntaxProblem[]): void {
  const token = tokens[i]!;
  const next = tokens[i + 1];
  if (next === undefined) return;
  const touching = next.startOffset === endOf(token);
  if (next.tokenType.name === ',' && touching) commas(text, tokens, i, found);
  else if (next.tokenType.name === 'NUMBER') blanks(text, tokens, i, inRow, found);
  else if (next.tokenType.name === '.' && touching) {
    const message = `Digits are missing after the point. Write \`${token.image}\` or \`${token.image}.0\`.`;
    found.push(problem('missing-digits', token.startOffset, endOf(next), message, { replace: token.image }));
  }
}

/** `1,5 m`: two numbers and no blank after the comma. A list of three or more without blanks is a list, except in threes. */
function commas(text: string, tokens: readonly Token[], i: number, found: SyntaxProblem[]): void {
  if (glued(tokens, i - 1)) return;
  let last = i;
  while (glued(tokens, last + 1)) last += 2;
  if (last === i) return;
  const parts = [];
  for (let k = i; k <= last; k += 2) parts.push(tokens[k]!.image);
  const offset = tokens[i]!.startOffset;
  const end = endOf(tokens[last]!);
  const grouped = parts.length > 2 && parts.slice(1).every(part => /^\d{3}$/.test(part));
  if (grouped) {
    const digits = parts.join('');
    const message = `Digits are written without commas between them, because a comma parts the items of a list. Write \`${digits}\`.`;
    found.push(problem('digits-apart', offset, end, message, { replace: digits }));
  } else if (parts.length === 2 && parts.every(part => /^\d+$/.test(part))) {
    const point = parts.join('.');
    const message = `\`${text.slice(offset, end)}\` reads as two numbers, because a comma parts the items of a list. Write \`${point}\`, or \`${parts.join(', ')}\` for two.`;
    found.push(problem('decimal-comma', offset, end, message, { replace: point, list: parts.join(', ') }));
  }
}

/** Whether the comma at `i` touches numbers on both sides. */
function glued(tokens: readonly Token[], i: number): boolean {
  const [before, comma, after] = [tokens[i - 1], tokens[i], tokens[i + 1]];
  return (
    comma?.tokenType.name === ',' &&
    before?.tokenType.name === 'NUMBER' &&
    after?.tokenType.name === 'NUMBER' &&
    endOf(before) === comma.startOffset &&
    endOf(comma) === after.startOffset
  );
}

/** `1 000 m`. In a table row blanks part the cells, so there only a blank that holds digits together counts. */
function blanks(text: string, tokens: readonly Token[], i: number, inRow: boolean, found: SyntaxProblem[]): void {
  const before = tokens[i - 1];
  if (before?.tokenType.name === 'NUMBER' && isGroup(text, before, tokens[i]!, inRow)) return;
  let last = i;
  while (tokens[last + 1]?.tokenType.name === 'NUMBER' && isGroup(text, tokens[last]!, tokens[last + 1]!, inRow)) last++;
  if (last === i) return;
  const digits = tokens.slice(i, last + 1).map(token => token.image).join(''); // biome-ignore format: short
  const offset = tokens[i]!.startOffset;
  const message = `Digits are written without blanks between them. Write \`${digits}\`.`;
  found.push(problem('digits-apart', offset, endOf(tokens[last]!), message, { replace: digits }));
}

function isGroup(text: string, left: Token, right: Token, inRow: boolean): boolean {
  if (!/^\d+$/.test(left.image) || !/^\d{3}(\.\d+)?$/.test(right.image)) return false;
  const gap = text.slice(endOf(left), right.startOffset);
  return inRow ? /^[\u00A0\u2007\u2009\u202F]$/.test(gap) : left.image.length <= 3 && /^[ \u00A0\u2007\u2009\u202F]$/.test(gap);
}

/** `7:00` reads as a ratio; no ratio has a second part of `00` to `09`. */
function clocks(token: Token, found: SyntaxProblem[]): void {
  if (!/^\d:0\d$/.test(token.image)) return;
  const message = `A time of day has two digits for the hour. Write \`0${token.image}\`.`;
  found.push(problem('clock-digits', token.startOffset, endOf(token), message, { replace: `0${token.image}` }));
}

/** Characters that steer the direction of text, or have no width, can make a line read as what it is not. */
function hiddenCharacters(text: string, found: SyntaxProblem[]): void {
  // Cheap first look: none of them is below U+200B.
  const pattern = /[\u200B-\u200F\u2028\u2029\u202A-\u202E\u2060-\u2069]+/g;
  for (let match = pattern.exec(text); match !== null && found.length < 1000; match = pattern.exec(text)) {
    const code = match[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
    const message = `An invisible character (U+${code}) stands here; it can make a line read as what it is not. Remove it.`;
    found.push(problem('hidden-character', match.index, match.index + match[0].length, message, { remove: match[0] }));
  }
}

const INSTEAD: Readonly<Record<string, string>> = {
  "'": 'Texts stand between double quotes, and feet are written `ft`.',
  ';': 'A line ends a statement; in one line, a comma parts statements. Remove the semicolon.',
  '#': 'A comment starts with `//`.',
  '%': 'A percentage follows a number: `5 %`.',
  '°': 'A degree sign follows a number: `20 °C`, `30 °`.',
  '–': 'A minus is written `-`; for a range write `to`.',
  '—': 'A minus is written `-`; for a range write `to`.',
  '…': 'For a range write `to`.',
  '[': 'Lists need no brackets: write the items with commas between them.',
  ']': 'Lists need no brackets: write the items with commas between them.',
  '≈': 'Write `about`.',
  '÷': 'Division is written `/`.',
  '&': 'Write `and`.',
  '|': 'Write `or`.',
  '!': 'Write `not`, or `!=` for “differs from”.',
};

function strangeCharacters(text: string, error: LexingError): SyntaxProblem {
  const end = Math.max(error.offset + 1, error.offset + error.length);
  const characters = text.slice(error.offset, Math.min(end, error.offset + 12));
  if (/^[\u200B-\u200F\u2028\u2029\u202A-\u202E\u2060-\u2069]/.test(characters)) {
    const message = 'An invisible character stands here; it can make a line read as what it is not. Remove it.';
    return problem('hidden-character', error.offset, end, message, { remove: characters });
  }
  const shown = [...characters].map(c => (/[\p{C}\p{Z}]/u.test(c) ? `U+${c.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}` : c)).join(''); // biome-ignore format: one thought
  const advice = INSTEAD[characters[0]!] ?? 'Remove it, or put it in a text or a comment.';
  return problem('strange-character', error.offset, end, `\`${shown}\` means nothing here. ${advice}`, { found: characters });
}

/** Whether a token is an operator between two values. */
export function isOperator(token: Token | undefined): boolean {
  return token !== undefined && OPERATORS.has(token.tokenType.name);
}
