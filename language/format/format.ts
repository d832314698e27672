/**
 * The one way to lay out a text. Only blanks and line breaks change, plus the spelling of operators (`≥` is `>=`) and
 * of numbers without a leading digit (`.5` is `0.5`). Statements that can't be read, or that hold characters which mean
 * nothing, and stretches whose braces don't balance, stay as they are. Formatting twice changes nothing.
 *
 * A text is a row of pieces: tokens, comments, and unreadable stretches as one piece each. Walking the statements
 * (`Placer`) gives each piece its place, a new line with an indent or a gap in the same line; `write` spells them out.
 */
import { CANONICAL, emit, type Layout, OPERATORS, type Row, type Statement } from '../grammar/layout.ts';
import type { BroomLexer } from '../grammar/lexer.ts';
import type { BroomParser } from '../grammar/parser.ts';
import type { Syntax } from '../grammar/services.ts';
import { isWord, type Token } from '../grammar/tokens.ts';

export interface TextEdit {
  /** Offsets into the text; `end` is exclusive. */
  readonly offset: number;
  readonly end: number;
  readonly text: string;
}

/** Columns of one step of indentation, and between the stops to which values are set. */
const INDENT = 4;
/** Gap between the columns of a table, and before a comment at the end of a line. */
const WIDE_GAP = '  ';

/** The text in its one layout. Never throws; a text that can't be laid out safely comes back as it is. */
export function format(text: string, syntax: Syntax): string {
  const pieces = layOutPieces(text, syntax);
  return pieces === undefined ? text : joined(pieces);
}

/**
 * The same as edits, each no larger than one gap between tokens, so that cursors and markers in the text stay put.
 * @param range offsets; only edits that touch it are given.
 */
export function formatEdits(
  text: string,
  syntax: Syntax,
  range?: { readonly offset: number; readonly end: number },
): TextEdit[] {
  const edits: TextEdit[] = [];
  const add = (offset: number, end: number, wanted: string) => {
    const inRange = range === undefined || (offset <= range.end && end >= range.offset);
    if (inRange && text.slice(offset, end) !== wanted) edits.push({ offset, end, text: wanted });
  };
  let last = 0;
  for (const piece of layOutPieces(text, syntax) ?? []) {
    add(last, piece.offset, piece.before);
    add(piece.offset, piece.end, piece.text);
    last = piece.end;
  }
  return edits;
}

interface Piece {
  readonly offset: number;
  readonly end: number;
  readonly text: string;
  /** Blanks and line breaks before it. */
  readonly before: string;
}

function joined(pieces: readonly Piece[]): string {
  let out = '';
  for (const piece of pieces) out += piece.before + piece.text;
  return out;
}

function layOutPieces(text: string, syntax: Syntax): Piece[] | undefined {
  const parser = syntax.services.parser.LangiumParser as BroomParser;
  const lexer = syntax.services.parser.Lexer as BroomLexer;
  const read = parser.statementsOf(text);
  if (read === undefined) return undefined;
  const { layout } = read;
  const odd = oddStretches(text, layout.tokens, read.comments);
  // Between statements they are written as comments are: where they stood, letter by letter.
  const comments = odd.length === 0 ? read.comments : [...read.comments, ...odd.map(asToken)].sort(byPlace);
  const placer = new Placer(text, layout, comments, odd);
  const pieces = write(text, layout.tokens, comments, placer);
  // A formatter must not change what a text means, so the result is read once more before it is handed out.
  return meaning(lexer, joined(pieces)) === meaning(lexer, text) ? pieces : undefined;
}

/** What the parser would read, with what it can't read, as one string. */
function meaning(lexer: BroomLexer, text: string): string {
  const { layout, comments } = lexer.layOut(text);
  const said = emit(layout, text, lexer.types).map(token => {
    const { name } = token.tokenType;
    return `${CANONICAL[name] ?? name} ${canonical(token, token.image)}`;
  });
  const odd = oddStretches(text, layout.tokens, comments).map(each => each.image);
  return [...said, ...comments.map(comment => comment.image.trimEnd()), ...odd].join('\n');
}

