/** The examples of the project as the files of a test's workspace; how values are aligned in them is nothing to these tests. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = new URL('../../examples/', import.meta.url).pathname;

export function exampleFiles(): Record<string, string> {
  return Object.fromEntries(
    readdirSync(folder, { recursive: true })
      .map(name => String(name).replaceAll('\\', '/'))
      .filter(name => name.endsWith('.broom'))
      .map(name => [name, readFileSync(join(folder, name), 'utf8').replace(/(\S) {2,}(?=\S)/g, '$1 ')]),
  );
}

export const TENDER = 'tern-sands/tender-2031.broom';
export const AIRPORT = 'tern-sands/airport.broom';
export const PLANT = 'library/district-plant.broom';
export const METHOD = 'library/broom-and-rinse.broom';
export const FIRST = 'small-job.broom';
export const WRONG = 'wrong-on-purpose.broom';
