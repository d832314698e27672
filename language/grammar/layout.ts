/**
 * Layout: from the tokens of a text to its statements. It runs between lexer and parser and decides what lines mean:
 *
 * - a newline ends a statement, except after a comma or an operator, inside ( ), and before a clause of `require` or `waive`;
 * - a comma inside { } ends one too when `name:`, a block, `without` or `require` follows;
 * - a line that starts with `name:`, with a block or with `require` always starts a statement, whatever stands before it;
 * - after a `table` header, lines that start with a number, a sign, a text, a date or a clock time are its rows;
 * - a top-level kind that is indented no deeper than an open block closes that block. Where the braces of a stretch
 *   don't balance, indentation decides every missing and every surplus brace of that stretch.
 *
 * The result is a tree of statements over token indexes. `emit` turns it into what the parser reads, and the
 * formatter prints from it.
 */
import { problem, type SyntaxProblem } from './problems.ts';
import { isWord, retyped, type Token, type TokenTypes, virtualToken } from './tokens.ts';

export type StatementKind = 'property' | 'block' | 'require' | 'waive' | 'use' | 'without' | 'header' | 'other';

export interface Row {
  readonly first: number;
  readonly last: number;
  broken: boolean;
}

/** All numbers are indexes into the tokens; `last` is inclusive. */
export interface Statement {
  readonly kind: StatementKind;
  /** 0 at the top of the file. */
  readonly depth: number;
  readonly first: number;
  last: number;
  /** Last token of what stands before the `{` of a block, or of a table's header; otherwise `last`. */
  headLast: number;
  /** Index of `{`; -1 when it is missing and was supplied; undefined when the block has no body. */
  open?: number;
  /** Index of `}`; -1 when it is missing and was supplied. */
  close?: number;
  readonly body: Statement[];
  readonly rows: Row[];
  /** The comma that ends this statement. */
  comma?: number;
  /** Set when the statement, or for a block its head, can't be read. */
  broken: boolean;
  /** Tokens to read instead of the head, when the head is broken or has something missing. */
  mended?: readonly Token[];
}

export interface Layout {
  readonly tokens: readonly Token[];
  readonly statements: readonly Statement[];
  readonly problems: readonly SyntaxProblem[];
  /** First and last token of each stretch whose braces don't balance; where its blocks end is a guess. */
  readonly guessed: readonly (readonly [first: number, last: number])[];
}

/** How deep blocks may nest; far beyond any job, far below what the parser's stack holds. */
export const DEEPEST_BLOCK = 64;

/** Lays out tokens. Never throws; time is linear in the number of tokens. */
export function layOut(tokens: readonly Token[], types: TokenTypes, topLevelKinds: ReadonlySet<string>): Layout {
  const reader = new LayoutReader([...tokens], types, topLevelKinds);
  const statements = reader.readAll();
  return { tokens: reader.tokens, statements, problems: reader.problems, guessed: reader.guessed };
}

/** What the parser reads: statements ended by SEP, rows started by ROW, broken statements in one token each. */
export function emit(layout: Layout, text: string, types: TokenTypes): Token[] {
  const { tokens } = layout;
  const out: Token[] = [];
  const sep = (after: number) => out.push(virtualToken(types.SEP!, tokens[after]));
  const copy = (first: number, last: number) => {
    for (let i = first; i <= last; i++) out.push(tokens[i]!);
  };
  const write = (statement: Statement): void => {
    if (statement.broken && statement.mended === undefined) {
      out.push(brokenToken(tokens[statement.first]!, tokens[statement.last]!, text, types));
    } else {
      if (statement.mended !== undefined) out.push(...statement.mended);
      else copy(statement.first, statement.headLast);
      for (const row of statement.rows) {
        if (row.broken) continue;
        out.push(virtualToken(types.ROW!, tokens[row.first - 1]));
        copy(row.first, row.last);
      }
      if (statement.open !== undefined) {
        out.push(
          statement.open >= 0 ? tokens[statement.open]! : virtualToken(types['{']!, tokens[statement.headLast], '{'),
        );
        for (const inner of statement.body) write(inner);
        const close = statement.close ?? -1;
        out.push(close >= 0 ? tokens[close]! : virtualToken(types['}']!, tokens[statement.last], '}'));
      }
    }
    sep(statement.last);
  };
  for (const statement of layout.statements) write(statement);
  return out;
}

