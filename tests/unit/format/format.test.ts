import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { format, formatEdits } from '../../../language/format/format.ts';
import type { BroomLexer } from '../../../language/grammar/lexer.ts';
import { parse, show, syntax } from '../grammar/helpers.ts';
import { SKETCH } from '../grammar/sketch.ts';

const tidy = (text: string) => format(text, syntax);

/** The tree and the comments: what formatting must not change. */
function meaning(text: string): string {
  const { comments } = (syntax.services.parser.Lexer as BroomLexer).layOut(text);
  const tree = parse(text)
    .document.items.map(show)
    .join('\n')
    .replace(/(value|version)=\./g, '$1=0.');
  return [tree, ...comments.map(one => one.image.trimEnd())].join('\n');
}

/** Every letter that is no blank, in its order, with the one spelling of operators and of numbers. */
function marks(text: string): string {
  return text
    .replace(/(?<![0-9])\.(?=[0-9])/g, '0.')
    .replace(/[\s\uFEFF]+/g, '')
    .replace(/\+\/-|≥|≤|≠|[×·]|−/g, sign => SPELT[sign] ?? '');
}
const SPELT: Readonly<Record<string, string>> = {
  '+/-': '±',
  '≥': '>=',
  '≤': '<=',
  '≠': '!=',
  '×': '*',
  '·': '*',
  '−': '-',
};

function checked(text: string): string {
  const once = tidy(text);
  expect(tidy(once)).toBe(once);
  expect(meaning(once)).toBe(meaning(text));
  expect(marks(once)).toBe(marks(text));
  return once;
}

describe('the layout', () => {
  test('a messy text', () => {
    const messy = `

broomline   1
use "a.broom"   as   A
runway Main{length :2450 m // long

/* wide */ width:45 m


  pavement  :  grooved   asphalt
    // both ends
  end "04"{displaced:120 m,x : -5 °C}
  end "22" { }   }
deposit D
{
 on:Main
   stations :table chainage m ,left m
 .5 9.25 // first
 300     -11

 "a"  far
    build-up:heavy
}
method M ( soak : time=35 min,rate:application rate ) like A . B{
step Apply{does:apply,by:x}
step Soak {at-least:soak}
role R {kind:broom}
}
require   a*2+b/(c - d)^2<=-3 m and not(x)   because"one"
  by: 1
waive c on D.x while(a>2)
because "x"
until 2031-01-01
work W { method: f( 1 , b : 2 ) , x: A ,
  B, C
  z: 2 m ^ 2 ± .5 m, q: a^b, r: 5 °C to -3 °C
}
// the end   `;
    expect(checked(messy)).toBe(`broomline 1
use "a.broom" as A

runway Main {
    length: 2450 m  // long

    /* wide */
    width: 45 m

    pavement: grooved asphalt
    // both ends
    end "04" { displaced: 120 m, x: -5 °C }
    end "22" { }
}

deposit D {
    on:         Main
    stations:   table chainage m, left m
                0.5  9.25  // first
                300   -11
                "a"  far
    build-up:   heavy
}

method M(soak: time = 35 min, rate: application rate) like A.B {
    step Apply { does: apply, by: x }
    step Soak  { at-least: soak }
    role R { kind: broom }
}

require a * 2 + b / (c - d)^2 <= -3 m and not (x) because "one"
by: 1
waive c on D.x while (a > 2)
    because "x"
    until 2031-01-01

work W {
    method: f(1, b: 2), x: A,
        B, C
    z: 2 m ^ 2 ± 0.5 m, q: a^b, r: 5 °C to -3 °C
}
// the end
`);
  });

  test('the sketch is laid out already, but for the braces of its steps and one comment', () => {
    const changed = checked(SKETCH)
      .split('\n')
      .filter((line, i) => line !== SKETCH.split('\n')[i]);
    expect(changed.map(line => line.trim().split(' ')[0])).toEqual(['broomline', 'step', 'step']);
  });

  test('operators are spelt in one way', () => {
    expect(checked('require a ≥ 3 and b≠2×c−1 or x +/- 2 < 5\n')).toBe(
      'require a >= 3 and b != 2 * c - 1 or x ± 2 < 5\n',
    );
  });

  test('names beside brackets and signs', () => {
    expect(checked('require (a)<min( 1,-b )\nrequire on(1) > on . by(2)\nwaive while while (while)>2\n')).toBe(
      'require (a) < min(1, -b)\nrequire on(1) > on.by(2)\nwaive while while (while) > 2\n',
    );
  });

  test('brackets over several lines', () => {
    expect(checked('method M(\na: time,\nb: time = f(\n1\n)\n) {\nx: 1\ny: f(\n1,\ng(\n2)\n)\n}\n')).toBe(`method M(
    a: time,
    b: time = f(
        1
    )
) {
    x:  1
    y:  f(
            1,
            g(
                2)
        )
}
`);
  });

  test('line endings and the empty text', () => {
    expect(checked('work A {\r\nx:1\r\n}\r\n\r\n\r\nwork B { y: 2 }')).toBe(
      'work A {\r\n    x: 1\r\n}\r\n\r\nwork B { y: 2 }\r\n',
    );
    expect(tidy('')).toBe('');
    expect(tidy('\n\n  \n')).toBe('');
    expect(checked('// only')).toBe('// only\n');
  });

  test('comments in odd places keep their place', () => {
    const text =
      'work A // head\n{ // body\n// first\nx: 1, // value\n1, /* a\n b */ 2\n// last\n}\nrequire a + // plus\n2\n';
    expect(checked(text)).toBe(
      'work A  // head\n{  // body\n    // first\n    x: 1,  // value\n       1, /* a\n b */\n       2\n    // last\n}\n\nrequire a +  // plus\n    2\n',
    );
  });
});

