/** The lexer: tokens, their layout, and what is wrong with single characters and literals. */
import { DefaultLexer, type LangiumCoreServices, type LexerResult, type LexingReport } from 'langium';
import { emit, type Layout, layOut } from './layout.ts';
import { literalProblems, mendNumbers } from './literals.ts';
import type { SyntaxProblem } from './problems.ts';
import type { Token, TokenTypes } from './tokens.ts';

export interface LaidOut {
  readonly layout: Layout;
  /** Comments, in the order of the text. */
  readonly comments: readonly Token[];
  readonly problems: readonly SyntaxProblem[];
}

/** What the lexer reports beside its tokens. Problems stay out of Langium's own lists, so each is said once. */
export interface BroomReport extends LexingReport {
  readonly problems: readonly SyntaxProblem[];
}

export class BroomLexer extends DefaultLexer {
  readonly topLevelKinds: ReadonlySet<string>;

  constructor(services: LangiumCoreServices, topLevelKinds: ReadonlySet<string>) {
    super(services);
    this.topLevelKinds = topLevelKinds;
  }

  get types(): TokenTypes {
    return this.tokenTypes as TokenTypes;
  }

  /** Tokens and their layout, before anything is parsed. */
  layOut(text: string): LaidOut {
    const result = this.chevrotainLexer.tokenize(text);
    const comments = result.groups.hidden ?? [];
    const numbers = mendNumbers(text, result.tokens);
    const layout = layOut(numbers.tokens, this.types, this.topLevelKinds);
    const literals = literalProblems(text, numbers.tokens, comments, result.errors);
    const problems = [...layout.problems, ...numbers.problems, ...literals];
    return { layout, comments, problems };
  }

  override tokenize(text: string): LexerResult {
    const { layout, comments, problems } = this.layOut(text);
    const report: BroomReport = { diagnostics: [], problems };
    return { tokens: emit(layout, text, this.types), hidden: [...comments], errors: [], report };
  }
}
