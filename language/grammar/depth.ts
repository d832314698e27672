/**
 * The parser calls itself for each bracket, sign and power, so text like `((((…` could exhaust its stack. This scan of
 * the tokens sets such statements apart before the parser sees them. The limits are far beyond any real formula.
 */
import { type Layout, OPERATORS, type Statement } from './layout.ts';
import { problem, type SyntaxProblem } from './problems.ts';
import { isWord, type Token } from './tokens.ts';

export const DEPTH_LIMITS = {
  brackets: 64,
  signs: 64,
  powers: 64,
  members: 200,
  operators: 2000,
  words: 10_000,
  cells: 1000,
} as const;

/** Marks the statements that go too deep as broken; one problem each. */
export function guardDepth(layout: Layout): SyntaxProblem[] {
  const problems: SyntaxProblem[] = [];
  const visit = (statement: Statement): void => {
    const place = tooDeep(layout.tokens, statement.first, statement.headLast);
    if (place !== undefined) {
      statement.broken = true;
      const head = layout.tokens.slice(statement.first, statement.first + 2);
      const named = isWord(head[1]) || head[1]?.tokenType.name === 'STRING';
      if (statement.kind === 'block') statement.mended = named ? head : head.slice(0, 1);
      problems.push(problem('too-deeply-nested', place.token.startOffset, place.token.endOffset! + 1, place.message));
    }
    for (const row of statement.rows) {
      if (row.last - row.first < DEPTH_LIMITS.cells) continue;
      row.broken = true;
      const token = layout.tokens[row.first]!;
      problems.push(problem('table-row', token.startOffset, token.endOffset! + 1, over('cells', 'stand in one row')));
    }
    statement.body.forEach(visit);
  };
  layout.statements.forEach(visit);
  return problems;
}

interface Place {
  readonly token: Token;
  readonly message: string;
}

const SIGNS: ReadonlySet<string> = new Set(['-', '−', 'SIGN', '+', 'not']);

function tooDeep(tokens: readonly Token[], first: number, last: number): Place | undefined {
  // Not deep, but the parser's time for one statement grows with the square of its length.
  if (last - first >= DEPTH_LIMITS.words)
    return { token: tokens[first]!, message: over('words', 'stand in one statement') };
  let brackets = 0;
  let signs = 0;
  let powers = 0;
  let members = 0;
  let operators = 0;
  for (let i = first; i <= last; i++) {
    const token = tokens[i]!;
    const { name } = token.tokenType;
    signs = SIGNS.has(name) ? signs + 1 : 0;
    if (name === '(') brackets++;
    else if (name === ')') brackets = Math.max(0, brackets - 1);
    else if (name === '.') members++;
    else if (name === ',' || name === ':') [powers, operators] = [0, 0];
    else if (OPERATORS.has(name)) operators++;
    if (name === '^') powers++;
    if (name !== '.' && !isWord(token)) members = 0;
    if (brackets > DEPTH_LIMITS.brackets) return { token, message: over('brackets', 'stand inside each other') };
    if (signs > DEPTH_LIMITS.signs) return { token, message: over('signs', 'follow each other') };
    if (powers > DEPTH_LIMITS.powers) return { token, message: over('powers', 'stand in one expression') };
    if (members > DEPTH_LIMITS.members) return { token, message: over('members', 'follow each other') };
    if (operators > DEPTH_LIMITS.operators) return { token, message: over('operators', 'stand in one expression') };
  }
  return undefined;
}

function over(what: keyof typeof DEPTH_LIMITS, how: string): string {
  return `More than ${DEPTH_LIMITS[what]} ${what} ${how} here; this is not read. Split it into several lines.`;
}
