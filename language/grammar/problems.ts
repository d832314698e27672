/** What can be wrong with the text itself, as data. A message says what is wrong, why, and what to do. */
import type { ParseResult } from 'langium';
import type { BroomReport } from './lexer.ts';

/** Every code a syntax problem can have. They never change meaning; documentation and fixes refer to them. */
export const SYNTAX_CODES = [
  'block-not-closed',
  'bracket-not-closed',
  'brace-missing',
  'chained-comparison',
  'clause-order',
  'clock-digits',
  'colon-doubled',
  'comment-not-closed',
  'curly-quotes',
  'decimal-comma',
  'digits-apart',
  'hidden-character',
  'minus-needs-blanks',
  'misplaced-statement',
  'missing-colon',
  'missing-condition',
  'missing-digits',
  'missing-name',
  'missing-operand',
  'missing-value',
  'not-a-header',
  'not-needs-brackets',
  'operator-at-line-start',
  'reserved-word',
  'strange-character',
  'stray-brace',
  'stray-bracket',
  'stray-comma',
  'string-not-closed',
  'table-header',
  'table-row',
  'too-deeply-nested',
  'too-many-problems',
  'unreadable-file',
  'unreadable-text',
] as const;

export type SyntaxCode = (typeof SYNTAX_CODES)[number];

export interface SyntaxProblem {
  readonly code: SyntaxCode;
  /** `warning`: the text is understood all the same. */
  readonly severity: 'error' | 'warning';
  readonly message: string;
  /** Offsets into the text; `end` is exclusive and never before `offset`. */
  readonly offset: number;
  readonly end: number;
  /** What a fix needs, for instance `{ insert: ':' }`. */
  readonly data: Readonly<Record<string, string | number>>;
}

/** Codes whose statement is understood: the finding is about how it is written. */
const WARNINGS: ReadonlySet<SyntaxCode> = new Set(['stray-comma', 'curly-quotes']);

export function problem(
  code: SyntaxCode,
  offset: number,
  end: number,
  message: string,
  data: Readonly<Record<string, string | number>> = {},
): SyntaxProblem {
  return {
    code,
    severity: WARNINGS.has(code) ? 'warning' : 'error',
    message,
    offset,
    end: Math.max(offset, end),
    data,
  };
}

/** More than these help nobody, and a megabyte of stray characters must not make a million of them. */
export const MOST_PROBLEMS = 200;

/** In the order of the text, each place once, and not more than anyone reads. */
export function tidy(problems: readonly SyntaxProblem[]): readonly SyntaxProblem[] {
  const sorted = [...problems].sort((a, b) => a.offset - b.offset || a.end - b.end);
  const kept = sorted.filter((one, i) => {
    const before = sorted[i - 1];
    return before === undefined || before.offset !== one.offset || before.code !== one.code;
  });
  if (kept.length <= MOST_PROBLEMS) return kept;
  const first = kept.slice(0, MOST_PROBLEMS);
  const next = kept[MOST_PROBLEMS]!;
  const rest = kept.length - MOST_PROBLEMS;
  const message = `${rest} more places can't be read. Mend the ones above first; most others may be their consequences.`;
  return [...first, problem('too-many-problems', next.offset, next.end, message, { rest })];
}

/** The problems of a text that was parsed. */
export function problemsIn(result: ParseResult): readonly SyntaxProblem[] {
  return (result.lexerReport as BroomReport | undefined)?.problems ?? [];
}

/** A problem that stands so many characters further on. */
export function movedProblem(problem: SyntaxProblem, chars: number): SyntaxProblem {
  if (chars === 0) return problem;
  const { offset, end, data } = problem;
  return {
    ...problem,
    offset: offset + chars,
    end: end + chars,
    ...(typeof data.at === 'number' && { data: { ...data, at: data.at + chars } }),
  };
}
