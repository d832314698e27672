/**
 * The preview as a person uses it, in a plain browser: the host is a page that keeps what it hears. Screenshots go to
 * tests/output/preview and are for looking at.
 */
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { ToHost } from '../../extension/preview/messages.ts';
import { type PictureData, pictureData } from '../../language/pictures/data.ts';
import { english, tell } from '../../language/pictures/words.ts';
import { exampleTexts, missedTender, pictured } from '../support/pictures.ts';
import { startBrowser } from './chromium.ts';
import { frameTimes } from './frames.ts';
import { built, type Opened, type OpenOptions, openPreview, output, type ThemeName } from './host.ts';

let browser: Browser;
let tender: PictureData;
let missed: PictureData;
let wrong: PictureData;
let opened: Opened | undefined;
const texts = exampleTexts();
const lineOf = ({ start }: { start: number }): number => start;

beforeAll(async () => {
  await built();
  browser = await startBrowser();
  tender = pictureData(await pictured('tern-sands/tender-2031.broom'), { lineOf });
  missed = pictureData(await missedTender(), { lineOf });
  wrong = pictureData(await pictured('wrong-on-purpose.broom'), { lineOf });
}, 400_000);

afterEach(async () => {
  // Whatever a test did: nothing left the page, nothing was refused by the policy, nothing failed.
  const trouble = opened?.trouble ?? [];
  await opened?.close();
  opened = undefined;
  expect(trouble).toEqual([]);
});

afterAll(async () => {
  await browser?.close();
});

const examples = [
  'first-job',
  'small-job',
  'curlew-bar/chemical-then-water',
  'dunlin-marsh/low-pressure-water',
  'plover-flats/touchdown-09',
  'sanderling-field/touchdown-17',
  'missed',
  'wrong-on-purpose',
] as const;
const pictures = new Map<string, PictureData>();
async function pictureOf(name: string): Promise<PictureData> {
  const data = pictures.get(name) ?? pictureData(await pictured(`${name}.broom`), { lineOf });
  pictures.set(name, data);
  return data;
}

async function open(data: PictureData | undefined = tender, options: OpenOptions = {}): Promise<Opened> {
  opened = await openPreview(browser, options);
  if (data) await opened.say({ type: 'show', data, clock: '14:02' });
  return opened;
}

const of = <T extends ToHost['type']>(messages: readonly ToHost[], type: T) =>
  messages.filter((each): each is Extract<ToHost, { type: T }> => each.type === type);

