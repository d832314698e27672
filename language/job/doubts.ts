/**
 * What was written but can't be read, and who reads it all the same.
 *
 * While somebody types, a value is often no value yet: `bays: thr`. The job goes on without it, so that it is still drawn and
 * scheduled; but what is judged on the strength of it would be a consequence of the slip and not of the job. So a value in
 * doubt notes who reads it: a result that was worked out with it is in doubt too, and so is what a check says after it read
 * either. Nobody has to list what depends on what.
 */
import type { BlockHead, BlockRef } from '../vocabulary/given.ts';
import type { AnyBlock, Job, Plan } from './job.ts';

/** The blocks, by their ids, in which something can't be read that counts for a result. */
export type InDoubt = ReadonlySet<string>;

/** In place of an id: something counts that has no place among the blocks, or that counts for all of them. */
export const EVERYTHING = '*';

const NONE: InDoubt = new Set();

/** What was read while something was made. */
export interface Noted {
  readonly read: InDoubt;
  /** Without what was read only while one of its parts was made, which is noted for that part. */
  readonly direct: InDoubt;
}

/** Notes what is read of values in doubt; one for all texts of a file. */
export class Doubts {
  private readonly open: { readonly read: Set<string>; readonly direct: Set<string> }[] = [];
  private readonly marks = new WeakMap<object, InDoubt>();

  /** Makes something, and tells which values in doubt were read meanwhile; also those that were read so far. */
  noting<T>(make: (read: InDoubt) => T): Noted & { readonly value: T } {
    const noted = { read: new Set<string>(), direct: new Set<string>() };
    this.open.push(noted);
    try {
      return { value: make(noted.read), ...noted };
    } finally {
      this.open.pop();
    }
  }

  /**
   * Whatever is being made has read something in doubt.
   * @param ofPart it was read for a part, which is marked itself
   */
  note(ids: Iterable<string>, ofPart = false): void {
    const innermost = this.open.at(-1);
    if (!innermost) return;
    for (const id of ids) {
      for (const { read } of this.open) read.add(id);
      if (!ofPart) innermost.direct.add(id);
    }
  }

  /** From now on this result is in doubt for those reasons, and for no others. */
  mark(result: unknown, read: InDoubt): void {
    if (typeof result !== 'object' || result === null) return;
    if (read.size > 0) this.marks.set(result, read);
    else this.marks.delete(result);
  }

  /** Why results are in doubt. */
  of(...results: readonly unknown[]): InDoubt {
    let all: Set<string> | undefined;
    for (const each of results) {
      const read = typeof each === 'object' && each !== null ? this.marks.get(each) : undefined;
      if (read) all = new Set([...(all ?? []), ...read]);
    }
    return all ?? NONE;
  }

  /** An object of which some properties are in doubt: whoever reads one of them is noted. */
  watch(of: object, keys: readonly PropertyKey[], ids: readonly string[]): void {
    for (const key of keys) {
      const descriptor = Object.getOwnPropertyDescriptor(of, key);
      if (descriptor?.get) continue;
      const value = descriptor?.value;
      Object.defineProperty(of, key, {
        get: () => {
          this.note(ids);
          return value;
        },
        enumerable: true,
        configurable: true,
      });
    }
  }
}

/**
 * Sets the values in doubt of a job under watch.
 * @returns whether there are any
 */
export function watchDoubts(job: Job, doubts: Doubts): boolean {
  let any = job.doubts.length > 0;
  for (const key of job.doubts) doubts.watch(key in job.blocks ? job.blocks : job, [key], [EVERYTHING]);
  const watch = (of: { readonly doubts?: readonly string[] }, id: string): void => {
    if (!of.doubts) return;
    any = true;
    doubts.watch(of, of.doubts, [id]);
  };
  for (const block of job.byId.values()) watch(block, block.id);
  for (const plan of job.plans) {
    // A plan that was made anew may hold its blocks as objects of their own.
    for (const block of blocksOf(plan)) watch(block, block.id);
    for (const step of plan.steps) watch(step, plan.work.id);
    watch(plan, plan.work.id);
  }
  return any;
}

/**
 * Tells whether what can't be read in a block may be why something is said of another one. Both belong to a work, or to
 * several; two that have no work in common have nothing to do with each other, nor have two of a kind that no work names.
 */
export function concerns(job: Job): (id: string, about: BlockRef | undefined) => boolean {
  const worksOf = new Map<string, Set<string>>();
  for (const plan of job.plans) {
    for (const id of membersOf(plan)) {
      const works = worksOf.get(topId(id)) ?? new Set();
      worksOf.set(topId(id), works.add(plan.work.id));
    }
  }
  return (id, about) => {
    if (id === EVERYTHING || !about) return true;
    const [from, to] = [topId(id), topId(about.id)];
    if (from === to) return true;
    const [a, b] = [worksOf.get(from), worksOf.get(to)];
    if (a && b) return [...a].some(work => b.has(work));
    const kind = (top: string) => (job.byId.get(top) as AnyBlock | undefined)?.kind;
    return kind(from) !== kind(to);
  };
}

/** Ids of all that takes part in a work. */
function membersOf(plan: Plan): readonly string[] {
  const named = Object.values(plan.work).map(each => idsIn((each as { readonly value?: unknown } | undefined)?.value));
  return [...blocksOf(plan).map(block => block.id), ...named.flat()];
}

/** The blocks that are brought together in a plan, with what is nested in them. */
function blocksOf(plan: Plan): readonly BlockHead[] {
  const { work, deposits, runway, product, method, steps } = plan;
  const machines = [...plan.bindings.values(), ...steps.flatMap(step => [step.machines, step.with])].flat();
  return [
    work,
    ...deposits,
    ...(runway ? [runway, ...runway.ends] : []),
    ...(product ? [product] : []),
    ...(method ? [method, ...method.steps, ...method.roles, ...method.buildUps] : []),
    ...steps.map(each => each.step),
    ...machines.map(each => each.machine),
  ];
}

function idsIn(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.flatMap(idsIn);
  if (typeof value !== 'object' || value === null) return [];
  const { id } = value as { readonly id?: unknown };
  return typeof id === 'string' ? [id] : [];
}

/** The block at the top of its file in which a block stands: `job.broom#North` of `job.broom#North.Agitate`. */
function topId(id: string): string {
  const end = id.indexOf('.', id.indexOf('#'));
  return end < 0 ? id : id.slice(0, end);
}