/** Characters that belong to no token: `@`, a lone quote of another kind, one that can't be seen. */
interface Odd {
  readonly start: number;
  readonly end: number;
  readonly image: string;
}

const BLANKS = /[ \t\r\n\u00A0\u2000-\u200A\u202F\u205F\u3000\uFEFF]+/;

function oddStretches(text: string, tokens: readonly Token[], comments: readonly Token[]): readonly Odd[] {
  const odd: Odd[] = [];
  const look = (from: number, to: number) => {
    let at = from;
    for (const image of from < to ? text.slice(from, to).split(BLANKS) : []) {
      if (image === '') continue;
      const start = text.indexOf(image, at);
      at = start + image.length;
      odd.push({ start, end: at, image });
    }
  };
  let [last, next] = [0, 0];
  for (const token of tokens) {
    for (; next < comments.length && comments[next]!.startOffset < token.startOffset; next++) {
      look(last, comments[next]!.startOffset);
      last = comments[next]!.endOffset! + 1;
    }
    look(last, token.startOffset);
    last = Math.max(last, token.endOffset! + 1);
  }
  for (; next < comments.length; next++) {
    look(last, comments[next]!.startOffset);
    last = comments[next]!.endOffset! + 1;
  }
  look(last, text.length);
  return odd;
}

function asToken({ start, end, image }: Odd): Token {
  return { startOffset: start, endOffset: end - 1, image } as Token;
}

function byPlace(one: Token, other: Token): number {
  return one.startOffset - other.startOffset;
}

function canonical(token: Token, image: string): string {
  if (token.tokenType.name === 'NUMBER' && image.startsWith('.')) return `0${image}`;
  return CANONICAL[image] ?? image;
}

/** Where a token goes: on a new line, or after a gap in the line of the one before. */
type Place =
  | { readonly line: true; readonly indent: number; readonly blank: 'keep' | 'must' | 'none'; readonly close?: boolean }
  /** `hang`: the indent, when a comment forces a new line. */
  | { readonly line: false; readonly gap: string; readonly hang: number };

interface Cell {
  readonly first: number;
  readonly last: number;
  readonly isNumber: boolean;
  readonly text: string;
}

/** Where statements stand: how deep, and whether all in one line. */
interface Where {
  readonly depth: number;
  readonly oneLine: boolean;
}

class Placer {
  readonly places: (Place | undefined)[];
  /** For the first token of a stretch that stays as it is, its last. */
  readonly raw = new Map<number, number>();
  private readonly text: string;
  private readonly layout: Layout;
  private readonly tokens: readonly Token[];
  private readonly comments: readonly Token[];
  /** Statements that stay as they are because of a character in them that means nothing. */
  private readonly odd: ReadonlySet<Statement>;

  constructor(text: string, layout: Layout, comments: readonly Token[], odd: readonly Odd[]) {
    this.text = text;
    this.layout = layout;
    this.tokens = layout.tokens;
    this.comments = comments;
    this.odd = new Set(odd.flatMap(each => this.around(each, layout.statements) ?? []));
    this.places = new Array(layout.tokens.length);
    this.placeTop();
  }

  /** The token as it is written out. */
  image(i: number): string {
    const token = this.tokens[i]!;
    return canonical(token, this.text.slice(token.startOffset, token.endOffset! + 1));
  }

  private placeTop(): void {
    const { guessed } = this.layout;
    for (const [first, last] of guessed) {
      this.raw.set(first, last);
      this.places[first] = { line: true, indent: 0, blank: 'keep' };
    }
    const sure = this.layout.statements.filter(one => !isWithin(one.first, guessed));
    this.placeBody(sure, 0, this.tokens.length, { depth: 0, oneLine: false });
  }