describe('what can’t be read stays', () => {
  test('a broken statement, letter by letter', () => {
    expect(checked('work A {\nx:1\n  y:  3   +   * (2\n     z:2\n}\n')).toBe(
      'work A {\n    x: 1\n    y:  3   +   * (2\n    z: 2\n}\n',
    );
  });
  test('a character that means nothing keeps its statement as it is; between statements it stays where it is', () => {
    expect(checked('work A {\nx:1\n  y:  3   @ 4\n     z:2  ;\n#\nv:5\n}\n')).toBe(
      'work A {\n    x: 1\n    y:  3   @ 4\n    z:  2 ;\n    #\n    v:  5\n}\n',
    );
    expect(checked('work   [A]   {\nx:1\n}\nwork  B  {  x:[1,2],  y:3 }\n')).toBe(
      'work   [A]   {\nx:1\n}\n\nwork B { x:[1,2 ], y: 3 }\n',
    );
    // One that can't be seen, in the middle of a word.
    expect(checked('work A {\n  wid\u200Bth:  1\n}\n')).toBe('work A {\n    wid\u200Bth:  1\n}\n');
    expect(checked('@')).toBe('@\n');
    expect(checked('  ;; \n\n\n @ ')).toBe(';;\n\n@\n');
  });
  test('a stretch whose braces don’t balance', () => {
    const open = 'runway   M {\n  length:3 m\n      end "04" {\n x:1\n}\n';
    expect(checked(`work A{x:1}\n${open}work B{y:2}`)).toBe(`work A { x: 1 }\n${open.trimEnd()}\nwork B { y: 2 }\n`);
  });
});

describe('as edits', () => {
  const apply = (text: string, edits: ReturnType<typeof formatEdits>) =>
    [...edits]
      .reverse()
      .reduce((at, { offset, end, text: wanted }) => at.slice(0, offset) + wanted + at.slice(end), text);

  test('all edits together are the formatted text', () => {
    for (const text of [SKETCH, SKETCH.replace(/ +/g, ' '), SKETCH.replace(/\n {4}/g, '\n'), 'x', '  work A{x:1}  ']) {
      expect(apply(text, formatEdits(text, syntax))).toBe(tidy(text));
    }
  });
  test('edits of a range touch that range', () => {
    const text = 'work A {\nx:1\n}\nwork B {\ny:2\n}\n';
    const edits = formatEdits(text, syntax, { offset: 0, end: 13 });
    expect(apply(text, edits)).toBe('work A {\n    x: 1\n}\nwork B {\ny:2\n}\n');
  });
  test('a laid out text has none', () => expect(formatEdits(tidy(SKETCH), syntax)).toEqual([]));
});

describe('any text', () => {
  const words = SKETCH.split(/(\s+)/);
  test('with other blanks, the sketch comes out as it is', () => {
    const expected = tidy(SKETCH);
    const blank = fc.constantFrom(' ', '  ', '\t', ' \t ', '\u00A0');
    fc.assert(
      fc.property(fc.array(blank, { minLength: words.length, maxLength: words.length }), blanks => {
        // Blanks at random where there are some; line breaks stay.
        const text = words.map((word, i) => (/^\s+$/.test(word) && !word.includes('\n') ? blanks[i]! : word)).join('');
        const fromText = text.replace(/"[^"\n]*"|\/\/.*|\/\*.*?\*\//g, one => one.replace(/\s+/g, ' '));
        const wanted = expected.replace(/"[^"\n]*"|\/\/.*|\/\*.*?\*\//g, one => one.replace(/\s+/g, ' '));
        expect(tidy(fromText)).toBe(wanted);
      }),
      { numRuns: 60 },
    );
  });

  test('formatting twice changes nothing, and nothing changes its meaning', () => {
    const inserts = [
      '{',
      '}',
      '(',
      ')',
      '"',
      '/*',
      '*/',
      '// x\n',
      '\n',
      '\n\n',
      ',',
      ':',
      '-',
      '^',
      '@',
      '≥',
      '.5',
      'table',
      'not',
      'a',
      '3 m',
    ];
    const edit = fc.record({ at: fc.nat(SKETCH.length), length: fc.nat(12), insert: fc.constantFrom(...inserts) });
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), edits => {
        let text = SKETCH;
        for (const { at, length, insert } of edits) text = text.slice(0, at) + insert + text.slice(at + length);
        checked(text);
      }),
      { numRuns: 300 },
    );
  });

  test('the check of the result is not what keeps it right: nothing well-formed is given back unchanged', () => {
    fc.assert(
      fc.property(fc.nat(SKETCH.length - 1), at => {
        const gap = SKETCH.slice(at).search(/[ \n]/) + at;
        const text = `${SKETCH.slice(0, gap)} ${SKETCH.slice(gap)}`;
        if (parse(text).problems.length > 0) return;
        const inText = /"[^"\n]*$|\/[/*].*$/.test(SKETCH.slice(0, gap).split('\n').pop()!);
        if (!inText) expect(tidy(text)).toBe(tidy(SKETCH));
      }),
      { numRuns: 100 },
    );
  });
});
