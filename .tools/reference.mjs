// Writes the reference of the language out of its definitions. A test fails when it is stale.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { referencePages } from '../language/documents/reference.ts';

const folder = new URL('../language/reference/', import.meta.url);
// A page of something that is gone must go too.
rmSync(folder, { recursive: true, force: true });
for (const [path, text] of referencePages()) {
  const file = fileURLToPath(new URL(path, folder));
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}
