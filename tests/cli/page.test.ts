/** `broomline page`: the reference in the terminal. */
import { describe, expect, test } from 'vitest';
import { pageNamed, pageNames } from '../../language/documents/reference.ts';
import { pageText } from '../../server/cli/pageText.ts';
import { plain, width } from '../../server/cli/terminal.ts';
import { broomline } from './command.ts';

describe('page', () => {
  test('of a kind of block', async () => {
    const { status, out } = await broomline(['page', 'broom']);
    expect(status).toBe(0);
    expect(out).toMatch(/^broom\n\nA rotary broom/);
    expect(out).toMatch(/^ {2}width +Nominal width of the broom/m);
    expect(out).toContain('needed: always.');
    expect(out).toContain('default: 0 °.');
    expect(out).toMatch(/^ {4}broom Broom1 \{\n {8}width:/m);
    expect(out).not.toMatch(/[`|]|\]\(/);
  });

  test('of a check, by its code', async () => {
    const { status, out } = await broomline(['page', 'trial-missing']);
    expect(status).toBe(0);
    expect(out).toContain('Why it matters\n\n');
    expect(out).toContain('trial-missing');
  });

  test('a word that is near gets a hint, another one where to look', async () => {
    expect(await broomline(['page', 'brom'])).toMatchObject({
      status: 2,
      err: expect.stringContaining('Did you mean broom'),
    });
    expect((await broomline(['page', 'zzzzzzzz'])).err).toContain('broomline page reference');
    expect((await broomline(['page'])).status).toBe(2);
    expect((await broomline(['page', 'broom', 'jet'])).status).toBe(2);
    expect((await broomline(['page', 'broom', '--units', 'us'])).err).toContain('--units says nothing to page');
  });

  test('every page keeps the columns, examples and long words aside, and loses no word', () => {
    for (const name of pageNames()) {
      const markdown = pageNamed(name)!;
      const text = pageText(markdown, { paint: plain, columns: 80 });
      const tooWide = text
        .split('\n')
        .filter(line => width(line) > 80 && !line.startsWith('    ') && !/\S{60}/.test(line));
      expect(tooWide, name).toEqual([]);
      // Everything said in a table's cells is still there.
      const words = markdown.match(/(?<=\| )[A-Za-z][a-z]+ [a-z]+ [a-z]+/g) ?? [];
      const flat = text.replace(/\s+/g, ' ').toLowerCase();
      for (const each of words.filter(one => !/^(what|property|written)/.test(one)))
        expect(flat, name).toContain(each.toLowerCase());
    }
  });
});
