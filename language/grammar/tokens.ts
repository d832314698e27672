/**
 * The tokens of Broomline: how the words of the grammar become token types, and what a text literal means.
 *
 * UNIT matches only right after a number, or after a column's name in the header of a table. So no unit can clash with
 * a name: `m`, `L`, `h` and `min` stay usable as names of properties and blocks.
 */
import {
  type CstNode,
  DefaultTokenBuilder,
  DefaultValueConverter,
  type Grammar,
  type GrammarAST,
  type LexerResult,
  type TokenBuilderOptions,
  type ValueType,
} from 'langium';

export type Token = LexerResult['tokens'][number];
export type TokenType = Token['tokenType'];
export type TokenTypes = Readonly<Record<string, TokenType>>;

/** What the lexer needs to know of units; language/units provides it. */
export interface UnitTable {
  /** Length of the longest unit that starts at `offset`, 0 when none does. */
  matchUnit(text: string, offset: number): number;
  /** Codes of all characters a unit can start with. */
  unitStartChars(): number[];
}

/** Words with a meaning in expressions and tables; they can't be names. */
export const RESERVED: ReadonlySet<string> = new Set(['and', 'or', 'not', 'table']);

/** How far back a column's unit looks for the word `table`: the tokens of a header of about thirty columns. */
const HEADER_REACH = 100;

export class BroomTokenBuilder extends DefaultTokenBuilder {
  private readonly units: UnitTable;

  constructor(units: UnitTable) {
    super();
    this.units = units;
  }

  override buildTokens(grammar: Grammar, options?: TokenBuilderOptions): TokenType[] {
    const tokens = super.buildTokens(grammar, options) as TokenType[];
    const named = (name: string) => tokens.find(token => token.name === name)!;
    for (const name of ['SIGN', 'ROW', 'SEP', 'BROKEN']) {
      // Made by the layout pass only: whatever the text holds, these never match it.
      Object.assign(named(name), { PATTERN: () => null, START_CHARS_HINT: ['\u0000'], LINE_BREAKS: false });
    }
    const unit = named('UNIT');
    Object.assign(unit, {
      PATTERN: this.unitPattern(named('NUMBER')),
      // Without the hint every character of the text would try this pattern first.
      START_CHARS_HINT: this.units.unitStartChars(),
      LINE_BREAKS: false,
    });
    return [unit, ...tokens.filter(token => token !== unit)];
  }

  private unitPattern(number: TokenType) {
    const { units } = this;
    return (text: string, offset: number, matched: Token[]) => {
      const previous = matched[matched.length - 1];
      if (previous === undefined) return null;
      const place = isNumber(matched, number) || (isWord(previous) && isColumnName(matched));
      if (!place || !onlyBlanks(text, previous.endOffset! + 1, offset)) return null;
      const length = units.matchUnit(text, offset);
      if (length === 0 || goesOn(text, offset, offset + length)) return null;
      return [text.slice(offset, offset + length)] as unknown as RegExpExecArray;
    };
  }
}

/** A number, or one whose point has no digits after it: `1. m`. */
function isNumber(matched: readonly Token[], number: TokenType): boolean {
  const last = matched[matched.length - 1]!;
  if (last.tokenType === number) return true;
  const before = matched[matched.length - 2];
  return last.image === '.' && before?.tokenType === number && before.endOffset! + 1 === last.startOffset;
}

/** Whether a token can be a name: an ID, or a keyword that is not reserved. */
export function isWord(token: Token | undefined): boolean {
  if (token === undefined) return false;
  const { name } = token.tokenType;
  return name === 'ID' || (isLetter(name.charCodeAt(0)) && name === token.image && !RESERVED.has(name));
}

/** `table a m, b` : the last token is a column's name when `table` or a comma stands before it, back to `table`. */
function isColumnName(matched: readonly Token[]): boolean {
  for (let i = matched.length - 1, steps = 0; i > 0 && steps < HEADER_REACH; steps++) {
    const before = matched[i - 1]!.tokenType.name;
    if (!isWord(matched[i])) return false;
    if (before === 'table') return true;
    if (before !== ',') return false;
    i -= 2;
    if (matched[i]?.tokenType.name === 'UNIT') i--;
  }
  return false;
}

function onlyBlanks(text: string, from: number, to: number): boolean {
  for (let i = from; i < to; i++) {
    const c = text.charCodeAt(i);
    if (c !== 32 && c !== 9 && c !== 0xa0 && c !== 0x202f && c !== 0x2009) return false;
  }
  return true;
}

/** A unit ends where its word ends: `3 to` holds no tonne, `3 m-line` no metre. */
function goesOn(text: string, start: number, end: number): boolean {
  if (!isWordPart(text.charCodeAt(end - 1))) return false;
  const next = text.charCodeAt(end);
  if (isWordPart(next)) return true;
  // `5 m-2` would be a power to some; a hyphen binds words, so `m-2` is read as one word there too.
  return next === 45 && isLetter(text.charCodeAt(end + 1)) && end > start;
}

function isLetter(c: number): boolean {
  return (c >= 65 && c <= 90) || (c >= 97 && c <= 122) || c === 95 || (c >= 0xc0 && c <= 0x24f);
}

function isWordPart(c: number): boolean {
  return isLetter(c) || (c >= 48 && c <= 57);
}

/** Text literals: `\"` and `\\` are escapes; any other backslash stands for itself, so a path is seen as written. */
export class BroomValueConverter extends DefaultValueConverter {
  protected override runConverter(rule: GrammarAST.AbstractRule, input: string, cstNode: CstNode): ValueType {
    return rule.name === 'STRING' ? textOf(input) : super.runConverter(rule, input, cstNode);
  }
}

/** The text between the quotes of a STRING token; a missing closing quote is forgiven. */
export function textOf(image: string): string {
  const inner = image.slice(1, isClosed(image) ? -1 : undefined);
  return inner.includes('\\') ? inner.replace(/\\(["\\])/g, '$1') : inner;
}

/** Whether a STRING token has its closing quote. */
export function isClosed(image: string): boolean {
  if (image.length < 2) return false;
  if (image[0] !== '"') return /["\u201C\u201D\u201E\u201F\u00AB\u00BB]$/.test(image);
  if (!image.endsWith('"')) return false;
  let escapes = 0;
  for (let i = image.length - 2; i > 0 && image[i] === '\\'; i--) escapes++;
  return escapes % 2 === 0;
}

/** A token that stands in no text: the parser takes it, the syntax tree leaves it out. */
export function virtualToken(type: TokenType, after: Token | undefined, image = ''): Token {
  const offset = after === undefined ? 0 : after.endOffset! + 1;
  const line = after?.endLine ?? 1;
  const column = (after?.endColumn ?? 0) + 1;
  return {
    image,
    startOffset: offset,
    endOffset: offset,
    startLine: line,
    endLine: line,
    startColumn: column,
    endColumn: column,
    tokenTypeIdx: type.tokenTypeIdx!,
    tokenType: type,
    // Langium keeps no node for a token marked like this.
    isInsertedInRecovery: true,
  } as Token;
}

/** The same token with another type. */
export function retyped(token: Token, type: TokenType): Token {
  return { ...token, tokenType: type, tokenTypeIdx: type.tokenTypeIdx! };
}
