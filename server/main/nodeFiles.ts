/** Files of this machine: text in UTF-8, of a sensible size. Links are listed as what they are and never followed. */
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { URI } from 'langium';
import type { ReadOnlyFiles } from '../environment.ts';

/** The largest file that is read; a tender of 2,000 lines has about 0.1 MB. */
const LARGEST = 8 * 1024 * 1024;

export const nodeFiles: ReadOnlyFiles = {
  async readFile(uri) {
    const { size } = await stat(uri.fsPath);
    if (size > LARGEST) throw new Error(`${uri.path} has ${size} bytes; a spec has at most ${LARGEST}.`);
    return new TextDecoder('utf-8', { fatal: true }).decode(await readFile(uri.fsPath));
  },
  async readDirectory(uri) {
    const entries = await readdir(uri.fsPath, { withFileTypes: true });
    return entries.map(entry => ({
      isFile: entry.isFile(),
      isDirectory: entry.isDirectory(),
      uri: URI.file(join(uri.fsPath, entry.name)),
    }));
  },
  async exists(uri) {
    try {
      await stat(uri.fsPath);
      return true;
    } catch {
      return false;
    }
  },
};
