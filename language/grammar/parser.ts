/**
 * The parser: one broken statement costs that statement and nothing else.
 *
 * A text without a mistake is parsed once. When that stops at a mistake, each statement from there on is tried on its
 * own with the same grammar; the broken ones become `Broken` nodes with a problem that says what to write, and the
 * text is parsed again around them. So no guess of a recovery reaches a healthy statement.
 */
import {
  type AstNode,
  AstUtils,
  type CstNodeBuilder,
  createParser,
  type LangiumCoreServices,
  type LangiumDocument,
  LangiumParser,
  type LexerResult,
  type ParseResult,
  type ParserOptions,
} from 'langium';
import type { Document } from '../generated/ast.ts';
import { guardDepth } from './depth.ts';
import { explain, explainOdd, guardMeaning, mend } from './explain.ts';
import { CANONICAL, emit, type Layout, type Statement } from './layout.ts';
import type { BroomLexer, BroomReport } from './lexer.ts';
import { MOST_PROBLEMS, problem, type SyntaxProblem, tidy } from './problems.ts';
import { reparse } from './reparse.ts';
import { type Token, virtualToken } from './tokens.ts';

/** Characters; a job of 20,000 lines has about a million. */
export const LONGEST_TEXT = 16_000_000;

/** Comments beyond this get no node: Langium passes all those before one token as arguments of one call. */
const MOST_COMMENTS = 60_000;

/** Creates the parser for the module; the grammar comes from the services. */
export function createBroomParser(services: LangiumCoreServices): BroomParser {
  const parser = createParser(services.Grammar, new BroomParser(services), services.parser.Lexer.definition);
  parser.finalize();
  return parser;
}

export class BroomParser extends LangiumParser {
  /** What the next run of Langium's parser reads. Set and cleared within one synchronous call. */
  private next: LexerResult | undefined;
  private readonly broomLexer: BroomLexer;

  constructor(services: LangiumCoreServices) {
    super(services);
    this.broomLexer = services.parser.Lexer as BroomLexer;
    const { broomLexer } = this;
    const replay = {
      definition: broomLexer.definition,
      tokenize: (text: string) => this.next ?? broomLexer.tokenize(text),
    };
    Object.assign(this, { lexer: replay });
    // Langium looks for a place for the comments before every token, also when there are none; in a container of many
    // statements or rows that look is linear, so a long table would cost the square of its rows.
    const { nodeBuilder } = this as unknown as { nodeBuilder: CstNodeBuilder };
    const add = nodeBuilder.addHiddenNodes.bind(nodeBuilder);
    nodeBuilder.addHiddenNodes = comments => {
      if (comments.length > 0) add(comments);
    };
  }

  /** Parses any text. Never throws; problems are in `lexerReport`, Langium's own lists of errors stay empty. */
  override parse<T extends AstNode = AstNode>(input: string, options: ParserOptions = {}): ParseResult<T> {
    try {
      if (input.length > LONGEST_TEXT) return this.parseNothing<T>(input);
      return options.rule === undefined ? this.parseDocument<T>(input) : super.parse<T>(input, options);
    } catch {
      return this.parseNothing<T>(input);
    }
  }

  /**
   * Parses a text that came about by a change of another one. Costs what the change costs, not what the text does.
   * @param before document of the text before; nobody may use it any more, since its syntax nodes become those of the result
   */
  parseChange(before: LangiumDocument<Document>, text: string): ParseResult<Document> {
    const parse = (each: string) => this.parse<Document>(each);
    const kept = text.length > LONGEST_TEXT ? undefined : reparse(before, text, this.broomLexer.topLevelKinds, parse);
    return kept ?? parse(text);
  }

  /** The statements of a text, with those that can't be read marked; what the formatter prints from. */
  statementsOf(text: string): { readonly layout: Layout; readonly comments: readonly Token[] } | undefined {
    try {
      return this.read(text);
    } catch {
      return undefined;
    }
  }

  private parseDocument<T extends AstNode>(text: string): ParseResult<T> {
    const read = this.read<T>(text);
    return read === undefined ? this.parseNothing<T>(text) : read.result;
  }

  private read<T extends AstNode>(text: string) {
    const { layout, comments, problems } = this.broomLexer.layOut(text);
    const all = [...problems, ...explainOdd(layout), ...guardDepth(layout), ...guardMeaning(layout)];
    let result = this.run<T>(text, layout, comments);
    if (result.parserErrors.length > 0) {
      const place = result.parserErrors[0]!.token.startOffset;
      this.findBroken(text, layout, Number.isFinite(place) && place > 0 ? place : 0, all);
      result = this.run<T>(text, layout, comments);
      // Every statement was read by itself, so together they are too; should that ever fail, say so and stay safe.
      if (result.parserErrors.length > 0) return undefined;
    }
    normalise(result.value);
    const clean: ParseResult<T> = { ...result, lexerErrors: [], parserErrors: [], lexerReport: report(all) };
    return { layout, comments, result: clean };
  }

  private run<T extends AstNode>(text: string, layout: Layout, comments: readonly Token[]): ParseResult<T> {
    const broken = brokenRanges(layout);
    const known = comments.slice(0, MOST_COMMENTS);
    const hidden = broken.length === 0 ? known : known.filter(comment => !isWithin(comment.startOffset, broken));
    return this.replay<T>(text, emit(layout, text, this.broomLexer.types), hidden);
  }

