/** Hovers: what a thing is, what it comes to in both systems of units, where it came from. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Hover, MarkupContent } from 'vscode-languageserver-protocol';
import { type Client, startClient } from './client.ts';
import { exampleFiles, FIRST, METHOD, PLANT, TENDER, WRONG } from './examples.ts';

let client: Client;
beforeAll(async () => {
  client = await startClient(exampleFiles());
  for (const name of [TENDER, METHOD, PLANT, FIRST, WRONG]) client.open(name);
});
afterAll(() => client.dispose());

async function hover(name: string, needle: string, nth = 1): Promise<string> {
  const found = await client.request<Hover | null>('textDocument/hover', client.at(name, needle, nth));
  return found ? (found.contents as MarkupContent).value : '';
}

describe('a property', () => {
  test('says what it takes, its range, its default and its source', async () => {
    const text = await hover(PLANT, 'turn-|speed');
    expect(text).toContain('**turn-speed** of a sprayer');
    expect(text).toContain('Takes a speed');
  });
  test('says what it comes to and where that came from, where it is not the line itself', async () => {
    // The work gives soak: 40 min; the method's own default is 35 min.
    const text = await hover(METHOD, 'at-|least: ');
    expect(text).toContain('at-least');
    expect(text).toMatch(/35 min/);
  });
  test('that binds a role says what the role asks for', async () => {
    const text = await hover(TENDER, 'appli|cator:');
    expect(text).toContain('role applicator');
    expect(text).toContain('width: >= 5 m');
  });
});

describe('a value', () => {
  test('stands in both systems of units and in further ones', async () => {
    const text = await hover(METHOD, '11|.3 km/h');
    expect(text).toContain('11.3 km/h');
    expect(text).toContain('7.02 mph');
    expect(text).toContain('In other units');
  });
  test('of a table cell too', async () => {
    expect(await hover(TENDER, ' 300 10|.5')).toMatch(/left.*10\.5 m.*ft/s);
  });
  test('of a plain word shows the property with its words', async () => {
    expect(await hover(TENDER, 'build-up: he|avy')).toContain('`very heavy`');
  });
});

describe('a computed quantity', () => {
  test('has its value, its formula in symbols and in numbers, its inputs with places, and its source', async () => {
    const text = await hover(TENDER, 'require North.pro|duct');
    expect(text).toMatch(/North\.product = [\d.]+ L \([\d.]+ gal\)/);
    expect(text).toMatch(/```text\n\S+ = .+\n\s+= .+\n```/);
    expect(text).toContain('| from |');
    expect(text).toMatch(/\[\S+\.broom:\d+\]\(file:\/\/\/airfield\//);
  });
});

describe('a block', () => {
  test('is summed up with what is computed of it', async () => {
    const text = await hover(TENDER, 'work No|rth');
    expect(text).toContain('**work North**');
    expect(text).toContain('product for North');
  });
  test('of a library shows where it stands', async () => {
    expect(await hover(TENDER, 'District.Bro|om1')).toMatch(/broom Broom1.*district-plant\.broom:/s);
  });
  test('kind is explained', async () => {
    expect(await hover(TENDER, 'clos|ure Nights')).toContain('**closure**');
  });
});

test('a step of a method shows what it comes to in a work', async () => {
  const text = await hover(METHOD, 'step Agi|tate');
  expect(text).toContain('**step Agitate**');
});

test('a step named under a work is found', async () => {
  client.edit(FIRST, `${client.files.get(FIRST)}require Removal.Agitate.circuits >= 2\n`);
  expect(await hover(FIRST, 'Removal.Agit|ate.')).toContain('In Removal:');
  expect(await hover(FIRST, 'Agitate.circ|uits')).toContain('Removal.Agitate.circuits');
});

test('a check code shows its page', async () => {
  expect(await hover(WRONG, 'waive wire-with|out-magnet')).toMatch(/Why it matters|There is no check/);
  expect(await hover(WRONG, 'waive broom-over|lap')).toMatch(/Why it matters|There is no check/);
});

test('a parameter shows type, default and what works give it', async () => {
  const text = await hover(TENDER, 'so|ak: 40 min');
  expect(text).toContain('soak: time = 35 min');
  expect(text).toContain('South: `40 min`');
});

test('a file that is brought in shows its blocks; one that is missing says so', async () => {
  expect(await hover(TENDER, 'use "../library/prod|ucts')).toContain('`product Alkaline`');
  expect(await hover(WRONG, 'no-such|-file')).toContain('not there');
});

test('words of the language are explained; blanks and comments are not', async () => {
  expect(await hover(TENDER, 'requ|ire North')).toContain('demand on the result');
  expect(await hover(TENDER, '// A full |job')).toBe('');
});

test('the setting of the units decides which system comes first', async () => {
  const other = await startClient(exampleFiles(), { settings: { units: 'US customary' } });
  other.open(TENDER);
  const found = await other.request<Hover>('textDocument/hover', other.at(TENDER, 'require North.pro|duct'));
  expect((found.contents as MarkupContent).value).toMatch(/North\.product = [\d.]+ gal \([\d.]+ L\)/);
  await other.dispose();
});
