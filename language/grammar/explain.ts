/** Why a statement can't be read, in a sentence that says what to write instead; and how to read it all the same. */
import { DEPTH_LIMITS } from './depth.ts';
import { type Layout, OPERATORS, type Row, type Statement } from './layout.ts';
import { problem, type SyntaxProblem } from './problems.ts';
import { isWord, RESERVED, type Token, type TokenTypes, virtualToken } from './tokens.ts';

export const explain = { statement: explainStatement, row: explainRow };

const COMPARISONS: ReadonlySet<string> = new Set(['<', '<=', '≤', '>', '>=', '≥', '=', '!=', '≠']);
const CLAUSE_ORDER = ['on', 'while', 'because', 'by', 'until'] as const;
const EXAMPLES: Readonly<Record<string, string>> = {
  on: 'on North.Agitate',
  while: 'while North.soak.least >= 28 min',
  because: 'because "one delivery"',
  by: 'by "A. Engineer"',
  until: 'until 2031-06-30',
};

/** A broken statement's head as the rules below look at it. */
interface Head {
  readonly tokens: readonly Token[];
  readonly statement: Statement;
  /** Name of the token type at `i`. */
  is(i: number, name: string): boolean;
  word(i: number): boolean;
  at(from: number, to?: number): [number, number];
}

function headOf(layout: Layout, statement: Statement): Head {
  const tokens = layout.tokens.slice(statement.first, statement.headLast + 1);
  return {
    tokens,
    statement,
    is: (i, name) => tokens[i]?.tokenType.name === name,
    word: i => isWord(tokens[i]),
    at: (from, to = from) => {
      const start = tokens[Math.min(from, tokens.length - 1)]!;
      const end = tokens[Math.min(to, tokens.length - 1)]!;
      return [start.startOffset, end.endOffset! + 1];
    },
  };
}

function explainStatement(layout: Layout, statement: Statement): SyntaxProblem {
  const head = headOf(layout, statement);
  return (
    misplaced(head) ??
    byKind(head) ??
    brackets(head) ??
    chained(head) ??
    colons(head) ??
    reserved(head) ??
    operands(head) ??
    unreadable(head)
  );
}

/** A statement that would be fine somewhere else. */
function misplaced({ tokens, statement, at, is }: Head): SyntaxProblem | undefined {
  const word = tokens[0]!.image;
  if (statement.depth > 0 && (statement.kind === 'use' || statement.kind === 'header' || statement.kind === 'waive')) {
    const message = `\`${word}\` stands at the top of a file, not inside a block. Move this line out of the block.`;
    return problem('misplaced-statement', ...at(0), message);
  }
  if (statement.depth === 0 && statement.kind === 'without') {
    const message =
      'At the top of a file there is nothing to drop: `without` stands inside a block that is `like` another.';
    return problem('misplaced-statement', ...at(0), message);
  }
  if (statement.kind !== 'block' && !is(0, '{') && tokens.some(token => token.tokenType.name === '{')) {
    const brace = tokens.findIndex(token => token.tokenType.name === '{');
    const what = is(1, ':') ? `The value of \`${word}\` can't hold a block` : 'A block can’t start here';
    const message = `${what}. Write it on a line of its own, as \`kind Name { … }\`.`;
    return problem('misplaced-statement', ...at(brace), message);
  }
  return undefined;
}

function byKind(head: Head): SyntaxProblem | undefined {
  switch (head.statement.kind) {
    case 'property':
      return property(head);
    case 'block':
      return block(head);
    case 'require':
    case 'waive':
      return clauses(head);
    case 'use':
      return use(head);
    case 'without':
      return problem(
        'missing-name',
        ...head.at(0),
        'The name of what is dropped is missing. Write `without Step`, or several: `without Wash, Dry`.',
      );
    case 'header':
      return problem(
        'unreadable-text',
        ...head.at(0, 1),
        'The first line of a file says the version of the language. Write `broomline 1`.',
      );
    case 'other':
      return other(head);
  }
}

