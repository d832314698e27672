/** The command line in this process: words in, status and text out. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run, type World } from '../../server/cli/run.ts';

export const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Outcome {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

export async function broomline(args: readonly string[], world: Partial<World> = {}): Promise<Outcome> {
  let [out, err] = ['', ''];
  const status = await run(args, {
    cwd: root,
    version: '0.0.0-test',
    columns: 110,
    colour: false,
    out: text => {
      out += text;
    },
    err: text => {
      err += text;
    },
    ...world,
  });
  return { status, out, err };
}

/** A folder of its own for one test, with these files in it. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'broomline-'));
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  return folder;
}
