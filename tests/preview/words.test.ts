/**
 * The preview in a language made up for the purpose: every translated text stands in brackets. What a person then sees or
 * hears without brackets is the author's own, computed, or a unit; anything else was not put into words.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { ToHost } from '../../extension/preview/messages.ts';
import { type PictureData, pictureData } from '../../language/pictures/data.ts';
import { firstView } from '../../language/pictures/layout.ts';
import { renderSheet } from '../../language/pictures/render.tsx';
import { translator } from '../../language/pictures/words.ts';
import { missedTender, pictured } from '../support/pictures.ts';
import { startBrowser } from './chromium.ts';
import { built, type Opened, type OpenOptions, openPreview } from './host.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const table = JSON.parse(readFileSync(join(root, 'extension/l10n/bundle.l10n.json'), 'utf8')) as Record<string, string>;
const bracketed = Object.fromEntries(Object.keys(table).map(text => [text, `⟦${text}⟧`]));

const names = [
  'tern-sands/tender-2031',
  'first-job',
  'curlew-bar/chemical-then-water',
  'dunlin-marsh/low-pressure-water',
  'wrong-on-purpose',
] as const;
const jobs = new Map<string, PictureData>();
let browser: Browser;
let opened: Opened | undefined;

beforeAll(async () => {
  await built();
  browser = await startBrowser();
  for (const name of names) jobs.set(name, pictureData(await pictured(`${name}.broom`), { lineOf: () => 7 }));
  jobs.set('missed', pictureData(await missedTender(), { lineOf: () => 7 }));
}, 400_000);

afterEach(async () => {
  const trouble = opened?.trouble ?? [];
  await opened?.close();
  opened = undefined;
  expect(trouble).toEqual([]);
});

afterAll(async () => {
  await browser?.close();
});

async function open(data: PictureData | undefined, options: OpenOptions = {}): Promise<Opened> {
  opened = await openPreview(browser, { words: bracketed, ...options });
  if (data) await opened.say({ type: 'show', data, clock: '14:02' });
  return opened;
}

/** Everything that is read or heard on a page: text, labels, titles, spoken values. */
async function texts({ page }: Opened): Promise<readonly string[]> {
  const all = await page.evaluate(() => {
    const found: string[] = [];
    // Neighbouring texts of one element are one sentence.
    for (const each of document.querySelectorAll('body *:not(script)'))
      found.push([...each.childNodes].map(node => (node.nodeType === Node.TEXT_NODE ? node.nodeValue : '')).join(''));
    for (const each of document.querySelectorAll('*'))
      for (const name of ['aria-label', 'aria-valuetext', 'title', 'alt', 'placeholder'])
        found.push(each.getAttribute(name) ?? '');
    return found;
  });
  return [...new Set(all.map(each => each.trim()).filter(each => each !== ''))];
}

/** What of a text is neither in brackets, nor of the data, nor a unit. */
function unworded(text: string, data: PictureData | undefined): string {
  let rest = text;
  for (let before = ''; before !== rest; ) {
    before = rest;
    rest = rest.replace(/⟦[^⟦⟧]*⟧/g, ' ');
  }
  // A label that was cut to its place has lost its closing bracket.
  rest = rest.replace(/⟦[^⟦⟧]*…/g, ' ');
  for (const own of data ? ownTexts(data) : []) rest = rest.replace(own, ' ');
  return rest
    .replace(/\b(?:min|s|h|m|ft|L|R|km)\b/g, ' ')
    .replace(/[^\p{L}]+/gu, ' ')
    .trim();
}

/** What comes out of the job: the author's names and what was computed, longest first. */
function ownTexts(data: PictureData): readonly RegExp[] {
  const { verdict } = data;
  const all = [
    verdict.headline,
    verdict.detail,
    ...verdict.facts.flatMap(each => [each.value, each.unit, each.below, each.full ?? '']),
    ...(verdict.sum ? [verdict.sum.title, ...verdict.sum.rows.flatMap(row => [row.text, row.value])] : []),
    ...data.findings.flatMap(each => [each.message, each.code, each.waived ?? '', ...each.fixes.map(fix => fix.title)]),
    ...data.quantities.flatMap(each => [each.path, each.label, each.shown]),
    ...data.runways.flatMap(each => [each.name, ...each.rulers.map(ruler => ruler.end)]),
    ...data.deposits.flatMap(each => [each.name, each.buildUp ?? '']),
    ...data.works.flatMap(each => [each.name, each.method ?? '']),
    ...data.bays.map(each => `${data.works[each.work]!.code}${each.number}`),
    ...data.machines.flatMap(each => [each.name, each.code]),
    ...data.nights.flatMap(each => [each.label, each.short, each.short.split(' ')[0]!]),
    ...data.activities.flatMap(each => [each.step, each.step.toLowerCase(), each.waits]),
    ...data.missing,
  ];
  return [...new Set(all.filter(each => /\p{L}/u.test(each)))]
    .sort((a, b) => b.length - a.length)
    .map(each => new RegExp(`(?<![\\p{L}\\d])${each.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')}(?![\\p{L}\\d])`, 'gu'));
}

const left = (all: readonly string[], data?: PictureData): readonly string[] =>
  all.filter(each => unworded(each, data) !== '');

