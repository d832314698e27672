/** What the preview and the status ask for: the picture of the text, what it would be if, and the job at a glance. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { z } from 'zod';
import type { OverviewRequest, PictureRequest, WhatIfRequest } from '../../server/protocol.ts';
import { type Client, startClient, uriOf } from './client.ts';
import { exampleFiles, METHOD, TENDER } from './examples.ts';

type Picture = z.infer<typeof PictureRequest.result>;
type WhatIf = z.infer<typeof WhatIfRequest.result>;
type Overview = z.infer<typeof OverviewRequest.result>;

let client: Client;
beforeEach(async () => {
  client = await startClient(exampleFiles(), { settings: { budgets: { schedule: 0 } } });
  client.open(TENDER);
});
afterEach(() => client.dispose());

const uri = uriOf(TENDER);
const picture = () => client.request<Picture>('broomline/picture', { uri });
const whatIf = (edits: z.infer<typeof WhatIfRequest.params>['edits']) =>
  client.request<WhatIf>('broomline/whatIf', { uri, edits });

/** The edit that puts a text in the place of another. */
function replacing(name: string, old: string, text: string) {
  const whole = name === TENDER ? client.text(name) : (client.files.get(name) ?? '');
  const start = whole.indexOf(old);
  expect(start).toBeGreaterThan(0);
  return { place: { file: uriOf(name), start, end: start + old.length }, text };
}

describe('the picture', () => {
  test('belongs to a version of the text, and its places are those of the text', async () => {
    const { version, picture: data, broken } = await picture();
    expect(version).toBe(client.version(TENDER));
    expect(broken).toBeNull();
    const deposit = data.deposits.find(each => each.name === 'Touchdown04')!;
    expect(client.text(TENDER).slice(deposit.place.start, deposit.place.end)).toMatch(/^deposit Touchdown04 \{/);
    expect(data.bays.length).toBeGreaterThan(5);
  });

  test('of a text that can not be read says where it breaks', async () => {
    client.edit(TENDER, client.text(TENDER).replace('covers: 80 %', 'covers 80 %'));
    const { broken } = await picture();
    const line = client.text(TENDER).slice(0, client.text(TENDER).indexOf('covers 80 %')).split('\n').length;
    expect(broken).toMatchObject({ line });
    // A word that is unknown is a finding, and the picture goes on.
    client.edit(TENDER, client.text(TENDER).replace('covers 80 %', 'covers: 80 %').replace('heavy', 'haevy'));
    expect((await picture()).broken).toBeNull();
  });
});

describe('what would be if', () => {
  test('is the picture that the edit then really gives, and changes nothing', async () => {
    const before = (await picture()).picture;
    const text = client.text(TENDER);
    const edit = replacing(TENDER, '150 8 8', '195 8 8');
    const tried = (await whatIf([edit])).picture;
    expect(settled(tried)).not.toEqual(settled(before));
    expect(settled((await picture()).picture)).toEqual(settled(before));
    expect(client.text(TENDER)).toBe(text);
    client.edit(TENDER, text.slice(0, edit.place.start) + edit.text + text.slice(edit.place.end));
    expect(settled((await picture()).picture)).toEqual(settled(tried));
  });

  test('begins from the text each time, whatever was tried before, and sees later edits', async () => {
    const edit = (text: string) => replacing(TENDER, '150 8 8', text);
    const first = (await whatIf([edit('200 8 8')])).picture;
    await whatIf([edit('250 8 8')]);
    expect(settled((await whatIf([edit('200 8 8')])).picture)).toEqual(settled(first));
    client.edit(TENDER, client.text(TENDER).replace('hand-back: 45 min', 'hand-back: 60 min'));
    expect(settled((await whatIf([edit('200 8 8')])).picture)).not.toEqual(settled(first));
  });

  test('may be in a library', async () => {
    const before = (await picture()).picture;
    const { picture: tried } = await whatIf([
      replacing(METHOD, 'rate: application rate = 0.35 L/m2', 'rate: application rate = 0.45 L/m2'),
    ]);
    const product = (of: typeof before) => of.quantities.find(each => each.path === 'South.product')?.shown;
    expect(product(before)).toBeDefined();
    expect(product(tried)).not.toBe(product(before));
    expect(product((await picture()).picture)).toBe(product(before));
  });
});

test('the job at a glance counts what the diagnostics show', async () => {
  const overview = await client.request<Overview>('broomline/overview', { uri });
  expect(overview.job).toBe('TernSands2031');
  expect(overview.findings).toMatchObject({ errors: 0, waived: 1 });
  expect(overview.schedule.closures).toBeGreaterThan(0);
  expect(overview.schedule.clear).toMatch(/^2031-04-\d\dT0\d:\d\d:\d\d\+01:00$/);
  expect(overview.quantities.some(each => each.path === 'South.product' && /L$/.test(each.shown))).toBe(true);
  client.edit(TENDER, client.text(TENDER).replace('build-up: heavy', 'build-up: haevy'));
  const after = await client.request<Overview>('broomline/overview', { uri });
  expect(after.findings.errors).toBe(1);
});

/** What does not hang on how far the search for a schedule has come. */
function settled({ deposits, runways, works, findings, handles }: Picture['picture']): unknown {
  const judged = findings.filter(each => each.place.file === uri && !/^(recall|closure|hand-back)/.test(each.code));
  return { deposits, runways: runways.map(each => each.stretches.length), works, judged, handles };
}
