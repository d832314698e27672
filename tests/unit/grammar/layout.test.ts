import { describe, expect, test } from 'vitest';
import { codes, parse, show } from './helpers.ts';
import { SKETCH } from './sketch.ts';

/** Names of statements, nested in brackets: `Main[length end[displaced]]`. */
function outline(text: string): string {
  const of = (node: { $type: string }): string => {
    const one = node as {
      $type: string;
      name?: string;
      label?: string;
      kind?: string;
      entries?: { $type: string }[];
      text?: string;
    };
    const title = one.name ?? one.label ?? one.kind ?? one.text ?? one.$type;
    const inner = one.entries?.map(of).join(' ') ?? '';
    return inner === '' ? title : `${title}[${inner}]`;
  };
  return parse(text).document.items.map(of).join(' ');
}

describe('lines', () => {
  test('the sketch has no problem', () => expect(codes(SKETCH)).toEqual([]));

  test('a newline ends a property', () => {
    expect(codes('work A {\n    left:\n    right: 11 m\n}')).toEqual(['missing-value']);
    expect(outline('work A {\n    left: a\n    right: 11 m\n}')).toBe('A[left right]');
  });

  test('… except after a comma, after an operator and inside brackets', () => {
    expect(
      outline(
        'work A {\n    x: B,\n       C\n    y: 1 +\n       2\n    z: f(\n       a: 1,\n       b: 2\n    )\n    w: 1\n}',
      ),
    ).toBe('A[x y z w]');
    expect(
      codes('work A {\n    x: B,\n       C\n    y: 1 +\n       2\n    z: f(\n       a: 1,\n       b: 2\n    )\n}'),
    ).toEqual([]);
  });

  test('a line that starts a statement ends what hangs before it', () => {
    const text = 'work A {\n    x: B,\n    y: 1 +\n    z: f(1\n    step S { a: 1 }\n    w: 2\n}';
    expect(outline(text)).toBe('A[x y: 1 + z S[a] w]');
    expect(codes(text)).toEqual(['stray-comma', 'missing-operand', 'bracket-not-closed']);
  });

  test('clauses go on over lines', () => {
    const text =
      'require a < 3\n    because "x"\nwaive c\n    on N.A\n    while a > 2\n    because "y"\n    by "z"\n    until 2031-01-01\n';
    expect(codes(text)).toEqual([]);
    expect(parse(text).document.items.map(show)).toHaveLength(2);
  });

  test('a property named like a clause is a property', () => {
    expect(outline('step A {\n    require a < 3\n    by: scrubbers\n    on: Main\n}')).toBe('A[Require by on]');
  });

  test('the brace may stand on the next line', () =>
    expect(outline('runway Main\n{\n    length: 3 m\n}')).toBe('Main[length]'));
});

describe('one-line bodies', () => {
  test('a comma parts statements when another follows, otherwise items', () => {
    expect(outline('role R { kind: sprayer, width: >= 6 m }')).toBe('R[kind width]');
    expect(outline('closure N { hours: 23:00 to 05:00, Mon to Thu }')).toBe('N[hours]');
    expect(outline('work N { scrubbers: A, B, bays: 3 }')).toBe('N[scrubbers bays]');
    expect(outline('method M { x: A, B, step S { a: 1 }, without C, D, require x < 2, y: 3 }')).toBe(
      'M[x S[a] Without Require y]',
    );
    expect(outline('runway M { end "04" { a: 1 } end "22" }')).toBe('M[04[a] 22]');
  });

  test('a comma that nothing follows is a warning', () => {
    expect(parse('role R { kind: sprayer, }').problems).toMatchObject([{ code: 'stray-comma', severity: 'warning' }]);
    expect(codes('role R {\n    kind: sprayer,\n    width: 6 m,\n}')).toEqual(['stray-comma', 'stray-comma']);
    expect(outline('role R {\n    kind: sprayer,\n    width: 6 m,\n}')).toBe('R[kind width]');
  });
});

