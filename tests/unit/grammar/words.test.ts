import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isWord, RESERVED } from '../../../language/grammar/tokens.ts';
import { codes, parse, show, syntax } from './helpers.ts';

const grammar = readFileSync(new URL('../../../language/grammar/broomline.langium', import.meta.url), 'utf8');
const wordRule = /Word returns string:([\s\S]*?);/.exec(grammar)![1]!;
const soft = [...wordRule.matchAll(/'([a-z]+)'/g)].map(match => match[1]!);

describe('keywords', () => {
  test('every keyword is a name as well, or reserved', () => {
    const keywords = Object.keys(syntax.services.parser.Lexer.definition).filter(name => /^[a-z]+$/.test(name));
    expect([...soft, ...RESERVED].sort()).toEqual(keywords.sort());
    expect(
      keywords
        .filter(word => isWord({ image: word, tokenType: syntax.services.parser.Lexer.definition[word] } as never))
        .sort(),
    ).toEqual(soft.sort());
  });

  test.each(soft)('%s names blocks, properties, parameters, members, arguments, columns and checks', word => {
    const text = `runway ${word} {
    ${word}: ${word}.${word} + ${word}(${word}: 1), ${word}
    other: table ${word} m, ${word}
           1 ${word}
    step ${word} { ${word}: 2, ${word}: 3 }
}
method M(${word}: time = ${word}) like ${word} {
    without ${word}, A
    ${word}: >= ${word}
}
require ${word} <= ${word} because "x"
require ${word}.${word} > 2
waive ${word} on ${word} while ${word} > 3 because "y" by "z"
use "x.broom" as ${word}
`;
    expect(codes(text)).toEqual([]);
    const { document } = parse(text);
    expect(document.items.map(item => item.$type)).toEqual(['Block', 'Block', 'Require', 'Require', 'Waive', 'Use']);
    expect(show(document.items[0])).toContain(
      `Property(name=${word} value=List(items=[Phrase(parts=[Binary(left=Reference(head=^${word} tail=[^${word}]) operator=+ right=Reference(arguments=[Argument(parameter=^${word}`,
    );
  });

  test.each([...RESERVED])('%s as a name is explained', word => {
    expect(codes(`work W {\n    ${word}: 3\n}`)).toEqual(['reserved-word']);
    expect(codes(`work W {\n    x: a.${word}\n}`)).toEqual(['reserved-word']);
  });
});