function property({ tokens, statement, at, is }: Head): SyntaxProblem | undefined {
  const name = tokens[0]!.image;
  if (tokens.length === 2) {
    const message = `The value of \`${name}\` is missing. Write it after the colon, on the same line.`;
    return problem('missing-value', ...at(0, 1), message, { property: name });
  }
  if (is(2, ':'))
    return problem('colon-doubled', ...at(1, 2), `One colon is enough after \`${name}\`. Remove the other.`, {
      remove: ':',
    });
  if (is(2, 'table')) {
    if (statement.rows.length === 0 && tokens.length === 3) {
      const message =
        'The columns of this table are missing. Write them with their units: `table chainage m, left m, right m`.';
      return problem('table-header', ...at(2), message);
    }
    const message =
      'The head of a table names its columns, parted by commas, each with its unit: `table chainage m, left m, right m`.';
    return problem('table-header', ...at(2, tokens.length - 1), message);
  }
  return undefined;
}

function block({ tokens, at, is, word }: Head): SyntaxProblem | undefined {
  const kind = tokens[0]!.image;
  if (is(tokens.length - 1, 'like')) {
    const message = `The block that this \`${kind}\` starts from is missing. Write its name after \`like\`.`;
    return problem('missing-name', ...at(tokens.length - 1), message);
  }
  if (tokens.some(token => token.tokenType.name === '(' || token.tokenType.name === ')')) return undefined;
  if (RESERVED.has(tokens[1]?.image ?? '')) return undefined;
  const odd = word(1) || is(1, 'STRING') ? 2 : 1;
  const message = is(1, 'NUMBER')
    ? `A name starts with a letter, and a designator stands in quotes: \`${kind} "${tokens[1]!.image}"\`.`
    : `\`${tokens[Math.min(odd, tokens.length - 1)]!.image}\` is too much in the head of this block. A head is \`${kind} Name\`; join the words of a name with hyphens.`;
  return problem('not-a-header', ...at(odd, tokens.length - 1), message);
}

function clauses({ tokens, statement, at, is, word }: Head): SyntaxProblem | undefined {
  const waive = statement.kind === 'waive';
  const isClause = (i: number) => (CLAUSE_ORDER as readonly string[]).includes(tokens[i]!.tokenType.name);
  if (!waive && (tokens.length === 1 || is(1, 'because'))) {
    const message =
      'What is required is missing. Write a condition: `require North.product <= 6000 L because "one delivery"`.';
    return problem('missing-condition', ...at(0), message);
  }
  if (waive && !word(1)) {
    const message = 'The check that is waived is missing. Write its code after `waive`.';
    return problem('missing-name', ...at(0), message);
  }
  let latest = -1;
  for (let i = waive ? 2 : 1; i < tokens.length; i++) {
    if (!isClause(i)) continue;
    const name = tokens[i]!.tokenType.name as (typeof CLAUSE_ORDER)[number];
    const expected = { because: 'STRING', by: 'STRING', until: 'DATE', on: '', while: '' }[name];
    const last = i === tokens.length - 1;
    if (last || isClause(i + 1) || (expected !== '' && !is(i + 1, expected))) {
      const what = expected === 'STRING' ? 'a text in quotes' : expected === 'DATE' ? 'a date' : 'what it speaks of';
      return problem('missing-value', ...at(i, i + 1), `After \`${name}\` comes ${what}: \`${EXAMPLES[name]}\`.`);
    }
    if (!waive && name !== 'because') {
      const message = `\`require\` takes a condition and \`because\`; \`${name}\` belongs to \`waive\`. Remove it.`;
      return problem('clause-order', ...at(i), message);
    }
    const place = CLAUSE_ORDER.indexOf(name);
    if (place < latest) {
      const message = `\`${name}\` stands before \`${CLAUSE_ORDER[latest]}\`. The order is: on, while, because, by, until.`;
      return problem('clause-order', ...at(i), message);
    }
    latest = Math.max(latest, place);
  }
  if (!waive) {
    const sign = tokens.findIndex(token => token.tokenType.name === 'SIGN');
    if (sign > 0) {
      const message =
        'A minus between two values has a blank on both sides, because names may hold hyphens. Write ` - `.';
      return problem('minus-needs-blanks', ...at(sign), message, { replace: '- ' });
    }
  }
  return undefined;
}

function use({ tokens, at, is }: Head): SyntaxProblem | undefined {
  if (!is(1, 'STRING')) {
    const message =
      'The path of the file is missing. Write it in quotes, as seen from this file: `use "../library/plant.broom" as Plant`.';
    return problem('missing-value', ...at(0, 1), message);
  }
  if (is(2, 'as') && tokens.length === 3) {
    return problem(
      'missing-name',
      ...at(2),
      'The name that the file gets here is missing. Write it after `as`, or leave `as` out.',
    );
  }
  return undefined;
}

