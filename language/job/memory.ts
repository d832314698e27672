/**
 * What was worked out for a text, kept for the next one. A result is used again where its inputs are the same objects and
 * everything that was read of the job while it was made still says the same. So nobody has to list what a stage depends
 * on, and nobody can forget an entry of such a list.
 */
import { Doubts, type InDoubt, watchDoubts } from './doubts.ts';
import type { AnyBlock, Blocks, Job } from './job.ts';
import { Readings } from './readings.ts';
import { settle, unsettled } from './settle.ts';

/**
 * The result that was kept under a name, or a new one.
 * @param name unique among the results that are kept beside it
 * @param inputs what the result is made from besides the job; compared by identity
 * @param make makes it, from the job that it is handed and from nothing else that can change. Parts of it can be kept in
 *   turn, for when it has to be made anew.
 */
export type Keep = <T>(name: string, inputs: readonly unknown[], make: (job: Job, keepPart: Keep) => T) => T;

/** Keeps results while one text is analysed. */
export interface Keeper {
  /** The job; in a memory, told with the objects of the job before. */
  readonly job: Job;
  readonly keep: Keep;
  /** Notes who reads what can't be read; also of what is kept. Undefined where everything in the job can be read. */
  readonly doubts: Doubts | undefined;
  /** The result that was kept under a name before, whatever it was made from. */
  readonly last: <T>(name: string) => T | undefined;
  /** All is made: what the text had no use for is forgotten. */
  readonly done: () => void;
}

/** Keeps nothing. */
export function withoutMemory(job: Job): Keeper {
  const doubts = new Doubts();
  const isInDoubt = watchDoubts(job, doubts);
  const makeAnew: Keep = (_name, inputs, make) => made(doubts, inputs, () => make(job, makeAnew)).value;
  return {
    job,
    keep: isInDoubt ? makeAnew : nothingKept(job),
    doubts: isInDoubt ? doubts : undefined,
    last: () => undefined,
    done: () => {},
  };
}

/** Makes everything anew. */
export function nothingKept(job: Job): Keep {
  return (_name, _inputs, make) => make(job, nothingKept(job));
}

/** Makes a result, which is in doubt where something that it is made from is. */
function made<T>(
  doubts: Doubts,
  inputs: readonly unknown[],
  make: () => T,
): { readonly value: T; readonly read: InDoubt } {
  const { value, read } = doubts.noting(() => {
    doubts.note(doubts.of(...inputs));
    return make();
  });
  doubts.mark(value, read);
  return { value, read };
}

/** The memory of one file; one text of it after another is analysed with it. */
export class Memory {
  readonly readings = new Readings();
  private readonly doubts = new Doubts();
  private job: Job | undefined;
  private readonly results = new Results(this.doubts);

  /** Begins with the job of a new text. Jobs and results of the text before are spent. */
  begin(fresh: Job): Keeper {
    const { job, became } = this.job ? settle(this.job, fresh) : unsettled(fresh);
    this.readings.follow(became);
    this.job = job;
    const inDoubt = watchDoubts(job, this.doubts);
    const { results } = this;
    results.begin();
    return {
      job,
      keep: results.keeping(job),
      doubts: inDoubt ? this.doubts : undefined,
      last: <T>(name: string) => results.last(name) as T | undefined,
      done: () => results.done(),
    };
  }
}

/** Results by their names, of this text and of the one before. */
class Results {
  private readonly doubts: Doubts;
  private before = new Map<string, Entry>();
  private now = new Map<string, Entry>();

  constructor(doubts: Doubts) {
    this.doubts = doubts;
  }

  begin(): void {
    this.before = this.now;
    this.now = new Map();
  }

  done(): void {
    this.before.clear();
  }

  last(name: string): unknown {
    return (this.now.get(name) ?? this.before.get(name))?.value;
  }

  keeping(job: Job): Keep {
    return (name, inputs, make) => this.keep(job, name, inputs, make);
  }