describe('pictures to look at', () => {
  const sizes = [
    [640, 780],
    [1280, 800],
    [1900, 1000],
  ] as const;
  const themes: readonly ThemeName[] = ['light', 'dark', 'high contrast'];

  test.each(sizes.flatMap(([width, height]) => themes.map(theme => [width, height, theme] as const)))(
    '%i × %i, %s: the sheet fits without scrolling, and nothing is cut',
    async (width, height, theme) => {
      const { page } = await open(tender, { width, height, theme });
      await page.screenshot({ path: join(output, `tender-${width}-${theme.replaceAll(' ', '-')}.png`) });
      const box = async (selector: string) => (await page.locator(selector).first().boundingBox())!;
      const [svg, bar] = [await box('svg.bl-sheet'), await box('.control-bar')];
      expect(svg.width).toBeLessThanOrEqual(width);
      expect(svg.y + svg.height).toBeLessThanOrEqual(bar.y + 1);
      expect(bar.y + bar.height).toBeLessThanOrEqual(height + 1);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      expect(await cutTexts(page)).toEqual([]);
    },
  );

  test.each(
    [420, 560, 640, 760, 1300, 1900].flatMap(width =>
      ['DejaVu Sans', 'Liberation Sans'].map(font => [width, font] as const),
    ),
  )('at %i px in %s no text covers another, as the browser measures it', async (width, font) => {
    const { page } = await open(tender, { width, height: width < 1000 ? 780 : 860, font });
    const pairs = await page.evaluate(() => {
      const boxes = [...document.querySelectorAll('svg.bl-sheet text')]
        .map(each => ({
          text: each.textContent ?? '',
          box: each.getBoundingClientRect(),
          size: Number.parseFloat(getComputedStyle(each).fontSize),
        }))
        .filter(({ text }) => text.trim() !== '');
      const found: string[] = boxes.filter(({ size }) => size < 11).map(({ text, size }) => `${text}: ${size} px`);
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          // A box of text has room above its capitals and below its line.
          const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
          const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
          if (across > 1 && down > 4.5) found.push(`${a.text} / ${b.text}`);
        }
      });
      return found;
    });
    expect(pairs).toEqual([]);
  });

  test.each(examples.flatMap(name => [420, 480, 560, 640, 760, 1280, 1900].map(width => [name, width] as const)))(
    '%s at %i px: no text lies on another or under a handle, none is cut, and the worst places are to be seen',
    async (name, width) => {
      const data = name === 'missed' ? missed : name === 'wrong-on-purpose' ? wrong : await pictureOf(name);
      const { page } = await open(data, { width, height: width < 1000 ? 780 : 800 });
      // With the pointer over the figures all handles are shown.
      await page.mouse.move(3, 400);
      const found = await page.evaluate(() => {
        const texts = [...document.querySelectorAll('svg.bl-sheet text')].filter(each => each.textContent?.trim());
        const boxes = texts.map(each => ({ text: each.textContent ?? '', box: each.getBoundingClientRect() }));
        const handles = [...document.querySelectorAll('.handle-group .handle')].map(each => ({
          text: each.closest('[aria-label]')?.getAttribute('aria-label') ?? '',
          box: each.getBoundingClientRect(),
        }));
        // A box of text has room above its capitals and below its line.
        const meet = (a: DOMRect, b: DOMRect): boolean =>
          Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 &&
          Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 4.5;
        return {
          handles: handles.length,
          onHandles: boxes.flatMap(a => handles.filter(b => meet(a.box, b.box)).map(b => `${a.text} / ${b.text}`)),
          onTexts: boxes.flatMap((a, i) =>
            boxes.slice(i + 1).flatMap(b => (meet(a.box, b.box) ? [`${a.text} / ${b.text}`] : [])),
          ),
          beyond: boxes.filter(({ box }) => box.left < 0 || box.right > innerWidth + 0.5).map(({ text }) => text),
          heads: [...document.querySelectorAll('[data-thing^="machine/"] text')]
            .map(each => each.textContent ?? '')
            .filter(each => each.includes('…')),
          choices: [...document.querySelectorAll<HTMLSelectElement>('.controls select')]
            .filter(each => each.getBoundingClientRect().width > 0)
            .filter(each => {
              const measure = document.createElement('canvas').getContext('2d')!;
              const style = getComputedStyle(each);
              measure.font = `${style.fontSize} ${style.fontFamily}`;
              // The arrow takes some 20 px.
              return [...each.options].some(option => measure.measureText(option.text).width > each.clientWidth - 20);
            })
            .map(each => each.getAttribute('aria-label')),
          // The rings of the worst places lie over the handles: nothing that is drawn later hides them.
          hidden: [...document.querySelectorAll('svg.over .ring')].filter(ring => {
            const own = ring.getBoundingClientRect();
            const same = [...document.querySelectorAll('svg.over .ring, svg.over .handle')].filter(each => {
              const box = each.getBoundingClientRect();
              return (
                Math.abs(box.x + box.width / 2 - own.x - own.width / 2) < 6 &&
                box.top < own.bottom &&
                box.bottom > own.top
              );
            });
            return same.at(-1)?.matches('.handle');
          }).length,
        };
      });
      expect(found.handles).toBeGreaterThan(3);
      expect(found).toMatchObject({ onHandles: [], onTexts: [], beyond: [], heads: [], choices: [], hidden: 0 });
      expect(await cutTexts(page)).toEqual([]);
    },
  );

  test.each(
    [340, 420, 500, 559].flatMap(width => (['tender', 'missed', 'wrong'] as const).map(name => [width, name] as const)),
  )(
    'narrow, %i px, %s: the figures scroll sideways below 420 px, nothing else does, and nothing is cut',
    async (width, name) => {
      const data = { tender, missed, wrong }[name];
      const { page } = await open(data, { width, height: 780, kept: { tables: ['quantities', 'soak', 'passes'] } });
      await page.screenshot({ path: join(output, `narrow-${name}-${width}-light.png`) });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      const found = await page.evaluate(() => {
        const figures = document.querySelector('.figures')!;
        const wide = document.querySelector('svg.bl-sheet')!.getBoundingClientRect().width;
        const reached = figures.scrollWidth;
        figures.scrollLeft = 10_000;
        const beyond = [...document.querySelectorAll('svg.bl-sheet text')]
          .filter(each => each.getBoundingClientRect().right > figures.getBoundingClientRect().right + 0.5)
          .map(each => each.textContent);
        const shown = (each: Element) => each.getBoundingClientRect().width > 1;
        // Tables have scroll bars of their own.
        const others = [...document.querySelectorAll('.head *, .control-bar *, .lists *:not(.scroll *)')].filter(shown);
        const small = [...document.querySelectorAll('body *')]
          .filter(
            each => shown(each) && each.textContent?.trim() && Number.parseFloat(getComputedStyle(each).fontSize) < 11,
          )
          .map(each => each.textContent);
        const out = others
          .filter(each => each.getBoundingClientRect().right > innerWidth + 0.5)
          .map(each => `${each.className} ${each.textContent}`);
        const facts = [...document.querySelectorAll('.fact')].map(each => each.getBoundingClientRect());
        const gauges = [...document.querySelectorAll('.fact')].flatMap((each, i) =>
          [...each.querySelectorAll('svg, .value')].filter(
            part => part.getBoundingClientRect().right > facts[i]!.right + 0.5,
          ),
        );
        return {
          wide,
          reached,
          beyond,
          untitled: [...document.querySelectorAll('.words text.b')].filter(each => !each.textContent?.trim()).length,
          small,
          out,
          gauges: gauges.length,
          covered: overlapping('.head span, .head h1, .head .detail, .head .cure'),
        };

        function overlapping(selector: string): readonly string[] {
          const all = [...document.querySelectorAll(selector)].filter(shown);
          return all.flatMap((a, i) =>
            all.slice(i + 1).flatMap(b => {
              if (a.contains(b) || b.contains(a)) return [];
              const [p, q] = [a.getBoundingClientRect(), b.getBoundingClientRect()];
              const across = Math.min(p.right, q.right) - Math.max(p.left, q.left);
              const down = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
              return across > 1 && down > 3 ? [`${a.textContent} / ${b.textContent}`] : [];
            }),
          );
        }
      });
      const wide = Math.max(420, width);
      expect(found).toEqual({
        wide,
        reached: wide,
        beyond: [],
        untitled: 0,
        small: [],
        out: [],
        gauges: 0,
        covered: [],
      });
      expect(await cutTexts(page)).toEqual([]);
      await page.screenshot({ path: join(output, `narrow-${name}-${width}-right-light.png`) });
      // What the keyboard comes to is brought into view.
      const grip = page.locator('[data-handle]').last();
      await grip.focus();
      const box = (await grip.boundingBox())!;
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width).toBeLessThanOrEqual(width);
    },
  );

  test.each([
    ['light', 'deuteranopia'],
    ['dark', 'achromatopsia'],
  ] as const)(
    '%s, seen with %s: a limit that is missed has its sign, its hatch and its word',
    async (theme, vision) => {
      const { page } = await open(missed, { width: 1300, height: 860, theme });
      const session = await page.context().newCDPSession(page);
      await session.send('Emulation.setEmulatedVisionDeficiency', { type: vision });
      await page.screenshot({ path: join(output, `missed-1300-${theme}-${vision}.png`) });
      // What is given a hatch has it: no rule of the style sheet takes it away.
      const fills = await page.evaluate(() =>
        [...document.querySelectorAll('svg.bl-sheet [fill^="url("]')].map(each => getComputedStyle(each).fill),
      );
      expect(fills.length).toBeGreaterThan(20);
      expect(fills.filter(each => !each.startsWith('url('))).toEqual([]);
      const time = (await page.locator('.standing').first().boundingBox())!;
      const hatched = await page
        .locator('svg.bl-sheet [fill="url(#bl-over)"]')
        .evaluateAll((all, y) => all.filter(each => each.getBoundingClientRect().y > y).length, time.y - 60);
      expect(hatched).toBeGreaterThan(0);
      const fact = page.locator('.fact.missed');
      expect(await fact.locator('.sign-bad').count()).toBe(1);
      expect(await fact.locator('.visually-hidden').textContent()).toBe('misses its limit: ');
      expect(await page.locator('[data-thing^="bay/"] .sign-bad').count()).toBeGreaterThan(0);
    },
  );

  test('a job that misses a limit, and one that is broken', async () => {
    const { page, say } = await open(missed, { width: 640, height: 780, scale: 1.5 });
    expect(await page.locator('h1').textContent()).toMatch(/^Does not work: South \d stands .* too long/);
    await page.screenshot({ path: join(output, 'missed-640-light.png') });
    await say({
      type: 'broken',
      line: 29,
      message: 'A value is missing.',
      place: { file: missed.file, start: 10, end: 12 },
    });
    expect(await page.locator('h1').textContent()).toBe('Line 29 can’t be read');
    expect(await page.locator('.detail').textContent()).toContain('14:02');
    expect(await page.locator('[data-handle]').count()).toBe(0);
    await page.screenshot({ path: join(output, 'broken-640-light.png') });
  });
});

