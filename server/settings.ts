/** The settings of the server, checked. The extension's settings page is written from this schema too. */
import { z } from 'zod';

export const settingsSchema = z.object({
  units: z
    .enum(['job', 'metric', 'US customary'])
    .default('job')
    .describe('Units in which computed quantities are shown. "job" takes those of the file.'),
  asOf: z.iso
    .date()
    .nullable()
    .default(null)
    .describe('Date on which waivers are judged. Without one, the date of the job.'),
  hints: z
    .object({
      enabled: z.boolean().default(true).describe('Show key computed quantities at the ends of lines.'),
      otherUnits: z.boolean().default(false).describe('Show values of the text in the other system of units too.'),
    })
    .prefault({}),
  lenses: z
    .object({
      quantities: z.boolean().default(true).describe('Show area and product above deposits and works.'),
      references: z.boolean().default(true).describe('Show above each block how often it is used.'),
    })
    .prefault({}),
  diagnostics: z
    .object({
      scope: z
        .enum(['open files', 'workspace'])
        .default('open files')
        .describe('Which files are checked: those that are open, or all of the workspace.'),
    })
    .prefault({}),
  budgets: z
    .object({
      files: z
        .int()
        .min(1)
        .max(100_000)
        .default(5_000)
        .describe('Most files of a workspace that are looked at, for references and names.'),
      schedule: z
        .number()
        .min(0)
        .max(3_600)
        .default(20)
        .describe('How many seconds the search for the best schedule goes on in the background.'),
      wait: z
        .int()
        .min(0)
        .max(2_000)
        .default(120)
        .describe('Longest wait in milliseconds for further key presses before a large file is checked.'),
    })
    .prefault({}),
});

export type Settings = z.infer<typeof settingsSchema>;

export const defaultSettings: Settings = settingsSchema.parse({});

/** Settings as a client sent them. What is wrong falls back to its default and is named, so that it can be said. */
export function readSettings(given: unknown): { readonly settings: Settings; readonly problems: readonly string[] } {
  if (given === undefined || given === null) return { settings: defaultSettings, problems: [] };
  const parsed = settingsSchema.safeParse(given);
  if (parsed.success) return { settings: parsed.data, problems: [] };
  const problems = parsed.error.issues.map(issue => `broomline.${issue.path.join('.')}: ${issue.message}`);
  let rest: unknown = given;
  for (const { path } of parsed.error.issues) rest = without(rest, path);
  const mended = settingsSchema.safeParse(rest);
  return { settings: mended.success ? mended.data : defaultSettings, problems };
}

function without(value: unknown, path: readonly PropertyKey[]): unknown {
  const [key, ...rest] = path;
  if (key === undefined || typeof value !== 'object' || value === null) return undefined;
  const copy: Record<PropertyKey, unknown> = { ...value };
  const inner = rest.length === 0 ? undefined : without(copy[key], rest);
  if (inner === undefined) delete copy[key];
  else copy[key] = inner;
  return copy;
}
