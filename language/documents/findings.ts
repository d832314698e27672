/**
 * Findings as other programs read them: what `broomline check --format json` prints. The schema is the contract; its
 * JSON Schema stands in language/documents/schemas, and a test fails when that is stale.
 */
import { z } from 'zod';
import type { Finding } from '../checks/check.ts';
import type { Place } from '../vocabulary/given.ts';

const position = z
  .object({
    line: z.number().int().min(0).describe('From 0.'),
    character: z.number().int().min(0).describe('From 0, in UTF-16 code units, as editors count.'),
  })
  .describe('A place between two characters.');

const range = z.object({ start: position, end: position }).describe('End exclusive.');

const file = z.string().describe('Path with forward slashes, relative to the folder in which the command was run.');

const finding = z.object({
  code: z.string().describe('The check that found it.'),
  severity: z.enum(['error', 'warning', 'hint']),
  message: z.string().describe("What is wrong, why, and what to do, with numbers in the author's units."),
  file,
  range,
  related: z.array(z.object({ message: z.string(), file, range })).describe('Other places that have to do with it.'),
  fixes: z
    .array(
      z.object({
        title: z.string(),
        safe: z.boolean().describe('Keeps for certain what the author meant.'),
        edits: z.array(z.object({ file, range, text: z.string() })),
      }),
    )
    .describe('Changes that would mend it, each by itself.'),
  waived: z
    .object({ reason: z.string(), by: z.string(), until: z.iso.date().optional() })
    .nullable()
    .describe('Who waived it and why, or null.'),
});

export const findingsDocument = z
  .object({
    findings: z.array(finding).describe('By file and place.'),
    summary: z
      .object({
        files: z.number().int().min(0).describe('Files that were checked.'),
        errors: z.number().int().min(0),
        warnings: z.number().int().min(0),
        hints: z.number().int().min(0),
        waived: z.number().int().min(0).describe('Findings of any severity that are waived; not counted above.'),
      })
      .describe('The exit status is 1 when errors is above 0.'),
  })
  .describe('What broomline check prints with --format json.');

export type FindingsDocument = z.infer<typeof findingsDocument>;
type Position = z.infer<typeof position>;

/** Where offsets lie, and what files are called: the caller knows the texts. */
export interface Locate {
  readonly positionOf: (file: string, offset: number) => Position;
  readonly nameOf: (file: string) => string;
}

export function findingsAsDocument(findings: readonly Finding[], files: number, locate: Locate): FindingsDocument {
  const where = ({ file, start, end }: Place) => ({
    file: locate.nameOf(file),
    range: { start: locate.positionOf(file, start), end: locate.positionOf(file, end) },
  });
  return {
    findings: findings.map(({ code, severity, message, place, related = [], fixes, waived }) => ({
      code,
      severity,
      message,
      ...where(place),
      related: related.map(each => ({ message: each.message, ...where(each.place) })),
      fixes: fixes.map(fix => ({
        title: fix.title,
        safe: fix.safe,
        edits: fix.edits.map(edit => ({ ...where(edit.place), text: edit.text })),
      })),
      waived: waived
        ? { reason: waived.reason, by: waived.by, ...(waived.until !== undefined && { until: waived.until }) }
        : null,
    })),
    summary: countFindings(findings, files),
  };
}

/** How many findings of each severity stand, waived ones apart. */
export function countFindings(findings: readonly Finding[], files: number): FindingsDocument['summary'] {
  const open = findings.filter(finding => !finding.waived);
  const number = (severity: Finding['severity']) => open.filter(finding => finding.severity === severity).length;
  return {
    files,
    errors: number('error'),
    warnings: number('warning'),
    hints: number('hint'),
    waived: findings.length - open.length,
  };
}