/** Headings and controls whose text does not fit, in the document round the sheet. */
async function cutTexts(page: Opened['page']): Promise<readonly string[]> {
  return page.evaluate(() =>
    [
      ...document.querySelectorAll<HTMLElement>(
        '.facts span:not(.visually-hidden), .counts button, .controls button, .group button',
      ),
    ]
      .filter(each => each.scrollWidth > each.clientWidth + 1 && getComputedStyle(each).display !== 'inline')
      .map(each => each.textContent ?? ''),
  );
}

describe('layers', () => {
  /** How often the layer of each of the sheet's pictures was painted so far. */
  async function paints(page: Opened['page'], act: () => Promise<void>): Promise<Readonly<Record<string, number>>> {
    const session = await page.context().newCDPSession(page);
    const { root } = await session.send('DOM.getDocument', { depth: -1 });
    const { nodeIds } = await session.send('DOM.querySelectorAll', { nodeId: root.nodeId, selector: '.sheet > svg' });
    const names = new Map<number, string>();
    for (const nodeId of nodeIds) {
      const { node } = await session.send('DOM.describeNode', { nodeId });
      names.set(node.backendNodeId, node.attributes![node.attributes!.indexOf('class') + 1]!.split(' ').at(-1)!);
    }
    const counts = new Map<string, number>();
    session.on('LayerTree.layerTreeDidChange', ({ layers }) => {
      for (const { backendNodeId, paintCount } of layers ?? []) {
        const name = backendNodeId === undefined ? undefined : names.get(backendNodeId);
        if (name) counts.set(name, paintCount);
      }
    });
    await session.send('LayerTree.enable');
    const frames = () =>
      page.evaluate(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))));
    // What is painted is told when something was: once before it counts.
    await act();
    await frames();
    const before = new Map(counts);
    expect(before.size).toBe(4);
    await act();
    await frames();
    await session.detach();
    return Object.fromEntries([...counts].map(([name, count]) => [name, count - (before.get(name) ?? 0)]));
  }

  test('what moves with the time or the pointer paints neither the marks below it nor the words above it', async () => {
    const { page } = await open(tender, { width: 1300, height: 860 });
    const box = (await page.locator('.sheet').boundingBox())!;
    await page.mouse.move(box.x + 300, box.y + 300);
    const slider = page.locator('input[type=range]');
    await slider.focus();
    const played = await paints(page, async () => {
      for (let i = 0; i < 12; i++) await page.keyboard.press('ArrowRight');
    });
    const steps = played.moving;
    expect(steps).toBeGreaterThan(3);
    expect(played).toEqual({ 'bl-sheet': 0, moving: steps, words: 0, over: expect.any(Number) });
    const pointed = await paints(page, async () => {
      for (let i = 0; i < 12; i++) await page.mouse.move(box.x + 300 + 4 * i, box.y + 300);
    });
    expect(pointed).toMatchObject({ 'bl-sheet': 0, words: 0, over: 0 });
    expect(pointed.moving).toBeGreaterThan(3);
  });

  test('no label lies below what moves: each has its words in a layer above', async () => {
    const { page } = await open(tender, { width: 1300, height: 860 });
    expect(await page.locator('.sheet > svg').count()).toBe(4);
    expect(await page.locator('.sheet > svg:not(.words, .over) text').count()).toBe(0);
    expect(await page.locator('.sheet > svg.words text').count()).toBeGreaterThan(40);
    // Nothing that moves stands above them but the codes and the clock.
    expect(await page.locator('.sheet > svg.moving .now').count()).toBe(1);
    expect(
      await page.locator('.sheet > :is(.words, .over) :is(.now, .wet:not([height]), .trail, circle.machine)').count(),
    ).toBe(0);
    // Where a label of the chart and the line of the moment meet, the label is seen, and what is clicked below it is found.
    const found = await page.evaluate(() => {
      const label = document.querySelector('.words [data-unit="night"] text.on')!;
      const at = label.getBoundingClientRect();
      const [x, y] = [at.left + at.width / 2, at.top + at.height / 2];
      return document.elementFromPoint(x, y)?.closest('[data-thing]')?.getAttribute('data-thing');
    });
    expect(found).toMatch(/^activity\//);
  });

  test('a picture by itself has the same order: marks, what moves, words', async () => {
    const { say, heard } = await open(tender, { width: 1300, height: 860 });
    await say({ type: 'export', id: 1, format: 'svg' });
    const [{ content } = { content: '' }] = of(await heard(), 'exported');
    const at = (text: string): number => content.indexOf(text);
    expect(at('class="standing"')).toBeGreaterThan(0);
    expect(at('class="now"')).toBeGreaterThan(content.lastIndexOf('class="standing"'));
    expect(at('>Night sheet<')).toBeGreaterThan(content.lastIndexOf('class="now"'));
    expect(content.match(/<svg/g)).toHaveLength(1);
  });
});

