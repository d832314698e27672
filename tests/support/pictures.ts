/** Examples of the repository, analysed and scheduled as the tools do it: what the pictures are drawn from in tests. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { URI } from 'langium';
import { analyse } from '../../language/analysis/analyse.ts';
import { createWorkspace } from '../../language/grammar/services.ts';
import type { PictureInput } from '../../language/pictures/data.ts';
import { nameRules } from '../../language/vocabulary/names.ts';
import { memory } from '../unit/grammar/helpers.ts';

const examples = fileURLToPath(new URL('../../examples', import.meta.url));

/** All files of examples/ as texts, by their address in memory. */
export function exampleTexts(): Readonly<Record<string, string>> {
  const names = readdirSync(examples, { recursive: true, encoding: 'utf8' }).filter(name => name.endsWith('.broom'));
  return Object.fromEntries(
    names.map(name => [`/example/${name.replaceAll('\\', '/')}`, readFileSync(join(examples, name), 'utf8')]),
  );
}

/** Analysis and schedule of one of the examples, by its path below examples/; `texts` may be changed ones. */
export async function pictured(
  name: string,
  texts: Readonly<Record<string, string>> = exampleTexts(),
): Promise<PictureInput> {
  const { provider } = memory({ ...texts });
  const workspace = createWorkspace(provider, [URI.file('/example')], {
    topLevelKinds: nameRules.topLevelKinds,
    rules: nameRules,
  });
  const [document] = await workspace.open([URI.file(`/example/${name}`)]);
  return analyse(document!, workspace);
}

/** The tender with a limit on residence that it misses: the signs and buttons of that state. */
export function missedTender(): Promise<PictureInput> {
  const texts = exampleTexts();
  const library = Object.keys(texts).find(name => name.endsWith('broom-and-rinse.broom'))!;
  const shorter = texts[library]!.replace(/at-most:(\s+)3\.5 h/, 'at-most:$12.2 h');
  if (shorter === texts[library]) throw new Error('The library says no longest residence of 3.5 h any more.');
  return pictured('tern-sands/tender-2031.broom', { ...texts, [library]: shorter });
}