  /** Statements between two tokens, and the loose tokens around them. */
  private placeBody(statements: readonly Statement[], from: number, to: number, where: Where): void {
    let at = from;
    let before: Statement | undefined;
    for (const statement of statements) {
      this.placeLoose(at, statement.first, where.depth);
      this.placeStart(statement, before, where);
      this.placeStatement(statement, where);
      at = endOf(statement);
      before = statement;
    }
    this.placeLoose(at, to, where.depth);
    if (!where.oneLine) this.alignRuns(statements, where.depth);
  }

  /** Tokens that belong to no statement, such as a comma too many: they stay where they are. */
  private placeLoose(from: number, to: number, depth: number): void {
    for (let i = from; i < to; i++) {
      const indent = depth * INDENT;
      this.places[i] ??= this.startsLine(i)
        ? { line: true, indent, blank: 'keep' }
        : { line: false, gap: ' ', hang: indent };
    }
  }

  /** The innermost statement that a stretch stands in. */
  private around(odd: Odd, statements: readonly Statement[]): Statement | undefined {
    const startOf = (i: number) => this.tokens[statements[i]!.first]!.startOffset;
    let [low, high] = [0, statements.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (startOf(middle) < odd.start) low = middle + 1;
      else high = middle;
    }
    const found = statements[low - 1];
    if (found === undefined || this.tokens[found.last]!.startOffset < odd.end) return undefined;
    return this.around(odd, found.body) ?? (this.isInBody(odd, found) ? undefined : found);
  }

  /** Between the braces of a block, and in none of its statements. */
  private isInBody(odd: Odd, { open, close }: Statement): boolean {
    const [from, to] = [this.tokens[open ?? -1], this.tokens[close ?? -1]];
    return from !== undefined && to !== undefined && from.endOffset! < odd.start && odd.end <= to.startOffset;
  }

  private isRaw(statement: Statement): boolean {
    return statement.broken || this.odd.has(statement);
  }

  private placeStart(statement: Statement, before: Statement | undefined, where: Where): void {
    const indent = where.depth * INDENT;
    const follows = before?.comma !== undefined && !this.startsLine(statement.first);
    if (where.oneLine || follows) this.places[statement.first] = { line: false, gap: ' ', hang: indent };
    else {
      const apart = where.depth === 0 && before !== undefined && (this.isTall(before) || this.isTall(statement));
      const blank = before === undefined && where.depth > 0 ? 'none' : apart ? 'must' : 'keep';
      this.places[statement.first] = { line: true, indent, blank };
    }
    if (statement.comma !== undefined) this.places[statement.comma] = { line: false, gap: '', hang: indent };
  }

  private placeStatement(statement: Statement, where: Where): void {
    if (this.isRaw(statement)) {
      this.raw.set(statement.first, statement.last);
      return;
    }
    const indent = where.depth * INDENT;
    const hang = indent + INDENT;
    let brackets = 0;
    for (let i = statement.first + 1; i <= statement.headLast; i++) {
      const { name } = this.tokens[i]!.tokenType;
      if (name === ')') brackets = Math.max(0, brackets - 1);
      if (this.startsLine(i) && !where.oneLine) {
        // In a value everything stands right of the value's column; a head's brackets close below its first letter.
        const steps = statement.kind === 'property' ? brackets : brackets > 0 ? brackets - 1 : name === ')' ? -1 : 0;
        this.places[i] = { line: true, indent: hang + steps * INDENT, blank: 'none' };
      } else this.places[i] = { line: false, gap: this.gap(statement, i), hang };
      if (name === '(') brackets++;
    }
    if (statement.rows.length > 0) this.placeRows(statement.rows, hang);
    if (statement.open === undefined || statement.open < 0) return;
    this.places[statement.open] = { line: false, gap: ' ', hang: indent };
    const close = statement.close!;
    const oneLine = this.isOneLine(statement);
    this.placeBody(statement.body, statement.open + 1, close, { depth: where.depth + 1, oneLine });
    this.places[close] = oneLine
      ? { line: false, gap: ' ', hang: indent }
      : { line: true, indent, blank: 'none', close: true };
  }

