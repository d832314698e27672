/** What the pictures say by colour they say by a sign, a hatch, a dash or a shade as well. */
import { renderToString } from 'preact-render-to-string';
import { beforeAll, describe, expect, test } from 'vitest';
import { type PictureData, pictureData } from '../../../language/pictures/data.ts';
import { Hatches, Ring, Sign, type SignKind } from '../../../language/pictures/parts.tsx';
import { renderSheet } from '../../../language/pictures/render.tsx';
import { exportStyle, parseColour, themes } from '../../../language/pictures/style.ts';
import { pictured } from '../../support/pictures.ts';

/** Declarations of a class, those of all rules that name it put together. */
function declared(style: string, selector: string): Readonly<Record<string, string>> {
  const found: Record<string, string> = {};
  for (const [, selectors = '', body = ''] of style.matchAll(/([^{}]+)\{([^{}]*)\}/g)) {
    const named = selectors.split(',').map(each => each.trim().replace('.bl-sheet ', ''));
    const base = selector.replace(/\.[a-z]+$/, '');
    if (!named.includes(selector) && !(base !== '' && named.includes(base))) continue;
    for (const each of body.split(';')) {
      const [name, value] = each.split(':').map(part => part.trim());
      if (name && value) found[name] = value;
    }
  }
  return found;
}

