/**
 * What the preview and its host say to each other. The host is the extension; in tests it is a page that keeps what it
 * hears. The preview draws what it is given and asks for everything else: it reads no file and changes no text itself.
 *
 * What comes from the preview is checked by the host before anything is done with it: `toHost.safeParse(message)`.
 */
import { z } from 'zod';
import type { SheetView } from '../../language/pictures/layout.ts';
import type { Delivery } from './delivery.ts';

/** A stretch of a file: address, and character offsets with the end exclusive. */
const place = z.object({ file: z.string().min(1), start: z.int().min(0), end: z.int().min(0) });
const edit = z.object({ place, text: z.string().max(10_000) });
const edits = z.array(edit).min(1).max(200);
/** Number of the picture whose places the edits name: they fit its text and no other. */
const picture = z.int();

export const toHost = z.discriminatedUnion('type', [
  /** The preview is there and wants to be shown something. */
  z.object({ type: z.literal('ready') }),
  /** A delivery builds on one that the preview doesn't have: it wants the whole. */
  z.object({ type: z.literal('whole') }),
  /** Go to a place in the text. */
  z.object({ type: z.literal('reveal'), place }),
  /** Change the text: one edit, one undo. `what` says it in words, for the undo list. */
  z.object({ type: z.literal('edit'), picture, edits, what: z.string() }),
  /** What would come out if the text were so? Asked while something is dragged; only the latest answer counts. */
  z.object({ type: z.literal('whatIf'), id: z.int(), picture, edits }),
  /** Nothing is dragged any more: answers to `whatIf` are not wanted. */
  z.object({ type: z.literal('endWhatIf') }),
  /** Put a text on the clipboard: a table, parted by tabs. */
  z.object({ type: z.literal('copy'), text: z.string(), what: z.string() }),
  /** The answer to `export`: SVG text, or a PNG as a data address. */
  z.object({ type: z.literal('exported'), id: z.int(), format: z.enum(['svg', 'png']), content: z.string() }),
  /** Something went wrong while drawing. */
  z.object({ type: z.literal('failed'), message: z.string() }),
]);

export type ToHost = z.infer<typeof toHost>;

export type ToPreview =
  /** A picture, current with the text. `clock` is the time of day, for saying since when it stands. */
  | { readonly type: 'show'; readonly picture: Delivery; readonly clock: string }
  /** The text can't be read: the last picture stays, greyed. `place` is where. */
  | { readonly type: 'broken'; readonly message: string; readonly line?: number; readonly place?: Place }
  /** A new picture is being computed. */
  | { readonly type: 'computing' }
  /** The engine failed. */
  | { readonly type: 'fault'; readonly message: string }
  /** Where the cursor is; `line` counts from 1. */
  | { readonly type: 'cursor'; readonly file: string; readonly offset: number; readonly line: number }
  /** The answer to `whatIf`. */
  | { readonly type: 'whatIf'; readonly id: number; readonly picture: Delivery }
  /** Make a picture of what is shown. */
  | { readonly type: 'export'; readonly id: number; readonly format: 'svg' | 'png' };

type Place = z.infer<typeof place>;

/** What the preview keeps over a reload. */
export interface Kept {
  readonly view?: SheetView;
  readonly job?: string;
  readonly file?: string;
  readonly tables?: readonly string[];
}
