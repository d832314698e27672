/** Settings that only the extension reads; those of the server are in server/settings.ts. The manifest is written from both. */
import { z } from 'zod';

export const clientSettings = z.object({
  preview: z
    .object({
      followCursor: z.boolean().default(true).describe('Mark in the preview what the cursor in the text stands on.'),
    })
    .prefault({}),
  trace: z
    .object({
      server: z
        .enum(['off', 'messages', 'verbose'])
        .default('off')
        .describe('What is written to the log of the talk between editor and language server.'),
    })
    .prefault({}),
});