function other({ tokens, at, is, word }: Head): SyntaxProblem | undefined {
  const first = tokens[0]!;
  const { name } = first.tokenType;
  if (RESERVED.has(name)) return undefined;
  if (is(0, '{')) {
    return problem(
      'not-a-header',
      ...at(0),
      'A block starts with its kind and mostly a name. Write them before this `{`: `kind Name {`.',
    );
  }
  if (OPERATORS.has(name)) {
    const message = `A line can't start with \`${first.image}\`. Put it at the end of the line before, which then goes on here.`;
    return problem('operator-at-line-start', ...at(0), message);
  }
  if (word(0)) {
    if (tokens.length === 1) {
      const message = `\`${first.image}\` alone says nothing. Write \`${first.image}: value\`, or \`${first.image} Name { … }\` for a block.`;
      return problem('missing-colon', ...at(0), message);
    }
    if (is(1, '=')) {
      const message = `A value is given with a colon. Write \`${first.image}:\` in place of \`${first.image} =\`.`;
      return problem('missing-colon', ...at(0, 1), message, { replace: ':' });
    }
    if (isValueStart(tokens[1]!)) {
      const message = `The colon after \`${first.image}\` is missing. Write \`${first.image}: ${tokens[1]!.image} …\`.`;
      return problem('missing-colon', ...at(0), message, { insert: ':', at: first.endOffset! + 1 });
    }
  }
  const message =
    name === 'NUMBER' || name === 'DATE' || name === 'CLOCK' || name === 'RATIO' || name === 'STRING'
      ? `A line starts with a word: a property, a block or a keyword. \`${first.image}\` can start a line only in a table.`
      : undefined;
  return message === undefined ? undefined : problem('unreadable-text', ...at(0), message);
}

function isValueStart(token: Token): boolean {
  const { name } = token.tokenType;
  return (
    [
      'NUMBER',
      'STRING',
      'DATE',
      'CLOCK',
      'RATIO',
      '(',
      '-',
      '−',
      'SIGN',
      'table',
      '<',
      '<=',
      '≤',
      '>',
      '>=',
      '≥',
    ].includes(name) || isWord(token)
  );
}

function brackets({ tokens, at }: Head): SyntaxProblem | undefined {
  const open: number[] = [];
  for (let i = 0; i < tokens.length; i++) {
    const { name } = tokens[i]!.tokenType;
    if (name === '(') open.push(i);
    else if (name === ')' && open.pop() === undefined) {
      return problem('stray-bracket', ...at(i), 'This `)` closes nothing. Remove it, or add the `(` it belongs to.', {
        remove: ')',
      });
    }
  }
  const last = open[open.length - 1];
  if (last === undefined) return undefined;
  const end = tokens[tokens.length - 1]!.endOffset! + 1;
  return problem(
    'bracket-not-closed',
    ...at(last),
    'This `(` is not closed. Add `)` where it ends, on the same line.',
    { insert: ')', at: end },
  );
}

/** `a < b < c` would compare a yes-or-no with c. */
function chained({ tokens, at }: Head): SyntaxProblem | undefined {
  const last = chainedAt(tokens);
  if (last === undefined) return undefined;
  const message =
    'Two comparisons in a row compare a yes or no with a value. Write both and join them: `a < b and b < c`.';
  return problem('chained-comparison', ...at(last), message);
}

/** Statements that the layout set apart: a block stands where none can be. */
export function explainOdd(layout: Layout): SyntaxProblem[] {
  const problems: SyntaxProblem[] = [];
  const visit = (statement: Statement): void => {
    // Blocks that nest too deep are reported by the layout.
    if (statement.broken && statement.kind !== 'block') problems.push(explainStatement(layout, statement));
    statement.body.forEach(visit);
  };
  layout.statements.forEach(visit);
  return problems;
}

/**
 * Sets apart what the grammar takes and nobody means: comparisons in a row, and a word alone on a line, which would be
 * a block without a name, body or meaning.
 */
export function guardMeaning(layout: Layout): SyntaxProblem[] {
  const problems: SyntaxProblem[] = [];
  const visit = (statement: Statement): void => {
    if (statement.kind !== 'block' && !statement.broken) {
      const lone = statement.kind === 'other' && statement.first === statement.last;
      const head = headOf(layout, statement);
      const found = lone ? explainStatement(layout, statement) : (chained(head) ?? negated(head));
      if (found !== undefined) {
        statement.broken = true;
        problems.push(found);
      }
    }
    statement.body.forEach(visit);
  };
  layout.statements.forEach(visit);
  return problems;
}

