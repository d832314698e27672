/**
 * Where a cursor stands, read from the text before it. Completion and signature help work on text that is being typed, and
 * such text often can't be parsed at that very place; this reads only what is needed: which blocks are open, and what
 * stands of the statement so far.
 */

export interface OpenBlock {
  readonly kind: string;
  readonly name: string;
  /** Where the kind word begins; the syntax tree's block begins there too. */
  readonly start: number;
}

export interface Cursor {
  /** Blocks around the place, outermost first. */
  readonly blocks: readonly OpenBlock[];
  /** What stands of the statement before the cursor; blanks in front left out, comments blanked. */
  readonly statement: string;
  /** Where that begins. */
  readonly start: number;
  readonly inComment: boolean;
  /** Inside an open text `"…`; its beginning is part of `statement`. */
  readonly inText: boolean;
  /** Inside the rows of a table. */
  readonly inRows: boolean;
}

/** Reads the text up to `offset`, once, from the start. Total. */
export function cursorAt(text: string, offset: number): Cursor {
  const blocks: OpenBlock[] = [];
  let start = 0;
  let parens = 0;
  let inRows = false;
  let inText = false;
  let inComment = false;
  /** The last character that is no blank and no comment, since the statement began. */
  let last = '';
  let at = 0;
  const begin = (from: number) => {
    start = from;
    parens = 0;
    last = '';
  };
  while (at < offset) {
    const char = text[at]!;
    if (char === '/' && text[at + 1] === '/') {
      const end = endOr(text.indexOf('\n', at), text.length);
      if (end >= offset) {
        inComment = true;
        break;
      }
      at = end;
      continue;
    }
    if (char === '/' && text[at + 1] === '*') {
      const end = endOr(text.indexOf('*/', at + 2), text.length);
      if (end + 2 > offset) {
        inComment = true;
        break;
      }
      at = end + 2;
      continue;
    }
    if (char === '"') {
      const end = endOfText(text, at);
      if (end > offset || (end === offset && text[end - 1] !== '"') || end - at === 1) {
        inText = end >= offset;
        if (inText) break;
      }
      last = '"';
      at = end;
      continue;
    }
    switch (char) {
      case '{': {
        const head = headOf(text.slice(start, at));
        blocks.push({ ...head, start: start + head.start });
        inRows = false;
        begin(at + 1);
        break;
      }
      case '}':
        blocks.pop();
        inRows = false;
        begin(at + 1);
        break;
      case '(':
        parens++;
        last = char;
        break;
      case ')':
        parens = Math.max(0, parens - 1);
        last = char;
        break;
      case '\n': {
        const table = /^\s*[\w-]+\s*:\s*table\b/.test(text.slice(start, at));
        if (inRows || (table && last !== ',')) {
          inRows = isRow(text, at + 1, offset);
          begin(at + 1);
        } else if (!goesOn(last, parens)) begin(at + 1);
        break;
      }
      case ',':
        // In one line, a comma parts statements where a name and a colon follow.
        if (parens === 0 && blocks.length > 0 && /^[ \t]*[A-Za-z][\w-]*[ \t]*:/.test(text.slice(at + 1, at + 60)))
          begin(at + 1);
        else last = char;
        break;
      default:
        if (!/\s/.test(char)) last = char;
    }
    at++;
  }
  const raw = text.slice(start, offset);
  const statement = inText ? raw.trimStart() : blanked(raw).trimStart();
  return { blocks, statement, start: start + (raw.length - raw.trimStart().length), inComment, inText, inRows };
}

function endOr(index: number, otherwise: number): number {
  return index < 0 ? otherwise : index;
}

/** The offset behind a text that begins at `at`; it ends with its line if its closing quote is missing. */
function endOfText(text: string, at: number): number {
  for (let i = at + 1; i < text.length; i++) {
    const char = text[i];
    if (char === '\\') i++;
    else if (char === '"') return i + 1;
    else if (char === '\n') return i;
  }
  return text.length;
}

/** A line break does not end a statement after an operator or a comma, nor in brackets. */
function goesOn(last: string, parens: number): boolean {
  return parens > 0 || /[,+*/×·<>=≤≥≠^(:-]/.test(last || ' ');
}

/** Rows begin with a number, a sign or a quote, or are words parted by blanks without a colon. */
function isRow(text: string, from: number, offset: number): boolean {
  const line = text.slice(from, Math.min(endOr(text.indexOf('\n', from), text.length), Math.max(offset, from)));
  return (
    /^\s*$/.test(line) ||
    /^\s*[-−+\d"]/.test(line) ||
    (/^\s+[A-Za-z]/.test(line) && !/^\s*[\w-]+\s*[:{(]|^\s*[\w-]+\s+[\w-]+\s*\{|^\s*[\w-]*$/.test(line))
  );
}

function headOf(head: string): { kind: string; name: string; start: number } {
  const plain = blanked(head);
  const match = /^\s*([A-Za-z][\w-]*)(?:\s+("[^"]*"|[\p{L}_][\p{L}\p{N}_-]*))?/u.exec(plain);
  const kind = match?.[1] ?? '';
  return { kind, name: (match?.[2] ?? '').replace(/"/g, ''), start: plain.length - plain.trimStart().length };
}

/** Comments as blanks, so that offsets stay. */
function blanked(text: string): string {
  return text.replace(/"(?:[^"\\\n]|\\.)*"?|\/\/[^\n]*|\/\*[\s\S]*?(?:\*\/|$)/g, found =>
    found.startsWith('"') ? found : found.replace(/[^\n]/g, ' '),
  );
}