function brokenToken(first: Token, last: Token, text: string, types: TokenTypes): Token {
  return {
    ...first,
    image: text.slice(first.startOffset, last.endOffset! + 1),
    endOffset: last.endOffset!,
    endLine: last.endLine!,
    endColumn: last.endColumn!,
    tokenType: types.BROKEN!,
    tokenTypeIdx: types.BROKEN!.tokenTypeIdx!,
  } as Token;
}

/** Operators that leave the line open: what they work on follows. */
export const OPERATORS: ReadonlySet<string> = new Set([
  '+',
  '-',
  '−',
  'SIGN',
  '*',
  '/',
  '×',
  '·',
  '^',
  '±',
  '+/-',
  '<',
  '<=',
  '≤',
  '>',
  '>=',
  '≥',
  '=',
  '!=',
  '≠',
  'and',
  'or',
  'not',
]);

/** Other ways to type an operator, and the one that is meant. */
export const CANONICAL: Readonly<Record<string, string>> = {
  '−': '-',
  '×': '*',
  '·': '*',
  '≤': '<=',
  '≥': '>=',
  '≠': '!=',
  '+/-': '±',
};

const CLAUSES: ReadonlySet<string> = new Set(['because', 'by', 'while', 'until', 'on']);
const ROW_STARTS: ReadonlySet<string> = new Set(['NUMBER', '-', '−', 'SIGN', 'STRING', 'DATE', 'CLOCK', 'RATIO']);
/** How far a look ahead for the `{` of a block goes; a longer head is read line by line. */
const LOOK_AHEAD = 400;

class LayoutReader {
  readonly tokens: Token[];
  readonly problems: SyntaxProblem[] = [];
  readonly guessed: [number, number][] = [];
  private readonly types: TokenTypes;
  private readonly topLevelKinds: ReadonlySet<string>;
  private readonly indents: Uint32Array;
  /** 1 for each `(` that has its `)`. One that has none counts for nothing, so it can't draw in the lines below. */
  private readonly closed: Uint8Array;
  private at = 0;
  /** The stretch up to here was looked at for balance … */
  private regionEnd = 0;
  /** … and its braces don't balance. */
  private guessing = false;

  constructor(tokens: Token[], types: TokenTypes, topLevelKinds: ReadonlySet<string>) {
    this.tokens = tokens;
    this.types = types;
    this.topLevelKinds = topLevelKinds;
    this.indents = new Uint32Array(tokens.length);
    for (let i = 0; i < tokens.length; i++) {
      this.indents[i] = this.startsLine(i) ? tokens[i]!.startColumn! - 1 : this.indents[i - 1]!;
    }
    this.closed = this.matchBrackets();
  }

  private matchBrackets(): Uint8Array {
    const closed = new Uint8Array(this.tokens.length);
    let open: number[] = [];
    for (let i = 0; i < this.tokens.length; i++) {
      const name = this.name(i);
      if (name === '(') open.push(i);
      else if (name === ')') {
        const start = open.pop();
        if (start !== undefined) closed[start] = 1;
      } else if (open.length > 0 && (name === '{' || name === '}' || this.startsTopBlock(i))) open = [];
    }
    return closed;
  }

  readAll(): Statement[] {
    const statements: Statement[] = [];
    while (this.at < this.tokens.length) {
      if (this.at >= this.regionEnd) this.lookForBalance();
      if (this.is(this.at, '}')) this.strayBrace(this.at++);
      else if (this.is(this.at, ',')) this.strayComma(this.at++);
      else statements.push(this.readStatement(0));
    }
    return statements;
  }

  // --- what a token is ---