/** `not a < b` would negate `a` alone. */
function negated({ tokens, at, is, word }: Head): SyntaxProblem | undefined {
  for (let i = 0; i < tokens.length; i++) {
    if (!is(i, 'not') || is(i - 1, 'not')) continue;
    let end = i + 1;
    while (is(end, 'not')) end++;
    while (word(end) || is(end, '.')) end++;
    if (is(end, '(')) {
      let depth = 0;
      do depth += is(end, '(') ? 1 : is(end, ')') ? -1 : 0;
      while (++end < tokens.length && depth > 0);
    }
    const next = tokens[end]?.tokenType.name;
    if (next === undefined || !OPERATORS.has(next) || next === 'and' || next === 'or' || next === 'not') continue;
    const message = '`not` takes only what stands next to it. Put brackets round what is negated: `not (a < b)`.';
    return problem('not-needs-brackets', ...at(i), message);
  }
  return undefined;
}

/** Index of the second of two comparisons between the same brackets with no `and`, `or` or comma between. */
export function chainedAt(tokens: readonly Token[]): number | undefined {
  const seen = [false];
  for (let i = 0; i < tokens.length; i++) {
    const { name } = tokens[i]!.tokenType;
    if (name === '(') seen.push(false);
    else if (name === ')') seen.length > 1 && seen.pop();
    else if (name === ',' || name === ':' || name === 'and' || name === 'or') seen[seen.length - 1] = false;
    else if (COMPARISONS.has(name) && isValueEnd(tokens[i - 1])) {
      if (seen[seen.length - 1]) return i;
      seen[seen.length - 1] = true;
    }
  }
  return undefined;
}

function isValueEnd(token: Token | undefined): boolean {
  if (token === undefined) return false;
  const { name } = token.tokenType;
  return (
    ['NUMBER', 'UNIT', 'STRING', 'DATE', 'CLOCK', 'RATIO', ')'].includes(name) ||
    (isWord(token) && name !== 'require' && name !== 'while')
  );
}

function colons({ tokens, at, is, word }: Head): SyntaxProblem | undefined {
  let depth = 0;
  for (let i = 2; i < tokens.length; i++) {
    if (is(i, '(')) depth++;
    else if (is(i, ')')) depth--;
    else if (is(i, ':') && depth === 0) {
      if (is(i - 1, 'NUMBER') && is(i + 1, 'NUMBER')) {
        const ratio = `${tokens[i - 1]!.image}:${tokens[i + 1]!.image}`;
        return problem('unreadable-text', ...at(i - 1, i + 1), `A ratio has no blanks. Write \`${ratio}\`.`, {
          replace: ratio,
        });
      }
      if (word(i - 1) && i > 2) {
        const name = tokens[i - 1]!.image;
        const message = `\`${name}:\` starts another property. Put it on a line of its own, or a comma before it.`;
        return problem('unreadable-text', ...at(i - 1, i), message, { insert: ',', at: tokens[i - 2]!.endOffset! + 1 });
      }
      return problem('unreadable-text', ...at(i), 'This colon means nothing here. Remove it.', { remove: ':' });
    }
  }
  return undefined;
}

function reserved({ tokens, at, is }: Head): SyntaxProblem | undefined {
  const asName = (i: number) => i === 0 || is(i - 1, '.') || (is(i, 'table') && !(is(1, ':') && i === 2));
  const found = tokens.findIndex((token, i) => RESERVED.has(token.tokenType.name) && asName(i));
  if (found < 0) return undefined;
  const word = tokens[found]!.image;
  const message = `\`${word}\` has a meaning of its own and can't be a name. Choose another word, for instance \`${word}-1\`.`;
  return problem('reserved-word', ...at(found), message);
}