  // --- shapes ---

  private startsLine(i: number): boolean {
    return i === 0 || this.tokens[i]!.startLine! > this.tokens[i - 1]!.endLine!;
  }

  /** A block over several lines; at the top of a file blank lines set it apart. */
  private isTall(statement: Statement): boolean {
    return statement.kind === 'block' && statement.open !== undefined && !this.isOneLine(statement);
  }

  private isOneLine(statement: Statement): boolean {
    const open = this.tokens[statement.open ?? -1];
    const close = this.tokens[statement.close ?? -1];
    if (open === undefined || close === undefined) return false;
    const isEmpty = statement.close === statement.open! + 1 && !this.holdsComment(open, close);
    return open.startLine === close.startLine || isEmpty;
  }

  private holdsComment(first: Token, last: Token): boolean {
    let low = 0;
    let high = this.comments.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.comments[middle]!.startOffset < first.startOffset) low = middle + 1;
      else high = middle;
    }
    return low < this.comments.length && this.comments[low]!.startOffset < last.startOffset;
  }

  // --- tables ---

  private placeRows(rows: readonly Row[], indent: number): void {
    const isPlain = (row: Row) => !row.broken && !this.holdsComment(this.tokens[row.first]!, this.tokens[row.last]!);
    const cells = rows.map(row => (isPlain(row) ? this.cellsOf(row) : undefined));
    const widths: number[] = [];
    for (const row of cells) {
      for (const [k, cell] of (row ?? []).entries()) widths[k] = Math.max(widths[k] ?? 0, cell.text.length);
    }
    rows.forEach((row, k) => {
      this.placeCells(cells[k] ?? (row.broken ? [] : this.cellsOf(row)), cells[k] === undefined ? [] : widths, indent);
      const first = this.places[row.first];
      // A number at the start of a row is set against the right edge of its column.
      const pad = first?.line === false ? first.gap.length : 0;
      this.places[row.first] = { line: true, indent: indent + pad, blank: 'none' };
      if (row.broken) this.raw.set(row.first, row.last);
    });
  }

  private placeCells(cells: readonly Cell[], widths: readonly number[], hang: number): void {
    /** What a text or word leaves of its column's width. */
    let rest = 0;
    cells.forEach((cell, k) => {
      const spare = Math.max(0, (widths[k] ?? 0) - cell.text.length);
      const gap = (k === 0 ? 0 : WIDE_GAP.length) + rest + (cell.isNumber ? spare : 0);
      rest = cell.isNumber ? 0 : spare;
      this.places[cell.first] = { line: false, gap: ' '.repeat(gap), hang };
      for (let i = cell.first + 1; i <= cell.last; i++) {
        this.places[i] = { line: false, gap: this.tokens[i]!.tokenType.name === 'UNIT' ? ' ' : '', hang };
      }
    });
  }

  private cellsOf(row: Row): Cell[] {
    const cells: Cell[] = [];
    for (let i = row.first; i <= row.last; i++) {
      const first = i;
      const signed = isMinus(this.tokens[i]!) && i < row.last;
      if (signed) i++;
      const isNumber = this.tokens[i]!.tokenType.name === 'NUMBER';
      let text = (signed ? '-' : '') + this.image(i);
      if (isNumber && i < row.last && this.tokens[i + 1]!.tokenType.name === 'UNIT') text += ` ${this.image(++i)}`;
      cells.push({ first, last: i, isNumber, text });
    }
    return cells;
  }

  // --- columns ---

  /** Sets the values of properties in successive lines, and the braces of one-line blocks of a kind, in a column. */
  private alignRuns(statements: readonly Statement[], depth: number): void {
    let run: Statement[] = [];
    const end = () => {
      if (run[0]?.kind === 'property') this.alignValues(run, depth);
      else if (run.length > 1) this.alignBraces(run);
      run = [];
    };
    for (const statement of statements) {
      const last = run[run.length - 1];
      const isAligned = this.isAligned(statement);
      if (!isAligned || (last !== undefined && !(this.isAlike(last, statement) && this.adjoins(last, statement))))
        end();
      if (isAligned) run.push(statement);
    }
    end();
  }

  private isAligned(statement: Statement): boolean {
    if (this.isRaw(statement) || this.places[statement.first]?.line !== true) return false;
    if (statement.kind === 'property') return true;
    return statement.kind === 'block' && this.isOneLine(statement) && statement.body.length > 0;
  }

  private isAlike(one: Statement, other: Statement): boolean {
    if (one.kind !== other.kind) return false;
    return one.kind === 'property' || this.tokens[one.first]!.image === this.tokens[other.first]!.image;
  }

  /** Without a blank line between them, after formatting as before. */
  private adjoins(one: Statement, other: Statement): boolean {
    const place = this.places[other.first];
    if (place?.line !== true || place.blank === 'must') return false;
    const from = this.tokens[endOf(one) - 1]!.endOffset! + 1;
    return !holdsBlankLine(this.text.slice(from, this.tokens[other.first]!.startOffset));
  }

  private alignValues(run: readonly Statement[], depth: number): void {
    const longest = Math.max(...run.map(one => this.image(one.first).length));
    // Name, colon and a blank, up to the next stop: so a longer name seldom moves the column of its neighbours.
    const width = run.length === 1 ? longest + 2 : Math.ceil((longest + 2) / INDENT) * INDENT;
    const column = depth * INDENT + width;
    for (const statement of run) {
      const gap = ' '.repeat(width - this.image(statement.first).length - 1);
      for (let i = statement.first + 1; i <= statement.last; i++) {
        const place = this.places[i];
        if (place?.line === true) {
          this.places[i] = { ...place, indent: column + place.indent - (depth + 1) * INDENT };
        } else if (place !== undefined) {
          this.places[i] = { ...place, gap: i === statement.first + 2 ? gap : place.gap, hang: column };
        }
      }
    }
  }

  private alignBraces(run: readonly Statement[]): void {
    const heads = run.map(one => this.headWidth(one));
    const longest = Math.max(...heads);
    run.forEach((statement, k) => {
      const place = this.places[statement.open!];
      if (place?.line !== false) return;
      this.places[statement.open!] = { ...place, gap: ' '.repeat(longest - heads[k]! + 1) };
    });
  }

  private headWidth(statement: Statement): number {
    let width = this.image(statement.first).length;
    for (let i = statement.first + 1; i <= statement.headLast; i++) {
      const place = this.places[i];
      width += this.image(i).length + (place?.line === false ? place.gap.length : 0);
    }
    return width;
  }

  // --- gaps ---

  /** The gap before a token within a statement's head. */
  private gap(statement: Statement, i: number): string {
    const left = this.tokens[i - 1]!.tokenType.name;
    const right = this.tokens[i]!.tokenType.name;
    if (right === ',' || right === ':' || right === ')' || right === '.' || left === '(' || left === '.') return '';
    if (right === '(') return isWord(this.tokens[i - 1]) && !this.isKeyword(statement, i - 1) ? '' : ' ';
    // `2 m^2` is a unit; the square of two metres needs its blanks.
    if (right === '^') return left === 'UNIT' ? ' ' : '';
    if (left === '^') return this.tokens[i - 2]?.tokenType.name === 'UNIT' ? ' ' : '';
    return isMinus(this.tokens[i - 1]!) && this.isSign(statement, i - 1) ? '' : ' ';
  }

  private isSign(statement: Statement, i: number): boolean {
    const before = this.tokens[i - 1]!.tokenType.name;
    if (this.tokens[i]!.tokenType.name === 'SIGN' || OPERATORS.has(before)) return true;
    return before === '(' || before === ',' || before === ':' || this.isKeyword(statement, i - 1);
  }

  /** Whether `require`, or the `while` or `on` of a waiver, stands here as a keyword and not as a name. */
  private isKeyword(statement: Statement, i: number): boolean {
    if (statement.kind !== 'require' && statement.kind !== 'waive') return false;
    if (i === statement.first) return true;
    const { name } = this.tokens[i]!.tokenType;
    if (statement.kind === 'require' || i < statement.first + 2 || (name !== 'while' && name !== 'on')) return false;
    const before = this.tokens[i - 1]!.tokenType.name;
    return before !== '.' && before !== '(' && !OPERATORS.has(before) && !this.isKeyword(statement, i - 1);
  }
}