  private name(i: number): string | undefined {
    return this.tokens[i]?.tokenType.name;
  }

  private is(i: number, name: string): boolean {
    return this.tokens[i]?.tokenType.name === name;
  }

  private word(i: number): boolean {
    return isWord(this.tokens[i]);
  }

  private startsLine(i: number): boolean {
    return i === 0 || (i < this.tokens.length && this.tokens[i]!.startLine! > this.tokens[i - 1]!.endLine!);
  }

  private startsProperty(i: number): boolean {
    return this.word(i) && this.is(i + 1, ':') && !this.startsLine(i + 1);
  }

  /** `kind Name {`, `kind "label" {`, `kind {`, `kind Name(…) {`, `kind Name like …`; at a line's end also `kind "label"`. */
  private startsBlock(i: number): boolean {
    if (!this.is(i, 'ID')) return false;
    let next = i + 1;
    if (this.is(next, '{')) return true;
    if (this.is(next, 'like') && this.word(next + 1)) return true;
    const label = this.is(next, 'STRING');
    if (!label && !this.word(next)) return false;
    if (this.startsLine(next)) return false;
    next++;
    if (this.is(next, '{') || (this.is(next, 'like') && this.word(next + 1))) return true;
    if (label) return this.startsLine(i) && (next >= this.tokens.length || this.startsLine(next) || this.is(next, '}'));
    if (!this.is(next, '(')) return false;
    const after = this.afterBrackets(next);
    return after > 0 && (this.is(after, '{') || this.is(after, 'like'));
  }

  /** Index after the `)` that belongs to the `(` at `i`; 0 when it is not near. */
  private afterBrackets(i: number): number {
    let depth = 0;
    for (let j = i; j < this.tokens.length && j < i + LOOK_AHEAD; j++) {
      const name = this.name(j);
      if (name === '(') depth++;
      else if (name === ')' && --depth === 0) return j + 1;
      else if (name === '{' || name === '}') return 0;
    }
    return 0;
  }

  /** A top-level kind where a block starts. Less is asked than of other kinds: a half-typed head counts. */
  private startsTopBlock(i: number): boolean {
    const token = this.tokens[i]!;
    if (token.tokenType.name !== 'ID' || !this.startsLine(i) || !this.topLevelKinds.has(token.image)) return false;
    if (this.startsLine(i + 1)) return false;
    const next = this.name(i + 1);
    return next === 'STRING' || next === '{' || next === 'like' || this.word(i + 1);
  }

  private startsKeywordStatement(i: number): boolean {
    switch (this.name(i)) {
      case 'use':
        return this.is(i + 1, 'STRING');
      case 'broomline':
        return this.is(i + 1, 'NUMBER');
      case 'without':
      case 'waive':
        return this.word(i + 1) && !this.startsLine(i + 1);
      case 'require': {
        const next = this.name(i + 1);
        return (
          next !== undefined && next !== ':' && next !== ',' && next !== '.' && next !== '}' && !this.startsLine(i + 1)
        );
      }
      default:
        return false;
    }
  }

  /** Something that can't go on what stands before it. */
  private startsStatement(i: number): boolean {
    return (
      this.is(i, '}') ||
      this.startsProperty(i) ||
      this.startsKeywordStatement(i) ||
      this.startsTopBlock(i) ||
      this.startsBlock(i)
    );
  }

  // --- statements ---

  private kindOf(i: number): StatementKind {
    if (this.startsProperty(i)) return 'property';
    const next = i + 1;
    const followed = next < this.tokens.length && !this.startsLine(next) && !this.is(next, '}');
    switch (this.name(i)) {
      case 'broomline':
        return 'header';
      case 'use':
      case 'without':
      case 'require':
      case 'waive':
        return this.name(i) as StatementKind;
      case 'ID':
        if (this.startsBlock(i)) return 'block';
        // A head without a body: `airport Tern`. A word on its own, or with a value after it, is something else.
        if (!followed) return this.isBareHead(i) ? 'block' : 'other';
        if (this.word(next) && (this.endsHere(next + 1) || this.is(next + 1, 'like') || this.is(next + 1, '(')))
          return 'block';
        if (this.is(next, 'STRING') && this.endsHere(next + 1)) return 'block';
        return this.opensBefore(i) ? 'block' : 'other';
      default:
        return 'other';
    }
  }

