/** Every fixed text of the preview and its figures goes through the reader's words. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { english, said, tell, translator } from '../../language/pictures/words.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const table = JSON.parse(readFileSync(join(root, 'extension/l10n/bundle.l10n.json'), 'utf8')) as Record<string, string>;

/** Attributes that a person reads or hears. */
const shown = new Set(['aria-label', 'aria-valuetext', 'aria-description', 'title', 'alt', 'placeholder', 'label']);
const words = /\p{L}/u;

/** Texts in a file's JSX that a person would see as they stand: between tags, and in attributes that are read. */
function bareTexts(name: string, text: string): readonly string[] {
  const source = ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true, ts.ScriptKind.TSX);
  const found: string[] = [];
  const report = (node: ts.Node, what: string): void => {
    if (!words.test(what)) return;
    found.push(`${name}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${what.trim()}`);
  };
  /** What an expression may come to, where it says so itself. */
  const value = (node: ts.Expression): void => {
    if (ts.isStringLiteralLike(node)) report(node, node.text);
    else if (ts.isTemplateExpression(node)) {
      report(node, node.head.text);
      for (const { expression, literal } of node.templateSpans) {
        value(expression);
        report(node, literal.text);
      }
    } else if (ts.isConditionalExpression(node)) {
      value(node.whenTrue);
      value(node.whenFalse);
    } else if (ts.isParenthesizedExpression(node)) value(node.expression);
    else if (ts.isArrayLiteralExpression(node)) node.elements.forEach(value);
    else if (ts.isBinaryExpression(node)) {
      const { kind } = node.operatorToken;
      if (kind === ts.SyntaxKind.PlusToken) value(node.left);
      if (
        [
          ts.SyntaxKind.PlusToken,
          ts.SyntaxKind.BarBarToken,
          ts.SyntaxKind.AmpersandAmpersandToken,
          ts.SyntaxKind.QuestionQuestionToken,
        ].includes(kind)
      )
        value(node.right);
      if (kind === ts.SyntaxKind.BarBarToken || kind === ts.SyntaxKind.QuestionQuestionToken) value(node.left);
    }
  };
  const visit = (node: ts.Node): void => {
    if (ts.isJsxText(node)) report(node, node.text);
    if (ts.isJsxExpression(node) && node.expression && !ts.isJsxAttribute(node.parent)) value(node.expression);
    if (ts.isJsxAttribute(node) && shown.has(node.name.getText())) {
      const { initializer } = node;
      if (initializer && ts.isStringLiteral(initializer)) report(initializer, initializer.text);
      if (initializer && ts.isJsxExpression(initializer) && initializer.expression) value(initializer.expression);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

describe('the texts of the page', () => {
  const folders = ['extension/preview', 'language/pictures'];
  const files = folders.flatMap(folder =>
    readdirSync(join(root, folder))
      .filter(name => name.endsWith('.tsx'))
      .map(name => `${folder}/${name}`),
  );

  test.each(files)('%s shows no literal text', name => {
    expect(bareTexts(name, readFileSync(join(root, name), 'utf8'))).toEqual([]);
  });

  test.each([
    ['between tags', '<p>Findings</p>'],
    ['in an expression', "<p>{late && ' late'}</p>"],
    ['in a choice', "<p>{late ? 'late' : t('in time')}</p>"],
    ['in a template', `<p>{\`\${n} errors\`}</p>`],
    ['in a list', "<p>{[n, ' errors']}</p>"],
    ['for a fallback', "<p>{name ?? 'no name'}</p>"],
    ['in a label', '<p aria-label="Runway" />'],
    ['in a title', '<p title={on ? t("on") : "off"} />'],
  ])('a literal %s is found', (_, text) => {
    expect(bareTexts('some.tsx', text)).toHaveLength(1);
  });

  test('what is no text is left alone', () => {
    expect(
      bareTexts('some.tsx', "<p class=\"fact\" title={t('x')}>{state === 'kept' && t('kept')}{' '}{12} ×3</p>"),
    ).toEqual([]);
  });

  test('are in the table that a translation starts from, and those of the host are still there', () => {
    for (const text of ['Play the closure', 'Copy the table', 'wet now', '{0}, start of the deposit', 'Soak, least'])
      expect(table).toHaveProperty([text]);
    expect(table).toHaveProperty(['Broomline Preview']);
  });
});

describe('words', () => {
  const t = translator({ 'back {0}, {1} spare': '{1} Reserve, zurück {0}', strange: 7 });

  test('values stand where the translation has them; what is not in the table stays English', () => {
    expect(t('back {0}, {1} spare', '04:10', '20 min')).toBe('20 min Reserve, zurück 04:10');
    expect(t('back {0}', '04:10')).toBe('back 04:10');
    expect(t('strange')).toBe('strange');
    expect(t('toString')).toBe('toString');
    expect(t('{0} of {1}', 3)).toBe('3 of {1}');
  });

  test('a value is no pattern: what stands in braces in a name stays as it is', () => {
    expect(english('{0}, {1}', '{1}', 'x')).toBe('{1}, x');
    expect(tell(t, said('back {0}, {1} spare', 1, 2))).toBe('2 Reserve, zurück 1');
  });
});
