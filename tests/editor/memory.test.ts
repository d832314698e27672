/** What was worked out for a text is let go with it: typing all day takes no more memory than typing a while. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import { startClient, uriOf } from './client.ts';
import { exampleFiles, TENDER } from './examples.ts';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

test('texts, jobs and analyses of before are gone, whatever changed in between', async () => {
  const client = await startClient(exampleFiles());
  client.open(TENDER);
  await client.diagnostics(TENDER);
  const { project } = client.running.session!;
  const text = client.text(TENDER);
  const numbers = [...text.matchAll(/^ +[\w-]+: .*?\d(?![\d.])/gm)].map(found => found.index + found[0].length);
  const held: { readonly what: string; readonly ref: WeakRef<object> }[] = [];
  const note = async () => {
    const document = (await project.ready(uriOf(TENDER)))!;
    const { job, schedule, works } = project.analysisOf(document)!;
    held.push(
      { what: 'document', ref: new WeakRef(document) },
      { what: 'tree', ref: new WeakRef(document.parseResult.value) },
      { what: 'job', ref: new WeakRef(job) },
      { what: 'schedule', ref: new WeakRef(schedule) },
      { what: 'works', ref: new WeakRef(works) },
    );
  };
  for (let i = 0; i < 60; i++) {
    const at = numbers[(i * 13) % numbers.length]!;
    client.edit(TENDER, i % 2 === 0 ? `${text.slice(0, at)}1${text.slice(at)}` : text);
    await client.diagnostics(TENDER);
    await note();
    client.forgetPublished();
  }
  // Things of the last texts may be on their way yet.
  const old = held.slice(0, -4 * 5);
  for (let i = 0; i < 20; i++) {
    await new Promise(resolve => setTimeout(resolve, 20));
    collect();
  }
  // A few may still stand: what did not change since is what it was. A leak would keep nearly all of them.
  const left = old.filter(({ ref }) => ref.deref() !== undefined);
  expect(left.length, left.map(each => each.what).join()).toBeLessThan(old.length / 10);
  await client.dispose();
}, 120_000);
