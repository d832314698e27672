/** Every published contract, by the name of its file in language/documents/schemas. `npm run schemas` writes them. */
import { z } from 'zod';
import { derivedDocument } from './derived.ts';
import { findingsDocument } from './findings.ts';

const contracts = { findings: findingsDocument, derived: derivedDocument } as const;

/** The JSON Schemas (draft 2020-12) by name, as they are published. */
export function jsonSchemas(): Readonly<Record<string, unknown>> {
  return Object.fromEntries(
    Object.entries(contracts).map(([name, contract]) => [
      name,
      { title: `broomline ${name}`, ...z.toJSONSchema(contract) },
    ]),
  );
}
