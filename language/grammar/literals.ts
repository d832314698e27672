/** Slips within numbers, texts and single characters: what they mean is known, or at least what to write instead. */
import type { LexerResult } from 'langium';
import { problem, type SyntaxProblem } from './problems.ts';
import { isClosed, type Token, textOf } from './tokens.ts';

type LexingError = LexerResult['errors'][number];

/** All of them, in no particular order. `comments` are the hidden tokens, `errors` the characters no token begins with. */
export function literalProblems(
  text: string,
  tokens: readonly Token[],
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
  for (const token of tokens) {
    if (token.tokenType.name === 'STRING') quotes(token, found);
    else if (token.tokenType.name === 'RATIO') clocks(token, found);
  }
  return found;
}

function endOf(token: Token): number {
  return token.endOffset! + 1;
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

/**
 * Reads numbers as they are meant: `1,5` as 1.5, `1 000` as 1000, `1.` as 1. Each is a problem all the same, but one:
 * nothing that uses the number goes wrong as well. The tokens keep their place in the text.
 */
export function mendNumbers(text: string, tokens: readonly Token[]): { tokens: Token[]; problems: SyntaxProblem[] } {
  const out: Token[] = [];
  const problems: SyntaxProblem[] = [];
  let inRow = false;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i]!;
    const { name } = token.tokenType;
    if (i === 0 || token.startLine! > tokens[i - 1]!.endLine!)
      inRow = name === 'NUMBER' || name === '-' || name === '−';
    const merged =
      name === 'NUMBER' ? (commas(text, tokens, i) ?? blanks(text, tokens, i, inRow) ?? point(tokens, i)) : undefined;
    if (merged === undefined) out.push(token);
    else {
      const last = tokens[merged.last]!;
      const { endOffset, endLine, endColumn } = last;
      out.push({ ...token, image: merged.image, endOffset: endOffset!, endLine: endLine!, endColumn: endColumn! });
      problems.push(merged.problem);
      i = merged.last;
    }
  }
  return { tokens: out, problems };
}

interface Merged {
  /** Index of the last token that belongs to the number. */
  readonly last: number;
  readonly image: string;
  readonly problem: SyntaxProblem;
}

/** `1.` : a point without digits after it. */
function point(tokens: readonly Token[], i: number): Merged | undefined {
  const token = tokens[i]!;
  const next = tokens[i + 1];
  if (next?.tokenType.name !== '.' || next.startOffset !== endOf(token)) return undefined;
  const message = `Digits are missing after the point. Write \`${token.image}\` or \`${token.image}.0\`.`;
  const data = { replace: token.image };
  return {
    last: i + 1,
    image: token.image,
    problem: problem('missing-digits', token.startOffset, endOf(next), message, data),
  };
}

/** `1,5 m`: two numbers and no blank after the comma. Three or more without blanks are a list, except groups of three digits. */
function commas(text: string, tokens: readonly Token[], i: number): Merged | undefined {
  if (glued(tokens, i - 1)) return undefined;
  let last = i;
  while (glued(tokens, last + 1)) last += 2;
  if (last === i) return undefined;
  const parts: string[] = [];
  for (let k = i; k <= last; k += 2) parts.push(tokens[k]!.image);
  const offset = tokens[i]!.startOffset;
  const end = endOf(tokens[last]!);
  if (parts.length > 2 && parts.slice(1).every(part => /^\d{3}(\.\d+)?$/.test(part))) {
    const image = parts.join('');
    const message = `Digits are written without commas between them, because a comma parts the items of a list. Write \`${image}\`.`;
    return { last, image, problem: problem('digits-apart', offset, end, message, { replace: image }) };
  }
  if (parts.length !== 2 || !parts.every(part => /^\d+$/.test(part))) return undefined;
  const image = parts.join('.');
  const list = parts.join(', ');
  const message = `\`${text.slice(offset, end)}\` reads as two numbers, because a comma parts the items of a list. Write \`${image}\`, or \`${list}\` for two.`;
  return { last, image, problem: problem('decimal-comma', offset, end, message, { replace: image, list }) };
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
function blanks(text: string, tokens: readonly Token[], i: number, inRow: boolean): Merged | undefined {
  let last = i;
  while (
    tokens[last + 1]?.tokenType.name === 'NUMBER' &&
    isGroup(text, tokens[last]!, tokens[last + 1]!, last === i, inRow)
  )
    last++;
  if (last === i) return undefined;
  const image = tokens.slice(i, last + 1).reduce((digits, token) => digits + token.image, '');
  const message = `Digits are written without blanks between them. Write \`${image}\`.`;
  return {
    last,
    image,
    problem: problem('digits-apart', tokens[i]!.startOffset, endOf(tokens[last]!), message, { replace: image }),
  };
}

function isGroup(text: string, left: Token, right: Token, first: boolean, inRow: boolean): boolean {
  if (!(first ? /^\d{1,3}$/ : /^\d{3}$/).test(left.image) || !/^\d{3}(\.\d+)?$/.test(right.image)) return false;
  return (inRow ? /^[\u00A0\u2007\u2009\u202F]$/ : /^[ \u00A0\u2007\u2009\u202F]$/).test(
    text.slice(endOf(left), right.startOffset),
  );
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
  const shown = [...characters]
    .map(c => (/[\p{C}\p{Z}]/u.test(c) ? `U+${c.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}` : c))
    .join('');
  const advice = INSTEAD[characters[0]!] ?? 'Remove it, or put it in a text or a comment.';
  return problem('strange-character', error.offset, end, `\`${shown}\` means nothing here. ${advice}`, {
    found: characters,
  });
}