describe('between text and picture', () => {
  test('a click on a bar of the night sheet reveals the step', async () => {
    const { page, heard } = await open();
    const activity = tender.activities.findIndex(each => each.night === 1 && each.does === 'agitate');
    await page.locator(`[data-thing="activity/${activity}"] .box`).first().click();
    const [message] = of(await heard(), 'reveal');
    const { place } = tender.activities[activity]!;
    expect(message!.place).toEqual({ file: place.file, start: place.start, end: place.end });
  });

  test('a click on a bay reveals its work and shows its profile', async () => {
    const { page, heard, rest } = await open(tender, { width: 1300, height: 860 });
    const bay = tender.bays.findIndex(each => each.id === 'South/3');
    await page.locator(`[data-thing="bay/${bay}"] text`).first().click();
    await rest();
    const [message] = of(await heard(), 'reveal');
    expect(message!.place.start).toBe(tender.works[tender.bays[bay]!.work]!.place.start);
    expect(await page.locator('.sheet').textContent()).toMatch(/South 3: contacts/);
  });

  test('the cursor in a block frames what is drawn of it, with its line', async () => {
    const { page, say } = await open(tender, { width: 1300, height: 860 });
    expect(await page.locator('.highlight').count()).toBe(0);
    const deposit = tender.deposits.find(each => each.name === 'Touchdown04')!;
    await say({ type: 'cursor', file: deposit.place.file, offset: deposit.place.start + 5, line: 29 });
    expect(await page.locator('.highlight .select').count()).toBe(1);
    expect(await page.locator('.highlight text').textContent()).toBe('line 29');
    const work = tender.works.find(each => each.name === 'South')!;
    await say({ type: 'cursor', file: work.place.file, offset: work.place.start + 5, line: 60 });
    expect(await page.locator('.highlight .select').count()).toBeGreaterThan(6);
    await say({ type: 'cursor', file: 'file:///other.broom', offset: 3, line: 1 });
    expect(await page.locator('.highlight').count()).toBe(0);
  });

  test('the number of the line covers neither words nor handles nor rings, wherever the cursor is', async () => {
    const blocks = [...tender.deposits, ...tender.works, ...tender.machines];
    for (const width of [640, 720, 940, 1300, 1900]) {
      const { page, say } = await open(tender, { width, height: width > 1500 ? 1000 : 780 });
      for (const { name, place } of blocks) {
        await say({ type: 'cursor', file: place.file, offset: place.start + 1, line: 127 });
        if ((await page.locator('.highlight .pill').count()) === 0) continue;
        const covered = await page.evaluate(() => {
          const chip = document.querySelector('.highlight .pill')!.getBoundingClientRect();
          const marks = '.words [data-unit] text, .handle-group:not(.side) .handle, .over .ring';
          return [...document.querySelectorAll(marks)]
            .filter(each => {
              const box = each.getBoundingClientRect();
              const across = Math.min(box.right, chip.right) - Math.max(box.left, chip.left);
              const down = Math.min(box.bottom, chip.bottom) - Math.max(box.top, chip.top);
              return across > 2 && down > 3;
            })
            .map(each => each.textContent || each.parentElement!.textContent);
        });
        expect({ width, name, covered }).toEqual({ width, name, covered: [] });
      }
      await opened!.close();
    }
  });

  test('a cure is one edit of the text', async () => {
    const { page, heard } = await open(missed);
    const { finding } = missed.verdict;
    const fix = missed.findings[finding!]!.fixes[0]!;
    await page.locator('.head .cure', { hasText: fix.title }).click();
    const [message] = of(await heard(), 'edit');
    expect(message).toMatchObject({ what: fix.title });
    expect(message!.edits.map(each => each.text)).toEqual(fix.edits.map(each => each.text));
  });

  test('the pointer draws one line through plan, map and chart, and says what stands there', async () => {
    const { page } = await open(tender, { width: 1300, height: 860 });
    const bay = (await page.locator('[data-thing="bay/4"] .slab').first().boundingBox())!;
    await page.mouse.move(bay.x + bay.width / 2, bay.y + bay.height / 4);
    const d = (await page.locator('.cross').first().getAttribute('d'))!;
    const xs = [...d.matchAll(/M([\d.]+) /g)].map(match => match[1]);
    expect(xs).toHaveLength(3);
    expect(new Set(xs).size).toBe(1);
    expect(await page.locator('.says').textContent()).toMatch(/ m from 04, [LR] [\d.]+ · South 2 · soak \d+/);
  });
});

