/**
 * Files for the command line. Nothing outside the workspace's root is read, links included; a file that is no text, or
 * is too large to be a spec, is said so.
 */
import { lstatSync, readdirSync, readFileSync, realpathSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';

/** The largest file that is read; a tender of 2,000 lines has about 0.1 MB. */
export const LARGEST = 8 * 1024 * 1024;

/** What can't be done, in words for a person. */
export interface Trouble {
  readonly trouble: string;
}

export interface Entry {
  readonly path: string;
  readonly address: string;
  /** Folder outside of which nothing is read. */
  readonly root: string;
}

export interface Found {
  readonly entries: readonly Entry[];
  readonly troubles: readonly Trouble[];
}

/** The `.broom` files that the paths mean, folders searched, each once, in the order given and then by name. */
export function findEntries(paths: readonly string[], cwd: string, givenRoot: string | undefined): Found {
  const troubles: Trouble[] = [];
  const files = paths.flatMap(path => {
    const found = filesAt(path, cwd);
    if (Array.isArray(found)) return found;
    troubles.push(found as Trouble);
    return [];
  });
  const common = commonFolder(files);
  const entries = [...new Set(files)].flatMap(path => {
    const root =
      givenRoot === undefined
        ? (rootAbove(dirname(path)) ?? (isInside(path, cwd) ? cwd : common))
        : resolve(cwd, givenRoot);
    if (isInside(path, root)) return [{ path, root, address: pathToFileURL(path).href }];
    troubles.push({
      trouble: `${shown(path, cwd)} lies outside the root ${shown(root, cwd)}, and nothing outside it is read.`,
    });
    return [];
  });
  return { entries, troubles };
}

function filesAt(path: string, cwd: string): string[] | Trouble {
  const full = resolve(cwd, path);
  try {
    if (!statSync(full).isDirectory()) return [full];
    const found = search(full);
    return found.length > 0 ? found : { trouble: `There is no .broom file in ${path}.` };
  } catch (error) {
    return { trouble: reasonOf(error, path) };
  }
}

/** Folders that hold no specs of anyone's. Links are not followed, so a search always ends. */
function search(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .toSorted((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap(each => {
      const path = join(folder, each.name);
      if (each.isDirectory()) return each.name === 'node_modules' || each.name.startsWith('.') ? [] : search(path);
      return each.isFile() && each.name.endsWith('.broom') ? [path] : [];
    });
}

/** The text of a file inside the root, or why there is none. */
export function readText(path: string, root: string, cwd: string): string | Trouble {
  const name = shown(path, cwd);
  try {
    if (!isInside(realpathSync(path), realpathSync(root))) {
      return { trouble: `${name} is a link that leads out of the workspace, and nothing outside it is read.` };
    }
    const { size } = statSync(path);
    if (!statSync(path).isFile()) return { trouble: `${name} is no file.` };
    if (size > LARGEST) {
      return {
        trouble: `${name} has ${Math.ceil(size / 1024 / 1024)} MB; a spec has at most ${LARGEST / 1024 / 1024} MB.`,
      };
    }
    return decode(readFileSync(path), name);
  } catch (error) {
    return { trouble: reasonOf(error, name) };
  }
}

/** Writes a file that was read before; says why where that fails. */
export function writeText(path: string, text: string, cwd: string): Trouble | undefined {
  try {
    writeFileSync(path, text);
    return undefined;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    return { trouble: `${shown(path, cwd)} can't be written (${code ?? String(error)}).` };
  }
}

function decode(bytes: Uint8Array, name: string): string | Trouble {
  try {
    // A byte order mark would move every place by one.
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: false }).decode(bytes);
  } catch {
    return { trouble: `${name} is not in UTF-8. Save it in that encoding, and it can be read.` };
  }
}

/** The nearest folder above with a .git or a package.json: what belongs together. */
function rootAbove(folder: string): string | undefined {
  for (let at = folder; ; at = dirname(at)) {
    if (exists(join(at, '.git')) || exists(join(at, 'package.json'))) return at;
    if (dirname(at) === at) return undefined;
  }
}

function commonFolder(files: readonly string[]): string {
  const [first = [], ...rest] = files.map(file => dirname(file).split(sep));
  const shared = first.filter((_, i) =>
    rest.every(parts => first.slice(0, i + 1).every((name, k) => parts[k] === name)),
  );
  return shared.join(sep) || sep;
}

export function isInside(path: string, root: string): boolean {
  const way = relative(root, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && resolve(root, way) === resolve(path));
}

function exists(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false }) !== undefined;
}

function shown(path: string, cwd: string): string {
  return (relative(cwd, path) || '.').replaceAll('\\', '/');
}

function reasonOf(error: unknown, name: string): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return `There is no file ${name}.`;
  if (code === 'EACCES' || code === 'EPERM') return `${name} may not be read: permission is missing.`;
  if (code === 'ELOOP') return `${name} is a link that leads back to itself.`;
  return `${name} can't be read (${code ?? (error instanceof Error ? error.message : String(error))}).`;
}