describe('tables', () => {
  const table = (rows: string) =>
    `deposit D {\n    stations: table chainage m, left m, right m\n${rows}\n    on: Main\n}`;
  test('rows are lines that start with a number, a sign, a text, a date or a clock time', () => {
    const { document, problems } = parse(
      table('    1 2 3\n\n    -1 − 2 3 // far\n    "a" word 3 m\n    2031-01-02 3\n    23:00 4'),
    );
    expect(problems).toEqual([]);
    expect(show(document.items[0])).toContain(
      'rows=[Row(cells=[Cell(value=1) Cell(value=2) Cell(value=3)]) Row(cells=[Cell(negative=true value=1) Cell(negative=true value=2) Cell(value=3)]) Row(cells=[Cell(text=a) Cell(word=word) Cell(unit=m value=3)]) Row(cells=[Cell(date=2031-01-02) Cell(value=3)]) Row(cells=[Cell(clock=23:00) Cell(value=4)])]',
    );
    expect(show(document.items[0])).toContain('Property(name=on');
  });
  test('a row that can’t be read is left out, the others stay', () => {
    const { document, problems } = parse(table('    1 2 3\n    4, 5, 6\n    7 ( 9\n    8 8 8'));
    expect(problems.map(one => one.code)).toEqual(['table-row', 'table-row']);
    expect(show(document.items[0]).match(/Row\(/g)).toHaveLength(2);
  });
  test('column names may be units', () => {
    expect(show(parse('deposit D {\n    s: table m m, s s\n    1 2\n}').document.items[0])).toContain(
      'columns=[Column(name=m unit=m) Column(name=s unit=s)]',
    );
  });
  test('a header that can’t be read', () => {
    expect(codes('deposit D {\n    s: table\n    x: 1\n}')).toEqual(['table-header']);
    expect(codes('deposit D {\n    s: table a m b m\n      1 2\n    x: 1\n}')).toEqual(['table-header']);
  });
});

describe('braces', () => {
  const lines = SKETCH.split('\n');

  test('a top-level block closes what is open before it', () => {
    const text = 'runway Main {\n    length: 3 m\n\ndeposit D {\n    on: Main\n}';
    expect(outline(text)).toBe('Main[length] D[on]');
    expect(parse(text).problems).toMatchObject([{ code: 'block-not-closed', offset: text.indexOf('{') }]);
    expect(text.slice(0, Number(parse(text).problems[0]?.data.at))).toBe('runway Main {\n    length: 3 m');
  });

  test('… but not one that is nested on purpose', () => {
    expect(outline('airport T {\n    runway Main {\n        length: 3 m\n    }\n    x: 1\n}')).toBe(
      'T[Main[length] x]',
    );
    expect(codes('airport T {\n    runway Main {\n        length: 3 m\n    }\n    x: 1\n}')).toEqual([]);
  });

  test('a missing brace of a nested block is found by indentation', () => {
    const text = 'method M {\n    step A {\n        x: 1\n    step B {\n        y: 2\n    }\n}\nwork W { z: 3 }';
    expect(outline(text)).toBe('M[A[x] B[y]] W[z]');
    expect(parse(text).problems).toMatchObject([{ code: 'block-not-closed', offset: text.indexOf('{', 12) }]);
  });

  test('odd indentation is no problem while braces balance', () => {
    expect(outline('runway M {\n        end "04" {\n    a: 1\n}\nb: 2\n}')).toBe('M[04[a] b]');
  });

  test('a surplus brace costs nothing', () => {
    const text = 'method M {\n    step A {\n        x: 1\n        }\n    }\n    step B { y: 2 }\n}\nwork W { z: 3 }';
    expect(outline(text)).toBe('M[A[x] B[y]] W[z]');
    expect(codes(text)).toEqual(['stray-brace']);
    expect(codes('}\nwork W { z: 3 }}')).toEqual(['stray-brace', 'stray-brace']);
  });

  test('a missing opening brace', () => {
    const text = 'runway Main\n    length: 3 m\n    width: 4 m\n}\nwork W { z: 3 }';
    expect(outline(text)).toBe('Main[length width] W[z]');
    expect(codes(text)).toEqual(['brace-missing']);
  });

  test('without any one of its braces, every other block of the sketch is as it was', () => {
    const blocks = (text: string) =>
      new Map(
        parse(text)
          .document.items.filter(item => item.$type === 'Block')
          .map(item => [(item as { name?: string }).name, show(item)]),
      );
    const before = blocks(SKETCH);
    for (let i = 0; i < SKETCH.length; i++) {
      if (SKETCH[i] !== '}' && SKETCH[i] !== '{') continue;
      const text = SKETCH.slice(0, i) + SKETCH.slice(i + 1);
      const line = SKETCH.slice(0, i).split('\n').length - 1;
      let first = line;
      while (!/^[a-z]/.test(lines[first]!)) first--;
      const owner = /^\w+ (\w+)/.exec(lines[first]!)?.[1];
      const after = blocks(text);
      for (const [name, shown] of before)
        if (name !== owner) expect(after.get(name), `without the brace in line ${line + 1}`).toBe(shown);
      expect(codes(text).length, `line ${line + 1}`).toBeGreaterThan(0);
    }
  });
});