  private replay<T extends AstNode>(text: string, tokens: Token[], hidden: Token[], rule?: string): ParseResult<T> {
    this.next = { tokens, hidden, errors: [] };
    try {
      return super.parse<T>(text, rule === undefined ? {} : { rule });
    } finally {
      this.next = undefined;
      // A throw in the middle would leave half-built nodes for the next run.
      (this as unknown as { stack: unknown[] }).stack = [];
    }
  }

  /** Marks what can't be read, from the statement that holds `from` on, and says why. */
  private findBroken(text: string, layout: Layout, from: number, problems: SyntaxProblem[]): void {
    const { tokens } = layout;
    const said = problems
      .filter(one => one.severity === 'error')
      .map(one => one.offset)
      .sort((a, b) => a - b);
    const visit = (statement: Statement): void => {
      // SEP stands at the end of a statement, so an error there has the offset after its last character.
      if (tokens[statement.last]!.endOffset! + 1 < from) return;
      if (statement.broken) this.say(layout, statement, said, problems);
      else this.tryHead(text, layout, statement, said, problems);
      for (const row of statement.rows) {
        if (this.reads(text, tokens.slice(row.first, row.last + 1), 'Row')) continue;
        row.broken = true;
        problems.push(explain.row(tokens, row));
      }
      for (const inner of statement.body) visit(inner);
    };
    for (const statement of layout.statements) visit(statement);
  }

  private tryHead(
    text: string,
    layout: Layout,
    statement: Statement,
    said: readonly number[],
    problems: SyntaxProblem[],
  ): void {
    const { types } = this.broomLexer;
    const body = (head: readonly Token[]) =>
      statement.open === undefined
        ? [...head]
        : [
            ...head,
            virtualToken(types['{']!, head[head.length - 1], '{'),
            virtualToken(types['}']!, head[head.length - 1], '}'),
          ];
    const rule = statement.depth === 0 ? 'Item' : 'Entry';
    const head = layout.tokens.slice(statement.first, statement.headLast + 1);
    // The layout calls `other` what no rule of the grammar begins.
    if (statement.kind !== 'other' && this.reads(text, body(head), rule)) return;
    statement.broken = true;
    this.say(layout, statement, said, problems);
    if (problems.length > MOST_PROBLEMS) return;
    for (const mended of mend(layout, statement, types)) {
      if (!this.reads(text, body(mended), rule)) continue;
      statement.mended = mended;
      break;
    }
  }

  /** Adds the sentence about a broken statement, unless a slip inside it was already reported. */
  private say(layout: Layout, statement: Statement, said: readonly number[], problems: SyntaxProblem[]): void {
    const first = layout.tokens[statement.first]!.startOffset;
    const end = layout.tokens[statement.headLast]!.endOffset! + 1;
    if (holdsOne(said, first, end)) return;
    problems.push(explain.statement(layout, statement));
  }

  private reads(text: string, tokens: Token[], rule: string): boolean {
    return this.replay(text, tokens, [], rule).parserErrors.length === 0;
  }

  private parseNothing<T extends AstNode>(text: string): ParseResult<T> {
    const message =
      'This file can’t be read as a whole. Undo the last change, or move half of it to another file to find the place.';
    const problems = [problem('unreadable-text', 0, Math.min(1, text.length), message)];
    const result = this.replay<T>(text, [], []);
    return { ...result, lexerErrors: [], parserErrors: [], lexerReport: report(problems) };
  }
}

function report(problems: readonly SyntaxProblem[]): BroomReport {
  return { diagnostics: [], problems: tidy(problems) };
}

/** Start and end offsets of what is read as one Broken token. */
function brokenRanges(layout: Layout): [number, number][] {
  const ranges: [number, number][] = [];
  const visit = (statement: Statement): void => {
    if (statement.broken && statement.mended === undefined) {
      ranges.push([layout.tokens[statement.first]!.startOffset, layout.tokens[statement.last]!.endOffset!]);
    } else statement.body.forEach(visit);
  };
  layout.statements.forEach(visit);
  return ranges;
}

/** Whether a sorted list holds a number from `first` up to, not with, `end`. */
function holdsOne(sorted: readonly number[], first: number, end: number): boolean {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < first) low = middle + 1;
    else high = middle;
  }
  return low < sorted.length && sorted[low]! < end;
}

function isWithin(offset: number, ranges: readonly [number, number][]): boolean {
  let low = 0;
  let high = ranges.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const [start, end] = ranges[middle]!;
    if (offset < start) high = middle - 1;
    else if (offset > end) low = middle + 1;
    else return true;
  }
  return false;
}

/** One spelling of each operator in the syntax tree, whatever the author typed. */
function normalise(root: AstNode): void {
  if (!/[−×·≤≥≠]|\+\/-/.test(root.$cstNode?.root.fullText ?? '')) return;
  for (const node of AstUtils.streamAst(root)) {
    const held = node as { operator?: string; limit?: string };
    if (held.operator !== undefined) held.operator = CANONICAL[held.operator] ?? held.operator;
    if (held.limit !== undefined) held.limit = CANONICAL[held.limit] ?? held.limit;
  }
}
