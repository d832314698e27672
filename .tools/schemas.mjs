// Writes the JSON Schemas of the published contracts. A test fails when they are stale.
import { mkdirSync, writeFileSync } from 'node:fs';
import { jsonSchemas } from '../language/documents/schemas.ts';

const folder = new URL('../language/documents/schemas/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const [name, schema] of Object.entries(jsonSchemas())) {
  writeFileSync(new URL(`${name}.json`, folder), `${JSON.stringify(schema, null, 2)}\n`);
}
