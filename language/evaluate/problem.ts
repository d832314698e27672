/** A problem found while the text is turned into a job. Data, never thrown. */
import type { BlockRef, Place } from '../vocabulary/given.ts';

export interface Problem {
  /** A check of the same code adds severity, title and fixes. */
  readonly code: string;
  /** What is wrong, why, and what to do. */
  readonly message: string;
  readonly place: Place;
  readonly related?: readonly { readonly place: Place; readonly message: string }[];
  /** What a fix needs to know: the word that was probably meant, units that would fit. */
  readonly data?: Readonly<Record<string, string | number | readonly string[]>>;
  /** The block it is about, if any: waivers name it. */
  readonly about?: BlockRef;
}