describe('direct editing', () => {
  const start = () => tender.handles.find(each => /^Touchdown22, start/.test(tell(english, each.name)))!;

  async function drag(by: number, options: { alt?: boolean; escape?: boolean } = {}) {
    const host = await open();
    const { page } = host;
    const grip = page.locator(`[data-handle="${start().id}"]`);
    const box = (await grip.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    if (options.alt) await page.keyboard.down('Alt');
    await page.mouse.move(x + by / 2, y, { steps: 3 });
    await page.mouse.move(x + by, y, { steps: 3 });
    const said = await page.locator('.says').textContent();
    const before = await host.heard();
    if (options.escape) await page.keyboard.press('Escape');
    await page.mouse.up();
    return { host, said, before, after: await host.heard() };
  }

  test('dragging the end of a deposit asks what would be, and writes one edit on its drop', async () => {
    const { said, before, after } = await drag(-30);
    const asked = of(before, 'whatIf');
    expect(asked.length).toBeGreaterThan(0);
    expect(of(before, 'edit')).toEqual([]);
    const edits = of(after, 'edit');
    expect(edits).toHaveLength(1);
    // The host takes it only as long as its text is the one of that picture.
    expect([...asked, ...edits].map(each => each.picture)).toEqual([...asked, ...edits].map(() => 1));
    const [edit] = edits[0]!.edits;
    const { place } = start();
    expect(edit!.place).toEqual({ file: place.file, start: place.start, end: place.end });
    // To the left is away from threshold 22: the chainage grows, in steps of 5 m.
    expect(Number(edit!.text)).toBeGreaterThan(180);
    expect(Number(edit!.text) % 5).toBe(0);
    expect(asked.at(-1)!.edits[0]!.text).toBe(edit!.text);
    expect(said).toContain(`180 → ${edit!.text}`);
    expect(of(after, 'endWhatIf')).toHaveLength(1);
  });

  test('with Alt in steps of 1 m; Escape leaves everything as it was', async () => {
    const fine = await drag(-23, { alt: true });
    expect(Number(of(fine.after, 'edit')[0]!.edits[0]!.text) % 5).not.toBe(0);
    await fine.host.close();
    const { after, host } = await drag(-30, { escape: true });
    expect(of(after, 'edit')).toEqual([]);
    expect(await host.page.locator('.says').textContent()).not.toContain('→');
  });

  test('while it is dragged the facts show before and after', async () => {
    const { page, say, heard } = await open();
    const box = (await page.locator(`[data-handle="${start().id}"]`).boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x - 20, box.y + 4, { steps: 4 });
    const { id } = of(await heard(), 'whatIf').at(-1)!;
    const facts = tender.verdict.facts.map(each => (each.key === 'product' ? { ...each, value: '1 600' } : each));
    await say({
      type: 'whatIf',
      id: id - 1,
      data: { ...tender, verdict: { ...tender.verdict, headline: 'out of date' } },
    });
    await say({ type: 'whatIf', id, data: { ...tender, verdict: { ...tender.verdict, facts } } });
    expect(await page.locator('h1').textContent()).not.toContain('out of date');
    expect((await page.locator('.fact .before').allInnerTexts()).map(each => each.trim())).toEqual(['was 1 663 L']);
    await page.screenshot({ path: join(output, 'dragging-640-light.png') });
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await page.locator('.fact .before').count()).toBe(0);
  });

  test('the keyboard moves a handle, Enter writes it, Escape does not', async () => {
    const { page, heard } = await open();
    const grip = page.locator(`[data-handle="${start().id}"]`);
    await grip.focus();
    expect(await grip.getAttribute('role')).toBe('slider');
    expect(await grip.getAttribute('aria-valuetext')).toBe('180');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    expect(await grip.getAttribute('aria-valuetext')).toMatch(/^190, Enter writes it/);
    await page.keyboard.press('Escape');
    expect(of(await heard(), 'edit')).toEqual([]);
    await page.keyboard.press('Alt+ArrowRight');
    await page.keyboard.press('Enter');
    expect(of(await heard(), 'edit').map(each => each.edits[0]!.text)).toEqual(['179']);
  });

  test('the end of a closure is dragged on the clock', async () => {
    const { page, heard } = await open();
    const end = tender.handles.find(each => each.moves === 'closure ends')!;
    const box = (await page.locator(`[data-handle="${end.id}"]`).boundingBox())!;
    await page.mouse.move(box.x + 9, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + 9, box.y + box.height / 2 - 30, { steps: 4 });
    await page.mouse.up();
    const [edit] = of(await heard(), 'edit');
    expect(edit!.edits[0]!.text).toMatch(/^04:[0-5][05]$/);
  });

  test('where a work begins and ends is dragged, and moved by the keyboard', async () => {
    const name = '/example/tern-sands/tender-2031.broom';
    const spec = texts[name]!.replace(/( +)bays: +150 m\n/, '$&$1from: 200 m\n$1to: 300 m + 300 m\n');
    const data = pictureData(await pictured('tern-sands/tender-2031.broom', { ...texts, [name]: spec }), { lineOf });
    const { page, heard } = await open(data, { width: 1300, height: 860 });
    const begins = data.handles.find(each => each.moves === 'work end')!;
    const grip = page.locator(`[data-handle="${begins.id}"]`);
    await page.screenshot({ path: join(output, 'work-ends-1300-light.png') });
    const box = (await grip.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 24, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    await grip.focus();
    expect(await grip.getAttribute('aria-label')).toBe('South, where the work begins');
    await page.keyboard.press('ArrowLeft');
    expect(await grip.getAttribute('aria-valuetext')).toMatch(/^195 m, Enter/);
    await page.keyboard.press('Enter');
    const written = of(await heard(), 'edit').map(each => each.edits[0]!);
    expect(written.map(each => each.place)).toEqual([begins.place, begins.place]);
    expect(spec.slice(begins.place.start, begins.place.end)).toBe('200 m');
    expect(Number.parseFloat(written[0]!.text)).toBeGreaterThan(200);
    expect(written[0]!.text).toMatch(/^\d*[05] m$/);
    expect(written[1]!.text).toBe('195 m');
    // The other one is computed.
    const ends = data.refusals.find(each => each.moves === 'work end')!;
    await page.locator(`[data-refused="${ends.id}"]`).focus();
    await page.keyboard.press('Enter');
    expect(await page.locator('.says').textContent()).toMatch(/computed on its line/);
  });

  test('where a value can not be dragged the picture says why', async () => {
    const { page, heard } = await open();
    await page.locator(`[data-refused="${tender.refusals[0]!.id}"]`).click();
    expect(await page.locator('.says').textContent()).toContain('3 equal bays');
    expect(of(await heard(), 'edit')).toEqual([]);
  });
});

describe('time and view', () => {
  test('the slider moves the machines and speaks the moment', async () => {
    const { page } = await open();
    const slider = page.locator('input[type=range]');
    const before = await page.locator('.now').getAttribute('d');
    const said = await slider.getAttribute('aria-valuetext');
    await slider.focus();
    for (let i = 0; i < 20; i++) await page.keyboard.press('ArrowRight');
    expect(await page.locator('.now').getAttribute('d')).not.toBe(before);
    expect(await slider.getAttribute('aria-valuetext')).not.toBe(said);
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/^\d\d:\d\d: /);
  });

  test('play runs the clock, and pauses', async () => {
    const { page } = await open();
    const clock = () => page.locator('.controls .clock').textContent();
    const before = await clock();
    await page.locator('.play').click();
    await page.waitForFunction(was => document.querySelector('.controls .clock')?.textContent !== was, before);
    await page.locator('.play').click();
    const paused = await clock();
    await page.waitForTimeout(200);
    expect(await clock()).toBe(paused);
  });

  test('where motion is unwelcome it goes in steps of five minutes', async () => {
    const { page } = await open(tender, { reducedMotion: true });
    const minutes = async () => {
      const [h = 0, m = 0] = ((await page.locator('.controls .clock').textContent()) ?? '').split(':').map(Number);
      return h * 60 + m;
    };
    const before = await minutes();
    await page.locator('.play').click();
    await page.waitForFunction(
      was => document.querySelector('.controls .clock')?.textContent !== was,
      await page.locator('.controls .clock').textContent(),
    );
    expect(((await minutes()) - before + 1440) % 5).toBe(0);
  });

  test('another night, ×3, zoom, the map by residence; all of it kept over a reload', async () => {
    const { page, kept, rest } = await open(tender, { width: 1300, height: 860 });
    await page.locator('[data-act="night:2"]').click();
    await rest();
    expect(await page.locator('.sheet').textContent()).toContain('Pass chart, Wed 9 Apr');
    await page.locator('.group button', { hasText: '×3' }).click();
    await page.locator('.group button', { hasText: '+' }).click();
    await page.locator('select').first().selectOption('residence');
    await rest();
    expect(await page.locator('.sheet').textContent()).toContain('How long the product stays');
    await page.screenshot({ path: join(output, 'zoomed-1300-light.png') });
    const drawn = await page.locator('.sheet').textContent();
    await page.waitForTimeout(250);
    const state = await kept();
    await opened!.close();
    const again = await open(tender, { width: 1300, height: 860, kept: state });
    expect(await again.page.locator('.sheet').textContent()).toBe(drawn);
  });

  test('nothing zooms while numbers change', async () => {
    const { page, say } = await open(tender, { width: 1300, height: 860 });
    const guides = () => page.locator('.guide').evaluateAll(all => all.map(each => each.getAttribute('d')));
    const before = await guides();
    // The deposit ends 20 m later: everything else stays where it is.
    const text = texts[Object.keys(texts).find(name => name.endsWith('tender-2031.broom'))!]!;
    const { place } = tender.handles.find(each => /^Touchdown22, end/.test(tell(english, each.name)))!;
    const changed = {
      ...texts,
      '/example/tern-sands/tender-2031.broom': `${text.slice(0, place.start)}680${text.slice(place.end)}`,
    };
    await say({
      type: 'show',
      data: pictureData(await pictured('tern-sands/tender-2031.broom', changed)),
      clock: '14:03',
    });
    const after = await guides();
    const same = before.filter(each => after.includes(each));
    expect(same.length).toBeGreaterThanOrEqual(6);
    expect(after).not.toEqual(before);
  });

  test('tables open from the figures, and are copied', async () => {
    const { page, heard } = await open();
    await page.locator('[data-act="table:soak"]').click();
    const table = page.locator('#table-soak');
    expect(await table.locator('tbody tr').count()).toBe(tender.bays.length);
    await table.getByRole('button', { name: 'Copy the table' }).click();
    const [copied] = of(await heard(), 'copy');
    expect(copied!.text.split('\n')).toHaveLength(tender.bays.length + 1);
    await table.locator('tbody button').first().click();
    expect(of(await heard(), 'reveal')).toHaveLength(1);
  });

  test('export gives the picture that is shown, as SVG and as PNG', async () => {
    const { page, say, heard } = await open();
    await say({ type: 'export', id: 1, format: 'svg' });
    await say({ type: 'export', id: 2, format: 'png' });
    await page.waitForFunction(
      () =>
        (window as unknown as { heard: { type: string }[] }).heard.filter(each => each.type === 'exported').length ===
        2,
    );
    const [svg, png] = of(await heard(), 'exported').sort((a, b) => a.id - b.id);
    expect(svg!.content).toMatch(/^<svg xmlns/);
    expect(svg!.content).not.toMatch(/var\(|color-mix/);
    expect(png!.content).toMatch(/^data:image\/png;base64,iVBOR/);
    expect(png!.content.length).toBeGreaterThan(20_000);
  });
});

describe('states', () => {
  test('before anything is shown, and a job without a picture', async () => {
    const { page, say, heard } = await open(undefined as unknown as PictureData, {});
    expect(of(await heard(), 'ready')).toHaveLength(1);
    await say({ type: 'show', data: pictureData(await pictured('tern-sands/airport.broom')), clock: '14:02' });
    expect(await page.locator('h1').textContent()).toBe('Nothing to draw yet');
    expect(await page.locator('.empty li').first().textContent()).toMatch(/^deposit/);
  });

  test('a fault keeps the last picture and says so; the next picture clears it', async () => {
    const { page, say } = await open();
    await say({ type: 'fault', message: 'The server stopped.' });
    expect(await page.locator('h1').textContent()).toBe('The engine failed');
    expect(await page.locator('.stale .sheet').count()).toBe(1);
    await say({ type: 'show', data: tender, clock: '14:05' });
    expect(await page.locator('.stale').count()).toBe(0);
  });

  test('computing is said only when it takes long', async () => {
    const { page, say } = await open();
    await say({ type: 'computing' });
    expect(await page.locator('.detail').textContent()).not.toContain('Computing');
    await page.waitForFunction(() => document.querySelector('.detail')?.textContent?.includes('Computing'));
    await say({ type: 'show', data: tender, clock: '14:05' });
    expect(await page.locator('.detail').textContent()).not.toContain('Computing');
  });

  test('the order of the keyboard is the order of reading', async () => {
    const { page } = await open();
    const order: string[] = [];
    for (let i = 0; i < 80; i++) {
      await page.keyboard.press('Tab');
      order.push(
        await page.evaluate(() => {
          const at = document.activeElement;
          return at?.closest('.head')
            ? 'head'
            : at?.closest('.figures')
              ? 'figures'
              : at?.closest('.control-bar')
                ? 'bar'
                : at?.closest('.lists')
                  ? 'lists'
                  : 'none';
        }),
      );
      if (order.at(-1) === 'lists') break;
    }
    expect([...new Set(order)]).toEqual(['head', 'figures', 'bar', 'lists']);
  });
});

describe('handed over in parts, drawn in turns', () => {
  /** The tender with a few numbers changed: other bays, other nights, another runway's deposit, a finding more. */
  async function variants(): Promise<readonly PictureData[]> {
    const name = '/example/tern-sands/tender-2031.broom';
    const spec = texts[name]!;
    const ends = tender.handles.filter(each => each.moves === 'deposit end').slice(0, 3);
    const moved = ends.map(({ place, value }) => `${spec.slice(0, place.start)}${value + 20}${spec.slice(place.end)}`);
    const longer = spec.replace(/bays: +150 m/, 'bays: 110 m');
    expect(longer).not.toBe(spec);
    const found = [tender, missed, await pictureOf('first-job')];
    for (const each of [...moved, longer]) {
      found.push(pictureData(await pictured('tern-sands/tender-2031.broom', { ...texts, [name]: each }), { lineOf }));
    }
    return found;
  }
  /** Every element with its attributes and its own text, in order. */
  const drawn = (page: Opened['page']) =>
    page.evaluate(() =>
      [...document.querySelectorAll('#preview *')].map(each => {
        const own = [...each.childNodes]
          .map(part => (part.nodeType === Node.TEXT_NODE ? part.nodeValue : '|'))
          .join('');
        const attributes = [...each.attributes].map(({ name, value }) => `${name}=${value}`).sort();
        return `${each.tagName} ${attributes.join(' ')}: ${own}`;
      }),
    );

  test('any sequence of pictures, faster than they are drawn, ends as the last one by itself', async () => {
    const all = await variants();
    // Always the same sequence, so that a failure can be looked at.
    let seed = 20_310_407;
    const random = (below: number): number => {
      seed = (seed * 48_271) % 2_147_483_647;
      return seed % below;
    };
    for (const width of [640, 1900]) {
      const { page, say, sender, heard } = await open(tender, { width, height: 1000 });
      for (let round = 0; round < 5; round++) {
        const sequence = Array.from({ length: 2 + random(6) }, () => ({
          data: all[random(all.length)]!,
          frames: random(6),
        }));
        const messages = sequence.map(({ data, frames }) => ({ frames, picture: sender.deliver(data) }));
        await page.evaluate(async given => {
          for (const { picture, frames } of given) {
            window.postMessage({ type: 'show', picture, clock: '14:02' }, '*');
            for (let i = 0; i < frames; i++) await new Promise(done => requestAnimationFrame(done));
          }
        }, messages);
        await say({ type: 'cursor', file: '', offset: 0, line: 1 });
        // What is looked at is kept when it has come to rest.
        await page.waitForTimeout(150);
        const alone = await openPreview(browser, { width, height: 1000, kept: await opened!.kept() });
        await alone.say({ type: 'show', data: sequence.at(-1)!.data, clock: '14:02' });
        // The axis and the head's height hold still while pictures come; another width lets them go.
        for (const each of [opened!, alone]) {
          await each.page.setViewportSize({ width: width + 40, height: 1000 });
          await each.say({ type: 'cursor', file: '', offset: 0, line: 1 });
        }
        expect(await drawn(page)).toEqual(await drawn(alone.page));
        await page.setViewportSize({ width, height: 1000 });
        await alone.close();
      }
      expect(of(await heard(), 'whole')).toEqual([]);
      await opened!.close();
    }
  }, 120_000);

  test('for a few frames the figures are of two pictures; nothing that is clicked then goes astray', async () => {
    const { page, sender, heard } = await open(tender, { width: 1900, height: 1000 });
    // The same job whose steps stand elsewhere.
    const shifted = {
      ...tender,
      activities: tender.activities.map(each => ({
        ...each,
        step: 'Anew',
        place: { ...each.place, start: 1, end: 2 },
      })),
    };
    const picture = sender.deliver(shifted);
    const seen = await page.evaluate(async given => {
      const heardSo = (window as unknown as { heard: { type: string; place?: { start: number } }[] }).heard;
      window.postMessage({ type: 'show', picture: given, clock: '14:03' }, '*');
      const found: { anew: boolean; start: number | undefined }[] = [];
      for (let i = 0; i < 14; i++) {
        await new Promise(done => requestAnimationFrame(done));
        const box = document.querySelector('[data-unit="night"] [data-thing^="activity/"]')!;
        const anew = box.querySelector('title')!.textContent!.startsWith('Anew');
        box.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, button: 0 }));
        box.dispatchEvent(new PointerEvent('pointerup', { bubbles: true, button: 0 }));
        found.push({ anew, start: heardSo.findLast(each => each.type === 'reveal')?.place?.start });
      }
      return found;
    }, picture);
    expect(tender.activities[0]!.place.start).not.toBe(1);
    expect(seen.map(each => each.start === 1)).toEqual(seen.map(each => each.anew));
    expect(seen[0]!.anew).toBe(false);
    expect(seen.at(-1)!.anew).toBe(true);
    expect(of(await heard(), 'reveal').length).toBe(seen.length);
  });

  test('a part of a picture that is not here leads to the whole being asked for, once', async () => {
    const { page, say, sender, heard } = await open(tender, { width: 1300, height: 860 });
    const before = await drawn(page);
    // One is lost on its way: what builds on it can not be used.
    sender.deliver(missed);
    await say({ type: 'show', data: tender, clock: '14:03' });
    await say({ type: 'show', data: missed, clock: '14:03' });
    expect(of(await heard(), 'whole')).toHaveLength(1);
    expect(await drawn(page)).toEqual(before);
    sender.forget();
    await say({ type: 'show', data: missed, clock: '14:03' });
    expect(await page.locator('h1').textContent()).toBe(missed.verdict.headline);
    // And the next time again.
    sender.deliver(missed);
    await say({ type: 'show', data: tender, clock: '14:04' });
    expect(of(await heard(), 'whole')).toHaveLength(2);
  });

  test('an answer that comes while a picture is read waits for it; a picture to be exported is read at once', async () => {
    const { page, sender, heard } = await open(tender, { width: 1300, height: 860 });
    const [show, answer] = [sender.deliver(missed), sender.deliver(tender)];
    await page.evaluate(
      ([first, second]) => {
        window.postMessage({ type: 'show', picture: first, clock: '14:03' }, '*');
        window.postMessage({ type: 'whatIf', id: 99, picture: second }, '*');
        window.postMessage({ type: 'export', id: 1, format: 'svg' }, '*');
      },
      [show, answer] as const,
    );
    await page.waitForFunction(() =>
      (window as unknown as { heard: { type: string }[] }).heard.some(each => each.type === 'exported'),
    );
    // Nobody asked for that answer: the picture of the text is what is shown and exported.
    await page.waitForFunction(wanted => document.querySelector('h1')?.textContent === wanted, missed.verdict.headline);
    expect(of(await heard(), 'exported')[0]!.content).toContain(missed.verdict.headline.slice(0, 20));
  });

  test('what was tried stays to be seen after its drop, until the text is read anew', async () => {
    const { page, say, heard } = await open(tender, { width: 1300, height: 860 });
    const handle = tender.handles.find(each => each.moves === 'deposit end')!;
    const grip = page.locator(`[data-handle="${handle.id}"]`);
    await grip.focus();
    await page.keyboard.press('ArrowLeft');
    const { id } = of(await heard(), 'whatIf').at(-1)!;
    await say({ type: 'whatIf', id, data: missed });
    await page.keyboard.press('Enter');
    await page.waitForTimeout(100);
    expect(await page.locator('h1').textContent()).toBe(missed.verdict.headline);
    await say({ type: 'show', data: tender, clock: '14:03' });
    expect(await page.locator('h1').textContent()).toBe(tender.verdict.headline);
  });
});