  private keep<T>(job: Job, name: string, inputs: readonly unknown[], make: (job: Job, keepPart: Keep) => T): T {
    const known = this.now.get(name) ?? this.before.get(name);
    if (known && sameInputs(known.inputs, inputs) && known.watched.holds(job)) {
      known.watched.follow(job);
      this.now.set(name, known);
      this.doubts.note(known.read);
      return known.value as T;
    }
    // What has to be made anew is let go first: the less is alive, the less the collector has to look after.
    this.before.delete(name);
    const parts = known?.parts ?? new Results(this.doubts);
    const watched = new Watched(job);
    parts.begin();
    // A part reads the job by way of the whole, which is made from all that its parts are made from.
    const { value, read } = made(this.doubts, inputs, () => make(watched.job, parts.keeping(watched.job)));
    parts.done();
    this.now.set(name, { inputs, watched, value, parts, read });
    return value;
  }
}

interface Entry {
  readonly inputs: readonly unknown[];
  readonly watched: Watched;
  readonly value: unknown;
  readonly parts: Results;
  /** What it is in doubt for. */
  readonly read: InDoubt;
}

function sameInputs(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((each, i) => Object.is(each, b[i]));
}

/** A view of a job that notes what is read of it, and can follow to the job of a later text. */
class Watched {
  readonly job: Job;
  private target: Job;
  private readonly read = new Map<string, { readonly value: unknown; readonly of: (job: Job) => unknown }>();

  constructor(job: Job) {
    this.target = job;
    const blocks = this.view<Blocks>(
      each => each.blocks,
      key => this.note(`blocks ${String(key)}`, each => each.blocks[key]),
    );
    const byId = this.blocksById();
    this.job = this.view<Job>(
      each => each,
      key => (key === 'blocks' ? blocks : key === 'byId' ? byId : this.note(String(key), each => each[key])),
    );
  }

  /** An object with the keys of a part of the job, and no job in it: a result that is kept must not keep an old one. */
  private view<T extends object>(part: (job: Job) => T, get: (key: keyof T) => unknown): T {
    return new Proxy({} as T, {
      get: (_, key) => get(key as keyof T),
      has: (_, key) => key in part(this.target),
      ownKeys: () => Reflect.ownKeys(part(this.target)),
      getOwnPropertyDescriptor: (_, key) => ({ value: get(key as keyof T), enumerable: true, configurable: true }),
    });
  }

  /** Whether all that was read is in another job as it was. */
  holds(job: Job): boolean {
    for (const { value, of } of this.read.values()) if (of(job) !== value) return false;
    // The same list may lack a block now, or no longer.
    const isRead = (key: Job['doubts'][number]) => this.read.has(`blocks ${key}`) || this.read.has(key);
    const before = this.target.doubts;
    return !(
      job.doubts.some(key => !before.includes(key) && isRead(key)) ||
      before.some(key => !job.doubts.includes(key) && isRead(key))
    );
  }

  /** From now on the view is one of this job, in which everything that was read is the same. */
  follow(job: Job): void {
    this.target = job;
  }

  private note(key: string, of: (job: Job) => unknown): unknown {
    const value = of(this.target);
    if (!this.read.has(key)) this.read.set(key, { value, of });
    return value;
  }

  private blocksById(): Job['byId'] {
    const all = () => this.note('byId', each => each.byId) as Job['byId'];
    const of = (id: string) => this.note(`byId ${id}`, each => each.byId.get(id)) as AnyBlock | undefined;
    return {
      get: of,
      has: id => of(id) !== undefined,
      get size() {
        return all().size;
      },
      forEach: (callback, self) => all().forEach(callback, self),
      entries: () => all().entries(),
      keys: () => all().keys(),
      values: () => all().values(),
      [Symbol.iterator]: () => all()[Symbol.iterator](),
    };
  }
}
