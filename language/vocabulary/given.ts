/**
 * A value as the job holds it: the value itself, where it stands in the text, and how it came to be there.
 * Every later stage reads `value`; hover, report and comparison read the rest.
 */

/** A stretch of text: file address and character offsets, end exclusive. */
export interface Place {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

export function isPlace(value: object): value is Place {
  const { file, start, end } = value as Partial<Place>;
  return typeof file === 'string' && typeof start === 'number' && typeof end === 'number';
}

/** How a value came to be where it is used. */
export type Origin =
  | { readonly by: 'own line' }
  | { readonly by: 'default'; readonly source: string }
  | { readonly by: 'inherited'; readonly from: string }
  | { readonly by: 'library'; readonly file: string }
  | { readonly by: 'argument'; readonly parameter: string; readonly place: Place }
  | { readonly by: 'parameter default'; readonly parameter: string };

export interface Given<T> {
  readonly value: T;
  /** Least and greatest value when the author gave a tolerance (`11.3 km/h ± 10 %`); numbers only, SI. */
  readonly interval?: readonly [least: number, greatest: number];
  /** The unit the author wrote, canonical symbol; numbers only. */
  readonly unit?: string;
  /** What the author wrote, or what the default says. */
  readonly text: string;
  readonly place: Place;
  readonly origin: Origin;
  /** A literal on the block's own line can be changed by a fix or by dragging in the preview; anything else can't. */
  readonly literal: boolean;
}

/** A block referred to by name. `id` is unique in a job; `name` is what the author calls it. */
export interface BlockRef {
  readonly kind: string;
  readonly id: string;
  readonly name: string;
}

/** What every block of the job carries besides its properties. */
export interface BlockHead {
  readonly kind: string;
  /** Unique in the job: file address and path of names. */
  readonly id: string;
  /** Given name or designator; '' where the kind has none. */
  readonly name: string;
  /** The whole block, for related places. */
  readonly place: Place;
  /** Its heading (kind and name), where a finding about the block as a whole stands. */
  readonly heading: Place;
  /** True where the block stands in another file than the job's own: a fix must not touch it. */
  readonly fromLibrary: boolean;
  /** Keys of what was written but can't be read, or not all of it; absent where there is nothing of the kind. */
  readonly doubts?: readonly string[];
}