test('a frame of the moving time costs little main-thread work on the largest example', async () => {
  const { page } = await open(tender, { width: 1900, height: 1000 });
  const session = await page.context().newCDPSession(page);
  // Time of the thread itself: what other programs take away does not count.
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const busy = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(each => each.name === 'TaskDuration')!.value;
  };
  const frames = 60;
  const before = await busy();
  await page.evaluate(async count => {
    const slider = document.querySelector<HTMLInputElement>('input[type=range]')!;
    for (let i = 0; i < count; i++) {
      slider.value = String(Number(slider.value) + 60);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      await new Promise(done => requestAnimationFrame(done));
    }
  }, frames);
  const perFrame = (1000 * ((await busy()) - before)) / frames;
  console.log(`main-thread work: ${perFrame.toFixed(2)} ms a frame`);
  // The aim is 8 ms; the ceiling only catches a picture that is drawn anew for every frame, on a busy machine.
  expect(perFrame).toBeLessThan(60);
});

describe('no frame takes much main-thread work on the largest example', () => {
  /** Work of each frame while something is done, and what of it a ceiling holds for: all but one frame of 20. */
  async function dear(page: Opened['page'], what: string, act: () => Promise<void>): Promise<number> {
    const times = (await frameTimes(page, act)).toSorted((a, b) => a - b);
    const most = times[Math.floor(times.length * 0.95)]!;
    console.log(`${what}: ${most.toFixed(2)} ms in one frame of 20, ${times.at(-1)!.toFixed(2)} ms at most`);
    // Something was drawn at all.
    expect(times.filter(each => each > 1).length).toBeGreaterThan(10);
    return most;
  }
  // The aim is 8 ms; the ceiling only catches a picture that is taken in or drawn in one frame, on a busy machine.
  const ceiling = 60;

  test('in which answers to a drag come in', async () => {
    const { page, sender, heard } = await open(tender, { width: 1900, height: 1000 });
    const { id } = tender.handles.find(each => each.moves === 'deposit end')!;
    await page.locator(`[data-handle="${id}"]`).focus();
    await page.keyboard.press('ArrowLeft');
    const asked = of(await heard(), 'whatIf').at(-1)!;
    const answer = async (): Promise<void> => {
      const answers = Array.from({ length: 8 }, (_, i) => sender.deliver(i % 2 === 0 ? missed : tender));
      await page.evaluate(
        async given => {
          for (const picture of given.answers) {
            window.postMessage({ type: 'whatIf', id: given.id, picture }, '*');
            for (let i = 0; i < 16; i++) await new Promise(done => requestAnimationFrame(done));
          }
        },
        { answers, id: asked.id },
      );
    };
    await answer();
    expect(await dear(page, 'answers', answer)).toBeLessThan(ceiling);
  });

  test('in which another night is opened', async () => {
    const { page } = await open(tender, { width: 1900, height: 1000 });
    const nights = (): Promise<void> =>
      page.evaluate(async () => {
        for (let i = 0; i < 6; i++) {
          const strip = document.querySelector('[data-act^="night:"]')!;
          strip.dispatchEvent(new PointerEvent('pointerup', { bubbles: true }));
          for (let k = 0; k < 16; k++) await new Promise(done => requestAnimationFrame(done));
        }
      });
    await nights();
    expect(await dear(page, 'nights', nights)).toBeLessThan(ceiling);
  });

  test('in which the view is moved along the runway', async () => {
    const { page, rest } = await open(tender, { width: 1900, height: 1000 });
    await page.evaluate(wheels, { turns: 5, by: { ctrlKey: true, deltaY: -1 } });
    await rest();
    const there = async (): Promise<void> => {
      await page.evaluate(wheels, { turns: 30, by: { shiftKey: true, deltaX: 8 } });
      await page.evaluate(wheels, { turns: 30, by: { shiftKey: true, deltaX: -8 } });
    };
    await there();
    expect(await dear(page, 'moving along', there)).toBeLessThan(ceiling);
  });

  test('in which the first picture comes', async () => {
    const opened = await openPreview(browser, { width: 1900, height: 1000 });
    const first = (): Promise<void> => opened.say({ type: 'show', data: tender, clock: '14:02' });
    expect(await dear(opened.page, 'first picture', first)).toBeLessThan(2 * ceiling);
    await opened.close();
  });
});

/** Turns the wheel over the figures, once in each frame: run in the page. */
async function wheels({ turns, by }: { turns: number; by: WheelEventInit }): Promise<void> {
  const sheet = document.querySelector('.sheet')!;
  const { x, y, width } = sheet.getBoundingClientRect();
  for (let i = 0; i < turns; i++) {
    const at = { clientX: x + 0.3 * width, clientY: y + 200, bubbles: true, cancelable: true };
    sheet.dispatchEvent(new WheelEvent('wheel', { ...at, ...by }));
    await new Promise(done => requestAnimationFrame(done));
  }
}