describe('no fixed text stands outside the words', () => {
  const everyTable = { tables: ['quantities', 'plan', 'soak', 'profile', 'passes', 'nights', 'recall'] };

  test.each([...names, 'missed'].flatMap(name => [640, 1900].map(width => [name, width] as const)))(
    '%s at %i px, with every table open',
    async (name, width) => {
      const data = jobs.get(name)!;
      const { page } = await open(data, { width, height: 900, kept: everyTable });
      const found = await texts(opened!);
      expect(found.length).toBeGreaterThan(100);
      expect(found.filter(each => each.startsWith('⟦')).length).toBeGreaterThan(60);
      expect(left(found, data)).toEqual([]);
      // Under the pointer, at every moment of the closure, on the other clocks of the map.
      for (const clock of ['wetGap', 'residence']) {
        await page.locator('.controls select[aria-label*="What the map shows"]').selectOption(clock);
        expect(left(await texts(opened!), data)).toEqual([]);
      }
      const box = (await page.locator('.sheet').boundingBox())!;
      for (const [x, y] of [
        [0.3, 0.12],
        [0.3, 0.35],
        [0.3, 0.7],
      ] as const) {
        await page.mouse.move(box.x + box.width * x, box.y + box.height * y);
        expect(left([(await page.locator('.says').textContent()) ?? ''], data)).toEqual([]);
      }
      await page.mouse.move(1, 1);
      const slider = page.locator('input[type=range]');
      const [from, to] = [Number(await slider.getAttribute('min')), Number(await slider.getAttribute('max'))];
      for (let at = from; at <= to; at += (to - from) / 12) {
        await slider.fill(String(Math.round(at)));
        expect(left([(await slider.getAttribute('aria-valuetext')) ?? ''], data)).toEqual([]);
      }
    },
  );

  test('while a handle is moved, where it is refused, and with the cursor in a block', async () => {
    const data = jobs.get('tern-sands/tender-2031')!;
    const { page, say, heard } = await open(data, { width: 900 });
    const { place } = data.deposits[0]!;
    await say({ type: 'cursor', file: place.file, offset: place.start + 3, line: 29 });
    await page.locator(`[data-refused="${data.refusals[0]!.id}"]`).click();
    expect(await page.locator('.says').textContent()).toMatch(/^⟦.*⟧$/);
    await page.locator(`[data-handle="${data.handles.find(each => each.at.axis === 'time')!.id}"]`).focus();
    await page.keyboard.press('ArrowUp');
    await say({ type: 'computing' });
    await page.waitForFunction(() => document.querySelector('.detail')?.textContent?.includes('Computing'));
    expect(left(await texts(opened!), data)).toEqual([]);
    await page.keyboard.press('Enter');
    const edit = (await heard()).find((each): each is Extract<ToHost, { type: 'edit' }> => each.type === 'edit')!;
    expect(left([edit.what], data)).toEqual([]);
  });

  test('before a picture, without one, with a broken text, after a fault', async () => {
    const { say } = await open(undefined);
    expect(left(await texts(opened!))).toEqual([]);
    await say({ type: 'broken', message: '', place: { file: 'a', start: 0, end: 1 } });
    expect(left(await texts(opened!))).toEqual([]);
    const none = pictureData(await pictured('tern-sands/airport.broom'));
    await say({ type: 'show', data: none, clock: '14:02' });
    expect(left(await texts(opened!), none)).toEqual([]);
    await say({ type: 'broken', message: '', line: 3, place: { file: 'a', start: 0, end: 1 } });
    expect(left(await texts(opened!), none)).toEqual([]);
    await say({ type: 'fault', message: '' });
    expect(left(await texts(opened!), none)).toEqual([]);
  });

  test.each(names)('an exported picture of %s', name => {
    const data = jobs.get(name)!;
    const svg = renderSheet(data, { width: 1900, view: firstView(data), t: translator(bracketed) });
    const found = [...svg.matchAll(/<(?:text|title)\b[^>]*>([^<]*)<|aria-label="([^"]*)"/g)].map(each =>
      (each[1] ?? each[2] ?? '')
        .replaceAll('&lt;', '<')
        .replaceAll('&gt;', '>')
        .replaceAll('&quot;', '"')
        .replaceAll('&amp;', '&'),
    );
    // The head is wrapped to lines: its sentences are computed, and looked for as words.
    const computed = [data.title, data.verdict.headline, data.verdict.detail, ...data.verdict.facts.map(f => f.below)];
    const said = new Set(computed.flatMap(each => each.split(/\s+/)));
    expect(
      left(found, data).filter(each => !each.split(/\s+/).every(word => said.has(word) || /…$/.test(word))),
    ).toEqual([]);
  });
});

test('the measure finds a text that was not put into words', () => {
  expect(unworded('⟦Findings⟧ 3 min', undefined)).toBe('');
  expect(unworded('⟦{0} in ⟦North⟧⟧', undefined)).toBe('');
  expect(unworded('⟦recall, mi…', undefined)).toBe('');
  expect(unworded('Findings 3 min', undefined)).toBe('Findings');
});

test('words come with the page as data, whatever they hold, and run nothing', async () => {
  const hostile = '"><img src=x onerror=alert(1)></script>';
  const { page } = await open(jobs.get('first-job'), { words: { Signs: hostile, Findings: hostile } });
  expect(await page.locator('.sheet').textContent()).toContain(hostile);
  expect(await page.locator('img').count()).toBe(0);
  expect(await page.locator('.play').getAttribute('aria-label')).toBe('Play the closure');
});