/** Spells the tokens and comments out, each with the blanks and breaks before it. */
function write(text: string, tokens: readonly Token[], comments: readonly Token[], placer: Placer): Piece[] {
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const pieces: Piece[] = [];
  let nextComment = 0;
  /** The next token must start a line, because a comment took the rest of this one. */
  let forced = false;

  const push = (offset: number, end: number, written: string, before: string) => {
    pieces.push({ offset, end, text: written, before: pieces.length === 0 ? '' : before });
  };
  const newLine = (indent: number, blank: boolean) => eol + (blank ? eol : '') + ' '.repeat(indent);
  const gapBefore = (offset: number) => text.slice(pieces[pieces.length - 1]?.end ?? 0, offset);

  /** Writes the comments before `limit`. Returns whether the blank line that `place` must have is still to come. */
  const writeComments = (limit: number, place: Place | undefined): boolean => {
    let owes = place?.line === true && place.blank === 'must';
    for (; nextComment < comments.length && comments[nextComment]!.startOffset < limit; nextComment++) {
      const { startOffset, endOffset, image } = comments[nextComment]!;
      const isLine = image.startsWith('//');
      const gap = gapBefore(startOffset);
      // A comment without an end runs to the end of the text, its blanks included.
      const written = image.trimEnd();
      if (forced || /[\r\n]/.test(gap)) {
        const indent = place === undefined ? 0 : place.line ? place.indent + (place.close ? INDENT : 0) : place.hang;
        const isFirst = pieces[pieces.length - 1]?.text === '{';
        push(startOffset, endOffset! + 1, written, newLine(indent, !isFirst && (owes || holdsBlankLine(gap))));
        owes = false;
        forced = true;
      } else push(startOffset, endOffset! + 1, written, isLine ? WIDE_GAP : ' ');
      if (isLine) forced = true;
    }
    return owes;
  };

  for (let i = 0; i < tokens.length; i++) {
    const { startOffset } = tokens[i]!;
    const place = placer.places[i] ?? { line: false, gap: ' ', hang: 0 };
    const owes = writeComments(startOffset, place);
    const last = placer.raw.get(i);
    const end = tokens[last ?? i]!.endOffset! + 1;
    const written = last === undefined ? placer.image(i) : text.slice(startOffset, end);
    if (place.line) {
      const blank = place.blank !== 'none' && (owes || holdsBlankLine(gapBefore(startOffset)));
      push(startOffset, end, written, newLine(place.indent, blank));
    } else push(startOffset, end, written, forced ? newLine(place.hang, false) : place.gap);
    forced = false;
    if (last === undefined) continue;
    i = last;
    while (nextComment < comments.length && comments[nextComment]!.startOffset < end) nextComment++;
  }
  writeComments(text.length + 1, undefined);
  if (pieces.length > 0) push(text.length, text.length, '', eol);
  return pieces;
}

function endOf(statement: Statement): number {
  return Math.max(statement.last, statement.comma ?? 0) + 1;
}

function isWithin(i: number, stretches: Layout['guessed']): boolean {
  return stretches.some(([first, last]) => first <= i && i <= last);
}

function holdsBlankLine(gap: string): boolean {
  return /\n[^\S\n]*\n/.test(gap.replace(/\r\n?/g, '\n'));
}

function isMinus(token: Token): boolean {
  const { name } = token.tokenType;
  return name === '-' || name === '−' || name === 'SIGN';
}
