/**
 * How a picture comes from the host to the preview: in parts, each as its own text, and of these only the ones that the
 * preview doesn't have yet. A text is cheap to hand over, and the preview reads one part after the other, in turns that
 * each fit into a frame. What comes out is the same as if the whole had been sent.
 *
 * A delivery names the one it builds on. A preview that doesn't have that one asks for the whole.
 */
import type { PictureData } from '../../language/pictures/data.ts';

/** Lists that are large: each of their elements is a part. Every other property is one. */
const lists = ['bays', 'activities'] as const;
type List = (typeof lists)[number];

export interface Delivery {
  /** Which picture this is: counted from 1 by the host, never twice. */
  readonly number: number;
  /** The delivery it builds on; 0 for none. */
  readonly since: number;
  /** JSON of the properties that are not as they were. */
  readonly properties: Readonly<Record<string, string>>;
  /** Properties that are there no longer. */
  readonly gone: readonly string[];
  /** Elements in order: JSON, or the index of the element of the earlier picture that is the same. */
  readonly lists: Readonly<Record<List, readonly (string | number)[]>>;
}

/** A picture as it was delivered, and its number. */
export interface Picture extends Pick<Delivery, 'number'> {
  readonly data: PictureData;
}

interface Texts {
  readonly properties: ReadonlyMap<string, string>;
  readonly lists: Readonly<Record<List, readonly string[]>>;
}

/** The host's side: knows what the preview has. */
export class Sender {
  private number = 0;
  private last: { readonly number: number; readonly texts: Texts } | undefined;

  /** Makes the delivery of a picture that builds on the one before. */
  deliver(data: PictureData): Delivery {
    const texts = textsOf(data);
    const before = this.last;
    this.number += 1;
    this.last = { number: this.number, texts };
    const properties = [...texts.properties].filter(([name, text]) => before?.texts.properties.get(name) !== text);
    return {
      number: this.number,
      since: before?.number ?? 0,
      properties: Object.fromEntries(properties),
      gone: [...(before?.texts.properties.keys() ?? [])].filter(name => !texts.properties.has(name)),
      lists: byList(name => {
        const known = new Map(before?.texts.lists[name].map((text, i) => [text, i]));
        return texts.lists[name].map(text => known.get(text) ?? text);
      }),
    };
  }

  /** The preview has nothing any more: the next delivery is whole. */
  forget(): void {
    this.last = undefined;
  }
}

function textsOf(data: PictureData): Texts {
  const small = Object.entries(data).filter(([name]) => !lists.includes(name as List));
  // What JSON has no word for (undefined) is not there.
  const texts = small.flatMap(([name, value]) => {
    const text: string | undefined = JSON.stringify(value);
    return text === undefined ? [] : [[name, text] as const];
  });
  return {
    properties: new Map(texts),
    lists: byList(name => data[name].map(each => JSON.stringify(each))),
  };
}

function byList<T>(each: (name: List) => T): Readonly<Record<List, T>> {
  return Object.fromEntries(lists.map(name => [name, each(name)])) as Record<List, T>;
}

/** A part: read when it is first wanted, and once. The same part is the same object in every picture. */
class Part {
  private text: string | undefined;
  private value: unknown;

  constructor(text: string) {
    this.text = text;
  }

  get isRead(): boolean {
    return this.text === undefined;
  }

  read(): unknown {
    if (this.text !== undefined) {
      this.value = JSON.parse(this.text);
      this.text = undefined;
    }
    return this.value;
  }
}

/** The preview's side: keeps the parts. */
export class Receiver {
  private number = 0;
  private properties: ReadonlyMap<string, Part> = new Map();
  private parts: Readonly<Record<List, readonly Part[]>> = byList(() => []);

  /** Takes a delivery, and reads nothing of it yet. False where it builds on one that is not here: nothing has changed then. */
  take({ number, since, properties, gone, lists: given }: Delivery): boolean {
    if (since !== 0 && since !== this.number) return false;
    const before = this.parts;
    const kept = since === 0 ? [] : [...this.properties].filter(([name]) => !gone.includes(name));
    this.number = number;
    this.properties = new Map([
      ...kept,
      ...Object.entries(properties).map(([name, text]) => [name, new Part(text)] as const),
    ]);
    this.parts = byList(name =>
      given[name].map(each => (typeof each === 'number' ? before[name][each]! : new Part(each))),
    );
    return true;
  }

  /** Reads parts, at least one, until there is none left or `enough` says so. Whether all are read. */
  read(enough: () => boolean): boolean {
    const left = [...this.properties.values(), ...lists.flatMap(name => this.parts[name])].filter(each => !each.isRead);
    for (const [i, part] of left.entries()) {
      part.read();
      if (enough()) return i === left.length - 1;
    }
    return true;
  }

  /** The picture, whole. */
  picture(): Picture {
    const values = [...this.properties].map(([name, part]) => [name, part.read()] as const);
    const elements = byList(name => this.parts[name].map(each => each.read()));
    return { number: this.number, data: { ...Object.fromEntries(values), ...elements } as unknown as PictureData };
  }
}