  /** A kind alone on its line, with its lines below and a brace that closes them: `fleet`, whose `{` is missing. */
  private isBareHead(i: number): boolean {
    const next = i + 1;
    return (
      this.guessing &&
      this.startsLine(i) &&
      this.topLevelKinds.has(this.tokens[i]!.image) &&
      next < this.tokens.length &&
      this.startsProperty(next) &&
      this.indents[next]! > this.indents[i]!
    );
  }

  private endsHere(i: number): boolean {
    return i >= this.tokens.length || this.startsLine(i) || this.is(i, '}') || this.is(i, ',');
  }

  /** Whether a `{` follows on this line: the statement is a block, however odd its head. */
  private opensBefore(i: number): boolean {
    for (let j = i + 1; j < this.tokens.length && j < i + LOOK_AHEAD && !this.startsLine(j); j++) {
      const name = this.name(j);
      if (name === '{') return true;
      if (name === '}' || name === ':') return false;
    }
    return false;
  }

  private readStatement(depth: number): Statement {
    const first = this.at;
    const kind = this.kindOf(first);
    const statement: Statement = {
      kind,
      depth,
      first,
      last: first,
      headLast: first,
      body: [],
      rows: [],
      broken: false,
    };
    const table = this.is(first + (kind === 'property' ? 2 : 1), 'table') && this.word(first);
    let brackets = 0;
    this.at = first + 1;
    if (kind === 'other' && this.is(first, '{')) this.skipBody(first);
    for (; this.at < this.tokens.length; this.at++) {
      const i = this.at;
      const name = this.name(i);
      if (this.startsLine(i) && this.endsBefore(i, kind, brackets, table)) break;
      if (name === '{') {
        if (kind === 'block') {
          this.endHead(statement);
          this.readBody(statement, i);
          return this.endWithComma(statement);
        }
        // A body where none can be: it belongs to what can't be read.
        this.at = i + 1;
        this.skipBody(i);
        this.at--;
        statement.broken = true;
      } else if (name === '}') break;
      else if (name === '(') brackets += this.closed[i]!;
      else if (name === ')') brackets = Math.max(0, brackets - 1);
      else if (name === ',' && brackets === 0 && this.separates(i + 1, kind)) break;
    }
    this.endHead(statement);
    // Rows are read as such too where the head of their table is not written yet.
    if (table || (kind === 'property' && this.is(statement.headLast, ':'))) this.readRows(statement);
    if (kind === 'block' && this.guessing && this.lacksBrace(first)) {
      const head = this.tokens[first]!;
      const end = this.tokens[statement.headLast]!;
      this.problems.push(
        problem(
          'brace-missing',
          head.startOffset,
          end.endOffset! + 1,
          `The lines of \`${head.image}\` follow, but its \`{\` is missing. Put \`{\` at the end of this line.`,
          { insert: ' {', at: end.endOffset! + 1 },
        ),
      );
      this.readBody(statement, -1);
      return this.endWithComma(statement);
    }
    if (kind === 'require' || kind === 'waive') this.takeUnits(statement);
    return this.endWithComma(statement);
  }

  private endHead(statement: Statement): void {
    statement.headLast = this.at - 1;
    statement.last = this.at - 1;
    this.markSigns(statement.first, statement.headLast);
  }

  /** Takes the comma that ends a statement; one that is followed by nothing is reported. */
  private endWithComma(statement: Statement): Statement {
    if (this.is(this.at, ',')) {
      statement.comma = this.at++;
      const next = this.at;
      if (next >= this.tokens.length || this.is(next, '}') || this.startsLine(next)) this.strayComma(statement.comma);
    } else if (this.is(statement.last, ',') && statement.last > statement.first && statement.kind !== 'other') {
      // The comma hung over the end of the line, and a new statement follows.
      statement.comma = statement.last;
      statement.last--;
      statement.headLast = Math.min(statement.headLast, statement.last);
      this.strayComma(statement.comma);
    }
    return statement;
  }

