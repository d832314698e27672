/**
 * What the server and its own clients (preview, exports, the extension) say to each other beyond the standard protocol.
 * Each message has a schema for what is asked and what is answered; both sides check against it.
 */
import { z } from 'zod';
import { derivedDocument } from '../language/documents/derived.ts';
import type { PictureData } from '../language/pictures/data.ts';

const uri = z.string().min(1).describe('Address of the file.');

interface Message<P extends z.ZodType, R extends z.ZodType> {
  readonly method: string;
  readonly params: P;
  readonly result: R;
}

function message<P extends z.ZodType, R extends z.ZodType>(method: string, params: P, result: R): Message<P, R> {
  return { method, params, result };
}

// --- the client asks ---

/** Version of the open text an answer belongs to; null for a file that is not open. */
const version = z.int().nullable();

export const DeriveRequest = message(
  'broomline/derive',
  z.object({ uri }),
  z.object({ uri, version, derived: derivedDocument }),
);

/** An explained quantity, its inputs in turn; strings are for people, in the system of units asked for. */
export interface ExplainedMessage {
  readonly path: string;
  readonly label: string;
  readonly symbol: string;
  readonly shown: string;
  readonly written?: string | undefined;
  readonly range?: string | undefined;
  readonly formula?: string | undefined;
  readonly filled?: string | undefined;
  readonly where?: string | undefined;
  readonly origin?: string | undefined;
  readonly source: string;
  readonly note?: string | undefined;
  readonly above?: true | undefined;
  readonly inputs: readonly ExplainedMessage[];
}

const explained: z.ZodType<ExplainedMessage> = z.object({
  path: z.string(),
  label: z.string(),
  symbol: z.string(),
  shown: z.string(),
  written: z.string().optional(),
  range: z.string().optional(),
  formula: z.string().optional(),
  filled: z.string().optional(),
  where: z.string().optional(),
  origin: z.string().optional(),
  source: z.string(),
  note: z.string().optional(),
  above: z.literal(true).optional(),
  get inputs() {
    return z.array(explained);
  },
});

export const ExplainRequest = message(
  'broomline/explain',
  z.object({ uri, path: z.string().min(1).describe('North.product'), units: z.enum(['metric', 'us']).optional() }),
  z.object({ uri, version, explained, text: z.string().describe('The whole explanation for a terminal or a sheet.') }),
);

export const CheckPageRequest = message(
  'broomline/checkPage',
  z.object({ code: z.string().min(1) }),
  z.object({ markdown: z.string() }),
);

/** The blocks of a job with where they stand, for a preview that leads back to the text. */
export const BlocksRequest = message(
  'broomline/blocks',
  z.object({ uri }),
  z.object({
    uri,
    version,
    blocks: z.array(
      z.object({
        path: z.string().describe('Names from the top, parted by dots.'),
        kind: z.string(),
        file: z.string(),
        range: z.object({
          start: z.object({ line: z.int(), character: z.int() }),
          end: z.object({ line: z.int(), character: z.int() }),
        }),
      }),
    ),
  }),
);

/** A job at a glance, for the editor's status, and what can be explained in it. */
export const OverviewRequest = message(
  'broomline/overview',
  z.object({ uri }),
  z.object({
    uri,
    version,
    job: z.string().describe('Name of the job block; empty for a library.'),
    findings: z.object({ errors: z.int(), warnings: z.int(), hints: z.int(), waived: z.int() }),
    schedule: z.object({
      state: z.enum(['scheduled', 'provisional', 'impossible', 'open', 'nothing']),
      closures: z.int().describe('How many the schedule uses.'),
      provedLeast: z.boolean().describe('Fewer are proved impossible.'),
      provedEarliest: z.boolean().describe('An earlier end is proved impossible.'),
      clear: z.string().nullable().describe('When the runway is clear in the last closure, ISO 8601 with offset.'),
      spare: z.number().nullable().describe('From then to the hand-back that is due, s.'),
    }),
    quantities: z.array(z.object({ path: z.string(), label: z.string(), shown: z.string() })),
  }),
);

/** A stretch of a file: its address, and offsets in UTF-16 code units with the end exclusive. */
const place = z.object({ file: z.string().min(1), start: z.int().min(0), end: z.int().min(0) });

/** The data of pictures is as large as a job; its shape is that of language/pictures, and only its version is checked. */
const picture = z.custom<PictureData>(
  value => typeof value === 'object' && value !== null && (value as PictureData).format === 1,
);

/** What the preview draws. `broken` says where the text itself can't be read; the picture is then of what is left of it. */
export const PictureRequest = message(
  'broomline/picture',
  z.object({ uri }),
  z.object({
    uri,
    version,
    picture,
    broken: z.object({ message: z.string(), line: z.int().describe('From 1.'), place }).nullable(),
  }),
);

/** The picture that the text would have after some edits, while something is dragged. Nothing is changed. */
export const WhatIfRequest = message(
  'broomline/whatIf',
  z.object({ uri, edits: z.array(z.object({ place, text: z.string() })) }),
  z.object({ uri, version, picture }),
);

// --- the server asks: files that only the editor can reach ---

export const ReadFileRequest = message('broomline/readFile', z.object({ uri }), z.object({ text: z.string() }));

export const ReadDirectoryRequest = message(
  'broomline/readDirectory',
  z.object({ uri }),
  z.object({ entries: z.array(z.object({ name: z.string(), type: z.enum(['file', 'folder', 'other']) })) }),
);

export const FileExistsRequest = message('broomline/fileExists', z.object({ uri }), z.object({ exists: z.boolean() }));

// --- the server tells, to clients that said `experimental: { broomline: {…} }` ---

/** The search for a schedule of this file is done, or its budget used up: what was asked before may be better now. */
export const ImprovedNotification = { method: 'broomline/improved', params: z.object({ uri, version }) } as const;
