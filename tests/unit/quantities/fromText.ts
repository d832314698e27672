/** Jobs from text, in memory: every file by name, the first one is the job. */
import { URI } from 'langium';
import { type Analysis, analyse } from '../../../language/analysis/analyse.ts';
import { createWorkspace } from '../../../language/grammar/services.ts';
import { nameRules } from '../../../language/vocabulary/names.ts';
import { memory } from '../grammar/helpers.ts';

export interface Read extends Analysis {
  /** `job.broom:14` for a place. */
  readonly where: (place: { file: string; start: number }) => string;
}

export async function readJob(files: Readonly<Record<string, string>> | string): Promise<Read> {
  const all = typeof files === 'string' ? { 'job.broom': files } : files;
  const { provider } = memory(Object.fromEntries(Object.entries(all).map(([name, text]) => [`/w/${name}`, text])));
  const workspace = createWorkspace(provider, [URI.file('/w')], {
    topLevelKinds: nameRules.topLevelKinds,
    rules: nameRules,
  });
  const [document] = await workspace.open([URI.file(`/w/${Object.keys(all)[0]!}`)]);
  const where = ({ file, start }: { file: string; start: number }): string => {
    const name = Object.keys(all).find(each => URI.file(`/w/${each}`).toString() === file) ?? file;
    return `${name}:${(all[name] ?? '').slice(0, start).split('\n').length}`;
  };
  return { ...analyse(document!, workspace), where };
}