  /** Whether the line that starts at `i` is no longer part of the statement before it. */
  private endsBefore(i: number, kind: StatementKind, brackets: number, table: boolean): boolean {
    const before = this.name(i - 1)!;
    if (brackets > 0) {
      if (this.is(i, '}') || this.startsTopBlock(i)) return true;
      if (before === '(' || before === ',' || OPERATORS.has(before)) return false;
      return this.startsStatement(i) && !this.is(i, ')');
    }
    if (table && ROW_STARTS.has(this.name(i)!)) return true;
    if (this.startsStatement(i)) return true;
    if (before === ',' || OPERATORS.has(before)) return false;
    if ((kind === 'require' || kind === 'waive') && CLAUSES.has(this.name(i)!)) return false;
    return !(kind === 'block' && this.is(i, '{'));
  }

  /** Whether a comma before `i` ends a statement, rather than parting the items of a list. */
  private separates(i: number, kind: StatementKind): boolean {
    if (i >= this.tokens.length || this.is(i, '}')) return true;
    if (kind === 'block') return true;
    if (this.startsProperty(i)) return true;
    if (this.is(i, 'without') || this.is(i, 'require')) return this.startsKeywordStatement(i);
    return this.startsBlock(i);
  }

  private readRows(statement: Statement): void {
    while (this.at < this.tokens.length && this.startsLine(this.at) && ROW_STARTS.has(this.name(this.at)!)) {
      const first = this.at++;
      while (this.at < this.tokens.length && !this.startsLine(this.at) && !this.is(this.at, '}')) this.at++;
      statement.rows.push({ first, last: this.at - 1, broken: false });
      statement.last = this.at - 1;
    }
  }

  /** Reads what stands between `{` (at `open`, or supplied when -1) and its `}`. */
  private readBody(statement: Statement, open: number): void {
    const indent = this.indents[statement.first]!;
    statement.open = open;
    statement.close = -1;
    if (open >= 0) {
      this.at = open + 1;
      if (statement.depth >= DEEPEST_BLOCK) {
        this.tooDeep(statement);
        return;
      }
    }
    for (;;) {
      const i = this.at;
      const interruption = this.interruption(i, indent, i > statement.headLast + 1);
      if (interruption !== undefined) {
        this.notClosed(statement, interruption);
        return;
      }
      if (this.is(i, ',')) this.strayComma(this.at++);
      else if (this.is(i, '}')) {
        this.at++;
        if (this.guessing && this.startsLine(i) && this.indents[i] !== indent) this.strayBrace(i);
        else {
          statement.close = i;
          statement.last = i;
          return;
        }
      } else statement.body.push(this.readStatement(statement.depth + 1));
    }
  }

  /** What at `i` shows that the `}` of an open block is missing; undefined when nothing does. */
  private interruption(i: number, indent: number, inBody: boolean): string | undefined {
    if (i >= this.tokens.length) return 'the end of the file';
    if (!this.startsLine(i) || this.indents[i]! > indent) return undefined;
    if (this.is(i, '}')) {
      return this.guessing && this.indents[i]! < indent ? 'this `}`, which closes a block further out,' : undefined;
    }
    return inBody && (this.guessing || this.startsTopBlock(i)) ? `\`${this.tokens[i]!.image}\`` : undefined;
  }

  /** Passes over a body that can't be read, up to its `}`. `this.at` is after the `{`. */
  private skipBody(open: number): void {
    let depth = 1;
    for (; this.at < this.tokens.length; this.at++) {
      const i = this.at;
      if (this.startsTopBlock(i) && this.indents[i]! <= this.indents[open]!) return;
      if (this.guessing && this.startsLine(i) && this.indents[i]! <= this.indents[open]!) return;
      if (this.is(i, '{')) depth++;
      else if (this.is(i, '}') && --depth === 0) {
        this.at++;
        return;
      }
    }
  }