/** An operator or a comma with nothing on one of its sides. */
function operands({ tokens, at, is }: Head): SyntaxProblem | undefined {
  for (let i = 1; i < tokens.length; i++) {
    const { name } = tokens[i]!.tokenType;
    const next = tokens[i + 1];
    if (name === '.') {
      if (next === undefined || !isWord(next)) {
        const message = `A name is missing after \`${tokens[i - 1]!.image}.\`. Write which part or quantity of it is meant.`;
        return problem('missing-operand', ...at(i), message);
      }
      continue;
    }
    if (name === ',' && (next === undefined || is(i + 1, ',') || is(i - 1, ':') || is(i - 1, '(') || is(i + 1, ')'))) {
      return problem(
        'missing-value',
        ...at(i),
        'A comma parts two items, and one of them is missing here. Add it, or remove the comma.',
      );
    }
    if (!OPERATORS.has(name)) continue;
    const signs = name === '-' || name === '−' || name === 'SIGN' || name === 'not';
    const limit = ['<', '<=', '≤', '>', '>=', '≥'].includes(name) && (is(i - 1, ':') || is(i - 1, ','));
    const rightMissing =
      next === undefined ||
      is(i + 1, ',') ||
      is(i + 1, ')') ||
      (OPERATORS.has(next.tokenType.name) && !['-', '−', 'SIGN', 'not'].includes(next.tokenType.name));
    const leftMissing = !signs && !limit && !isValueEnd(tokens[i - 1]);
    if (rightMissing || leftMissing) {
      const side = rightMissing ? 'after' : 'before';
      return problem(
        'missing-operand',
        ...at(i),
        `A value is missing ${side} \`${tokens[i]!.image}\`. Add it, or remove the operator.`,
      );
    }
  }
  return undefined;
}

function unreadable({ tokens, at, is }: Head): SyntaxProblem {
  const doubled = tokens.findIndex((_, i) => is(i, 'UNIT') && !is(i - 1, 'NUMBER'));
  if (doubled > 0) {
    const message = `The unit \`${tokens[doubled]!.image}\` has no number. Write the number before it.`;
    return problem('unreadable-text', ...at(doubled), message);
  }
  const first = tokens[0]!.image;
  const second = tokens.length > 2 && isWord(tokens[0]) ? ` after \`${first}\`` : '';
  const message = `What stands${second} here can't be read as a statement, so it is left out. Compare it with \`name: value\` or \`kind Name { … }\`.`;
  return problem('unreadable-text', ...at(0, tokens.length - 1), message);
}

function explainRow(tokens: readonly Token[], row: Row): SyntaxProblem {
  const first = tokens[row.first]!;
  const last = tokens[row.last]!;
  const message =
    'A row of a table holds numbers, texts, dates, times or single words, parted by blanks. This row is left out.';
  const comma = tokens.slice(row.first, row.last + 1).some(token => token.tokenType.name === ',');
  const said = comma ? 'The cells of a row are parted by blanks, not by commas. This row is left out.' : message;
  return problem('table-row', first.startOffset, last.endOffset! + 1, said);
}

/** Ways of mending that are tried for one statement; each costs a run of the parser. */
const MOST_WAYS = 16;

/** Other ways to read a broken statement's head, the fullest first. The parser takes the first that it can read. */
export function* mend(layout: Layout, statement: Statement, types: TokenTypes): Generator<Token[]> {
  const tokens = layout.tokens.slice(statement.first, statement.headLast + 1);
  const last = tokens[tokens.length - 1];
  if (statement.kind === 'other' && isWord(tokens[0]) && tokens.length > 1) {
    const rest = tokens[1]!.tokenType.name === '=' ? tokens.slice(2) : tokens.slice(1);
    yield [tokens[0]!, virtualToken(types[':']!, tokens[0], ':'), ...rest];
  }
  let open = 0;
  for (const token of tokens) open += token.tokenType.name === '(' ? 1 : token.tokenType.name === ')' ? -1 : 0;
  if (open > 0 && open <= DEPTH_LIMITS.brackets) {
    yield [...tokens, ...Array.from({ length: open }, () => virtualToken(types[')']!, last, ')'))];
  }
  let ways = 0;
  for (let i = tokens.length - 1; i >= 1 && ways < MOST_WAYS; i--) {
    if (!endsBefore(statement, tokens, i)) continue;
    ways++;
    yield tokens.slice(0, i);
  }
}

/** Whether what stands before the token at `i` may be whole without the rest. */
function endsBefore(statement: Statement, tokens: readonly Token[], i: number): boolean {
  const { name } = tokens[i]!.tokenType;
  switch (statement.kind) {
    case 'block':
      return i <= MOST_WAYS;
    case 'require':
    case 'waive':
      return i > 1 && (CLAUSE_ORDER as readonly string[]).includes(name);
    case 'use':
      return i === 2;
    case 'property':
      // The comma may have been meant to end this statement, in a body of one line.
      return i > 2 && name === ',';
    default:
      return false;
  }
}
