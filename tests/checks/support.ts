/** Examples as files in memory, analysed as the tools analyse files on disk. */
import { URI } from 'langium';
import { type Analysis, analyse } from '../../language/analysis/analyse.ts';
import type { Edit, Example, Finding } from '../../language/checks/check.ts';
import { type ExampleFile, filesOf } from '../../language/checks/example.ts';
import { createWorkspace } from '../../language/grammar/services.ts';
import { nameRules } from '../../language/vocabulary/names.ts';
import { memory } from '../unit/grammar/helpers.ts';

const root = '/example';

export interface Analysed extends Analysis {
  readonly files: readonly ExampleFile[];
}

/** Analyses the files of an example; the first one is the job. */
export async function analyseFiles(files: readonly ExampleFile[], asOf?: string): Promise<Analysed> {
  const pathOf = (file: ExampleFile) => `${root}/${file.name}`;
  const { provider } = memory(Object.fromEntries(files.map(file => [pathOf(file), file.text])), {
    unreadable: files.filter(file => file.unreadable).map(pathOf),
  });
  const workspace = createWorkspace(provider, [URI.file(root)], {
    topLevelKinds: nameRules.topLevelKinds,
    rules: nameRules,
  });
  const [document] = await workspace.open([URI.file(`${root}/${files[0]!.name}`)]);
  return { ...analyse(document!, workspace, asOf === undefined ? {} : { asOf }), files };
}

/** Analyses an example. An analysis depends on nothing but the text, so each is made once. */
export function analyseExample(example: Example, asOf?: string): Promise<Analysed> {
  const files = filesOf(example);
  if (!files) throw new Error(`A change does not match the common job exactly once: ${JSON.stringify(example)}`);
  const key = JSON.stringify([files, asOf]);
  const known = analysed.get(key) ?? analyseFiles(files, asOf);
  analysed.set(key, known);
  return known;
}

const analysed = new Map<string, Promise<Analysed>>();

/** The files with edits made; fails when edits overlap or leave the example's own files. */
export function edited(files: readonly ExampleFile[], edits: readonly Edit[]): readonly ExampleFile[] {
  const left = [...edits].sort((a, b) => b.place.start - a.place.start);
  return files.map(file => {
    let { text } = file;
    let before = Number.POSITIVE_INFINITY;
    for (const { place, text: by } of left) {
      if (place.file !== URI.file(`${root}/${file.name}`).toString()) continue;
      if (place.end > before || place.end > text.length || place.start > place.end) throw new Error('Edits overlap');
      before = place.start;
      text = text.slice(0, place.start) + by + text.slice(place.end);
    }
    return { ...file, text };
  });
}

/** Short text of findings, for comparing and for reading when a test fails. */
export function shown(findings: readonly Finding[], files: readonly ExampleFile[]): readonly string[] {
  return findings.map(({ code, severity, message, place }) => {
    const file = files.find(each => place.file.endsWith(`/${each.name}`));
    const line = file ? file.text.slice(0, place.start).split('\n').length : 0;
    return `${severity} ${code} (line ${line}): ${message}`;
  });
}