  private tooDeep(statement: Statement): void {
    this.skipBody(statement.open!);
    delete statement.open;
    delete statement.close;
    statement.last = this.at - 1;
    statement.headLast = statement.last;
    statement.broken = true;
    const token = this.tokens[statement.first]!;
    const message = `Blocks stand ${DEEPEST_BLOCK} deep here, more than is read. Take this block out of some of those around it.`;
    this.problems.push(problem('too-deeply-nested', token.startOffset, token.endOffset! + 1, message));
  }

  // --- balance ---

  /** Looks at the stretch up to the next top-level block: do its braces balance? */
  private lookForBalance(): void {
    const start = this.at;
    let depth = 0;
    let balanced = true;
    let i = start;
    for (; i < this.tokens.length; i++) {
      if (i > start && this.startsTopBlock(i) && this.indents[i]! <= this.indents[start]!) break;
      if (this.is(i, '{')) depth++;
      else if (this.is(i, '}') && --depth < 0) balanced = false;
    }
    this.regionEnd = i;
    this.guessing = !balanced || depth !== 0;
    if (this.guessing) this.guessed.push([start, i - 1]);
  }

  /** A head whose `{` is missing: the next line is a deeper property. */
  private lacksBrace(first: number): boolean {
    return this.startsLine(this.at) && this.startsProperty(this.at) && this.indents[this.at]! > this.indents[first]!;
  }

  private notClosed(statement: Statement, what: string): void {
    statement.last = Math.max(statement.headLast, this.at - 1);
    const head = this.tokens[statement.first]!;
    const brace = this.tokens[statement.open! >= 0 ? statement.open! : statement.first]!;
    const end = this.tokens[statement.last]!.endOffset! + 1;
    this.problems.push(
      problem(
        'block-not-closed',
        brace.startOffset,
        brace.endOffset! + 1,
        `This \`${head.image}\` is still open where ${what} comes. Add \`}\` after its last line.`,
        { insert: `\n${' '.repeat(this.indents[statement.first]!)}}`, at: end },
      ),
    );
  }

  private strayBrace(i: number): void {
    const token = this.tokens[i]!;
    const message = 'This `}` closes nothing: no block is open here. Remove it, or add the `{` it belongs to.';
    this.problems.push(problem('stray-brace', token.startOffset, token.endOffset! + 1, message, { remove: '}' }));
  }

  private strayComma(i: number): void {
    const token = this.tokens[i]!;
    const message = 'Nothing follows this comma: a line needs none at its end. Remove it, or add what is missing.';
    this.problems.push(problem('stray-comma', token.startOffset, token.endOffset! + 1, message, { remove: ',' }));
  }

  // --- tokens that mean something else here ---

  /** `to -3 °C`: after a word, a minus that touches what follows and not what precedes is a sign, not a subtraction. */
  private markSigns(first: number, last: number): void {
    for (let i = first + 1; i < last; i++) {
      const token = this.tokens[i]!;
      const { name } = token.tokenType;
      if (name !== '-' && name !== '−') continue;
      const before = this.tokens[i - 1]!;
      const touches = this.tokens[i + 1]!.startOffset === token.endOffset! + 1;
      if (isWord(before) && before.endOffset! + 1 < token.startOffset && touches) {
        this.tokens[i] = retyped(token, this.types.SIGN!);
      }
    }
  }

  /** In a condition nothing but a unit can follow a number, so an unknown word there is taken for a misspelt one. */
  private takeUnits(statement: Statement): void {
    for (let i = statement.first + 2; i <= statement.headLast; i++) {
      if (this.is(i, 'ID') && this.is(i - 1, 'NUMBER') && !this.startsLine(i) && !this.is(i + 1, ':')) {
        this.tokens[i] = retyped(this.tokens[i]!, this.types.UNIT!);
      }
    }
  }
}
