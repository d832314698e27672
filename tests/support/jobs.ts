/** Jobs from text, for tests: files in memory, read as a workspace, assembled. */
import { type FileSystemNode, type FileSystemProvider, URI } from 'langium';
import { createWorkspace, problemsOf, type Workspace } from '../../language/grammar/services.ts';
import { assembleJob } from '../../language/job/assemble.ts';
import type { Job } from '../../language/job/job.ts';
import { nameRules } from '../../language/vocabulary/names.ts';

export type Files = Readonly<Record<string, string>>;

/** A workspace over files in memory, below `memory:/`. */
export function workspaceOf(files: Files): Workspace {
  return createWorkspace(inMemory(files), [URI.parse('memory:/')], {
    topLevelKinds: nameRules.topLevelKinds,
    rules: nameRules,
  });
}

/** The job of a text (or of the first of several files). */
export async function jobOf(source: string | Files): Promise<Job> {
  const files = typeof source === 'string' ? { 'job.broom': source } : source;
  const workspace = workspaceOf(files);
  const [document] = await workspace.open([`memory:/${Object.keys(files)[0]}`]);
  if (!document) throw new Error('the file could not be opened');
  return assembleJob({
    main: document,
    problems: problemsOf(document).map(({ code, message, offset, end }) => ({
      code,
      message,
      place: { file: document.uri.toString(), start: offset, end },
    })),
    namesAt: function* (reference) {
      for (const each of workspace.names.visibleNames(reference)) yield each.name;
    },
    standing: workspace.importsOf(document).flatMap(each => {
      const target = each.use.name === undefined ? workspace.imports.targetOf(each.use) : undefined;
      return target ? [target] : [];
    }),
  });
}

/** Codes of a job's problems, sorted, the missing version left out: most small texts have none. */
export function codesOf(job: Job): string[] {
  return job.problems
    .map(each => each.code)
    .filter(code => code !== 'version-missing')
    .sort();
}

/** A file system that holds these texts and nothing else. */
export function inMemory(files: Files): FileSystemProvider {
  const texts = new Map(Object.entries(files).map(([name, text]) => [`memory:/${name}`, text]));
  const folders = new Map<string, FileSystemNode[]>();
  for (const uri of texts.keys()) {
    const parts = uri.slice('memory:/'.length).split('/');
    for (let i = 0; i < parts.length; i++) {
      const folder = `memory:/${parts.slice(0, i).join('/')}`;
      const path = `memory:/${parts.slice(0, i + 1).join('/')}`;
      const list = folders.get(folder) ?? [];
      folders.set(folder, list);
      const isFile = i === parts.length - 1;
      if (!list.some(each => each.uri.toString() === path))
        list.push({ uri: URI.parse(path), isFile, isDirectory: !isFile });
    }
  }
  const read = (uri: URI): string => {
    const text = texts.get(uri.toString());
    if (text === undefined) throw new Error(`no file ${uri.toString()}`);
    return text;
  };
  const list = (uri: URI): FileSystemNode[] =>
    folders.get(uri.toString().replace(/(.)\/$/, '$1')) ?? folders.get(uri.toString()) ?? [];
  return {
    stat: async uri => ({ uri, isFile: texts.has(uri.toString()), isDirectory: folders.has(uri.toString()) }),
    statSync: uri => ({ uri, isFile: texts.has(uri.toString()), isDirectory: folders.has(uri.toString()) }),
    exists: async uri => texts.has(uri.toString()),
    existsSync: uri => texts.has(uri.toString()),
    readBinary: async uri => new TextEncoder().encode(read(uri)),
    readBinarySync: uri => new TextEncoder().encode(read(uri)),
    readFile: async uri => read(uri),
    readFileSync: uri => read(uri),
    readDirectory: async uri => list(uri),
    readDirectorySync: uri => list(uri),
  };
}
