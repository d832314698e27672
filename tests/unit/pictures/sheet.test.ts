/** The drawn sheet: legible at every width, nothing invented, nothing let through. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { type PictureData, pictureData } from '../../../language/pictures/data.ts';
import { firstView, nightView } from '../../../language/pictures/layout.ts';
import { minuteRange } from '../../../language/pictures/minutes.ts';
import { renderSheet } from '../../../language/pictures/render.tsx';
import { exampleTexts, pictured } from '../../support/pictures.ts';
import { overlaps, textBoxes } from './boxes.ts';

const names = [
  'tern-sands/tender-2031',
  'first-job',
  'curlew-bar/chemical-then-water',
  'dunlin-marsh/low-pressure-water',
  'plover-flats/touchdown-09',
  'sanderling-field/touchdown-17',
  'wrong-on-purpose',
] as const;
const widths = [420, 480, 560, 640, 760, 1300, 1900] as const;

const drawn = new Map<string, PictureData>();
const dataOf = (name: string): PictureData => drawn.get(name)!;

beforeAll(async () => {
  for (const name of names) drawn.set(name, pictureData(await pictured(`${name}.broom`)));
});

describe('legible', () => {
  test.each(names)('no text of %s covers another, at any width, in two fonts, on any night', name => {
    const data = dataOf(name);
    const views = data.nights.map((_, night) => nightView(data, firstView(data), night));
    for (const width of widths) {
      for (const view of views) {
        const svg = renderSheet(data, { width, height: width < 1000 ? 560 : 700, view });
        for (const font of ['wide', 'narrow'] as const) {
          expect(overlaps(textBoxes(svg, font)), `${width} px, night ${view.night}, ${font}`).toEqual([]);
        }
      }
    }
  });

  test.each(names)('no text of %s is smaller than 11 px or leaves the sheet', name => {
    for (const width of widths) {
      const svg = renderSheet(dataOf(name), { width });
      const boxes = textBoxes(svg, 'wide');
      expect(boxes.length).toBeGreaterThan(20);
      expect(boxes.filter(each => each.size < 11).map(each => each.text)).toEqual([]);
      expect(boxes.filter(each => each.x < 0 || each.x + each.w > width + 0.5).map(each => each.text)).toEqual([]);
    }
  });

  test('the measure finds two texts that cover each other, and moves them with their groups', () => {
    const two = (y: number) =>
      `<svg><g transform="translate(5 5)"><text x="10" y="20">abc</text></g><text x="16" y="${y}">def</text></svg>`;
    expect(overlaps(textBoxes(two(26), 'narrow'))).toHaveLength(1);
    expect(overlaps(textBoxes(two(60), 'narrow'))).toEqual([]);
  });
});

describe('true to the results', () => {
  test('the soak of each bay of the night shown stands in the pass chart as the exposure has it', () => {
    const data = dataOf('tern-sands/tender-2031');
    const svg = renderSheet(data, { width: 1900, height: 700 });
    const texts = textBoxes(svg, 'wide').map(each => each.text);
    for (const bay of data.bays) {
      const limit = bay.limits.soak === undefined ? {} : { least: bay.limits.soak };
      expect(
        texts.some(text => text.includes(minuteRange(bay.soak!.least.seconds, bay.soak!.greatest.seconds, limit))),
      ).toBe(true);
    }
  });

  test('each bay, each machine and each closure is there by name', () => {
    const data = dataOf('tern-sands/tender-2031');
    const texts = textBoxes(renderSheet(data, { width: 1900, height: 760 }), 'wide').map(each => each.text);
    for (const { code } of data.machines) expect(texts.some(text => text.startsWith(code))).toBe(true);
    for (const night of data.nights) expect(texts.some(text => text.includes(night.short))).toBe(true);
    for (const name of ['North 1', 'North 2', 'South 3']) expect(texts.some(text => text.startsWith(name))).toBe(true);
  });

  test('the structure: one axis, every figure, links to the text', () => {
    const svg = renderSheet(dataOf('first-job'), { width: 640 });
    for (const title of ['Runway from above', 'How long the product soaks', 'Pass chart', 'Night sheet', 'Signs']) {
      expect(svg).toContain(title);
    }
    const things = [...svg.matchAll(/data-thing="(\w+)\/\d+"/g)].map(match => match[1]);
    expect(new Set(things)).toEqual(new Set(['runway', 'deposit', 'bay', 'machine', 'activity']));
    // Bay boundaries lie on the same pixel in plan, map and chart: one path with a piece in each.
    const guides = [...svg.matchAll(/class="guide[^"]*" d="M([\d.]+) [\d.]+V[\d.]+M([\d.]+) [\d.]+V[\d.]+M([\d.]+) /g)];
    expect(guides.length).toBeGreaterThanOrEqual(4);
    for (const [, a, b, c] of guides) expect([b, c]).toEqual([a, a]);
  });

  test('wet ground ends where the ground does: at its slanting edges, not at a box about them', () => {
    const data = dataOf('tern-sands/tender-2031');
    const svg = renderSheet(data, { width: 1900, height: 760 });
    expect(svg).toMatch(/<path class="wet" d="M[^"]+" opacity="[\d.]+" clip-path="url\(#bl-ground\)">/);
    const [, ground = ''] = /<clipPath id="bl-ground"><path d="([^"]+)"/.exec(svg) ?? [];
    const corners = ground
      .split('M')
      .slice(1)
      .map(loop => new Set(loop.match(/(?<=[ML]|^)[\d.]+ [\d.]+/g)?.map(each => each.split(' ')[1])));
    expect(ground.split('M').slice(1)).toHaveLength(data.bays.flatMap(bay => bay.outlines).length);
    // Some of the loops have four corners at four heights: they slant.
    expect(corners.some(heights => heights.size === 4)).toBe(true);
  });

  test('the same data gives the same picture', () => {
    const data = dataOf('plover-flats/touchdown-09');
    const again = JSON.parse(JSON.stringify(data)) as PictureData;
    expect(renderSheet(again, { width: 760 })).toBe(renderSheet(data, { width: 760 }));
  });
});

describe('colours', () => {
  test('no colour is written into a figure or the preview', () => {
    const root = fileURLToPath(new URL('../../..', import.meta.url));
    for (const folder of ['language/pictures', 'extension/preview']) {
      for (const name of readdirSync(join(root, folder)).filter(each => /\.tsx?$/.test(each))) {
        const text = readFileSync(join(root, folder, name), 'utf8');
        expect(
          text.match(/#[0-9a-f]{3,8}\b(?![-\w])/gi)?.filter(each => !/^#\d+$/.test(each)) ?? [],
          `${folder}/${name}`,
        ).toEqual([]);
        if (name.endsWith('.tsx'))
          expect(text.match(/\bstyle=|fill="(?!none)[a-z]|stroke="[a-z]/g), `${folder}/${name}`).toBeNull();
      }
    }
  });

  test('an exported picture needs no variables, no fonts and nothing from outside', () => {
    for (const theme of ['light', 'dark'] as const) {
      const svg = renderSheet(dataOf('first-job'), { width: 640, theme });
      expect(svg).not.toMatch(/var\(|color-mix|@import|url\((?!#)|href=|<script|<foreignObject/);
    }
    expect(renderSheet(dataOf('first-job'), { width: 640, theme: 'dark' })).not.toBe(
      renderSheet(dataOf('first-job'), { width: 640, theme: 'light' }),
    );
  });
});

test('a picture is well-formed XML: every tag is whole, every attribute has its value', () => {
  for (const name of names) {
    for (const width of [560, 1300]) {
      const svg = renderSheet(dataOf(name), { width });
      const tags = svg.match(/<[^!][^>]*>/g) ?? [];
      const whole = /^<(?:\/[a-zA-Z]+|[a-zA-Z]+(?:\s+[\w:-]+="[^"<]*")*\s*\/?)>$/;
      expect(tags.filter(tag => !whole.test(tag))).toEqual([]);
      const open: string[] = [];
      for (const tag of tags) {
        const word = /^<\/?([a-zA-Z]+)/.exec(tag)![1]!;
        if (tag.startsWith('</')) expect(open.pop()).toBe(word);
        else if (!tag.endsWith('/>')) open.push(word);
      }
      expect(open).toEqual([]);
    }
  }
});

test('what stands in the text can not become markup', async () => {
  const texts = exampleTexts();
  const key = Object.keys(texts).find(name => name.endsWith('first-job.broom'))!;
  const hostile = '<script>alert(1)</script>&quot;" onload=';
  const title = texts[key]!.replace(/title:(\s+)"[^"]*"/, `title:$1"${hostile.replaceAll('"', "'")}"`);
  expect(title).not.toBe(texts[key]);
  const data = pictureData(await pictured('first-job.broom', { ...texts, [key]: title }));
  const named: PictureData = {
    ...data,
    machines: data.machines.map(each => ({ ...each, name: hostile, code: '<b>' })),
    works: data.works.map(each => ({ ...each, name: hostile })),
    deposits: data.deposits.map(each => ({ ...each, name: hostile, buildUp: '"><img src=x>' })),
  };
  const svg = renderSheet(named, { width: 1300 });
  expect(svg).toContain('&lt;');
  expect(svg).not.toMatch(/<script|<img|<b>/);
  // Every tag is one of ours.
  const tags = new Set([...svg.matchAll(/<\/?([a-zA-Z]+)/g)].map(match => match[1]));
  const ours = ['svg', 'style', 'g', 'defs', 'pattern', 'clipPath', 'path', 'rect', 'circle', 'text', 'title'];
  expect([...tags].filter(tag => !ours.includes(tag!))).toEqual([]);
});

test('a job without a picture says what to write next', async () => {
  const data = pictureData(await pictured('tern-sands/airport.broom'));
  expect(data.verdict.state).toBe('nothing');
  expect(data.missing[0]).toMatch(/^deposit/);
  const svg = renderSheet(data, { width: 640 });
  for (const line of data.missing) expect(svg).toContain(line.slice(0, 20));
});