/** Relative luminance, 0 to 1, and the contrast of two colours, as the accessibility guidelines of the web define them. */
function luminance(colour: string): number {
  const [red, green, blue] = parseColour(colour)!.map(each => {
    const share = each / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
const contrast = (a: string, b: string): number => {
  const [low, high] = [luminance(a), luminance(b)].sort((p, q) => p - q) as [number, number];
  return (high + 0.05) / (low + 0.05);
};

let job: PictureData;
beforeAll(async () => {
  // Product, water jets, rinsing and sweepers; with brooms in the second.
  job = pictureData(await pictured('curlew-bar/chemical-then-water.broom'));
});

describe('without hue', () => {
  test('each kind of line has a dash or a width of its own', () => {
    const style = exportStyle(themes.light);
    const lines = [
      '.pass.apply',
      '.pass.contact',
      '.pass.jet',
      '.pass.rinse',
      '.pass.sweep',
      '.limit.least',
      '.limit.most',
    ];
    const looks = lines.map(each => {
      const { 'stroke-width': width, 'stroke-dasharray': dash = 'none' } = declared(style, each);
      return `${width}, ${dash}`;
    });
    expect(new Set(looks).size, looks.join('; ')).toBe(lines.length);
  });

  test('trails of product, water, jets and brooms too', () => {
    const style = exportStyle(themes.light);
    const looks = ['.trail.apply', '.trail.rinse', '.trail.jet', '.trail.contact'].map(each => {
      const { 'stroke-width': width, 'stroke-dasharray': dash = 'none' } = declared(style, each);
      return `${width}, ${dash}`;
    });
    expect(new Set(looks).size, looks.join('; ')).toBe(4);
  });

  test('each kind of box in the night sheet has a hatch of its own', async () => {
    const brooms = pictureData(await pictured('tern-sands/tender-2031.broom'));
    const hatchOf = new Map<string, string>();
    for (const data of [job, brooms]) {
      const svg = renderSheet(data, { width: 1300 });
      for (const [, does = '', hatch = 'none'] of svg.matchAll(
        /<rect class="box (\w+)"[^>]*><\/rect>(?:<rect fill="url\(#bl-(\w+)\)")?/g,
      ))
        hatchOf.set(does, hatch);
    }
    expect([...hatchOf.keys()].sort()).toEqual(['apply', 'contact', 'jet', 'pickup', 'rinse', 'sweep', 'walk', 'wet']);
    // Wetting and rinsing are both water, and sweepers pick up.
    expect([hatchOf.get('wet'), hatchOf.get('pickup')]).toEqual([hatchOf.get('rinse'), hatchOf.get('sweep')]);
    // People on foot have a dashed box; brooms are the one solid.
    const machines = ['apply', 'contact', 'jet', 'rinse', 'sweep'].map(does => hatchOf.get(does)!);
    expect(new Set(machines).size).toBe(machines.length);
    const patterns = renderToString(Hatches({ id: 'x' }));
    for (const hatch of machines.filter(each => each !== 'none')) expect(patterns).toContain(`id="x-${hatch}"`);
  });

  test('over and under a limit differ in hatch and sign; every sign has its own shape', () => {
    const patterns = renderToString(Hatches({ id: 'x' }));
    const hatch = (name: string) => new RegExp(`<pattern id="x-${name}"([^>]*)>(.*?)</pattern>`).exec(patterns)!;
    expect(hatch('over').slice(1)).not.toEqual(hatch('under').slice(1));
    const kinds: readonly SignKind[] = ['kept', 'over', 'under', 'warning', 'waived', 'hint'];
    const shapes = kinds.map(kind =>
      [...renderToString(Sign({ kind, x: 0, y: 0 })).matchAll(/ d="([^"]*)"/g)].map(each => each[1]).join(' '),
    );
    expect(new Set(shapes).size).toBe(kinds.length);
    const ring = (bad: boolean) =>
      / class="ring(?: bad)?" d="([^"]*)"/.exec(renderToString(Ring({ x: 0, y: 0, bad })))![1];
    expect(ring(true)).not.toBe(ring(false));
  });

  test('every kind of machine has its own shape', () => {
    const svg = renderSheet({ ...job, machines: kinds() }, { width: 1900 });
    const shapes = new Map(
      [...svg.matchAll(/<path class="machine m-([\w-]+)" d="([^"]+)"/g)].map(each => [each[1], each[2]]),
    );
    expect(shapes.size).toBe(6);
    expect(new Set(shapes.values()).size).toBe(6);
  });
});

/** The machines of the job, with those kinds that it lacks. */
function kinds(): PictureData['machines'] {
  const all = ['sprayer', 'broom', 'water-truck', 'sweeper', 'magnet', 'jet'] as const;
  return [...job.machines, ...all.map(kind => ({ ...job.machines[0]!, name: kind, code: kind.slice(0, 2), kind }))];
}

describe('by shade', () => {
  test.each(['light', 'dark'] as const)('%s: what lies on the paper is told from it, and class from class', kind => {
    const style = exportStyle(themes[kind]);
    const fill = (selector: string) => declared(style, selector).fill!;
    const stroke = (selector: string) => declared(style, selector).stroke!;
    const paper = fill('.paper');
    for (const text of ['text', 'text.quiet', 'text.bad', 'text.warn']) {
      expect(contrast(declared(style, text).fill!, paper), text).toBeGreaterThan(4.5);
    }
    for (const line of ['.pass.apply', '.pass.contact', '.pass.jet', '.limit.most', '.miss-edge', '.ring', '.now'])
      expect(contrast(stroke(line), paper), line).toBeGreaterThan(3);
    // Each class of the map is darker (in a dark theme lighter) than the one before, and wet ground than dry.
    const tints = ['.tint0', '.tint1', '.tint2', '.tint3'].map(fill);
    for (let i = 1; i < tints.length; i++) {
      expect(contrast(tints[i]!, tints[i - 1]!), `tint ${i}`).toBeGreaterThan(1.12);
      expect(luminance(tints[i]!) < luminance(tints[i - 1]!)).toBe(kind === 'light');
    }
    expect(contrast(fill('.wet'), fill('.rubber-ground'))).toBeGreaterThan(1.25);
    expect(contrast(fill('.standing'), fill('.leaving'))).toBeGreaterThan(1.2);
    expect(contrast(fill('text.chip'), fill('.pill'))).toBeGreaterThan(4.5);
  });
});
