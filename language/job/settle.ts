/**
 * A job after a change of the text, told with the objects of the job before: what says the same is the same object, so
 * later stages see by identity what they need not work out again.
 *
 * Where something stands is no part of what it says. A block that only moved is kept, and its places are moved along:
 * they are the one thing that is ever written to after it was made, and only here. The job before is spent by that.
 */
import { type BlockHead, isPlace, type Place } from '../vocabulary/given.ts';
import type { AnyBlock, Blocks, Job, Plan } from './job.ts';

/** A job told with the objects of another. */
export interface Settled {
  readonly job: Job;
  /** What an object of the new job became; itself where it is no part of the job. */
  readonly became: <T extends object>(now: T) => T;
}

/**
 * @param before the job of the text before; nobody may use it any more
 * @returns the new job, in which everything that is as it was is the object that it was
 */
export function settle(before: Job, now: Job): Settled {
  const sharing = new Sharing();
  const blocks = Object.fromEntries(
    Object.entries(now.blocks).map(([key, list]) => [
      key,
      sharing.list(before.blocks[key as keyof Blocks] as readonly BlockHead[], list as readonly BlockHead[]),
    ]),
  ) as unknown as Blocks;
  const byId = new Map<string, AnyBlock>();
  for (const [id, block] of now.byId) byId.set(id, sharing.of(before.byId.get(id), block));
  const earlier = new Map(before.plans.map(plan => [plan.work.id, plan]));
  const plans = now.plans.map((plan): Plan => sharing.of(earlier.get(plan.work.id), plan));
  const doubts = sharing.same(before.doubts, now.doubts);
  const job = { ...now, blocks, byId, plans: sharing.same(before.plans, plans), doubts };
  sharing.movePlaces();
  return { job, became: each => sharing.resultOf(each) };
}

/** The first job of a file, which has nothing to share. */
export function unsettled(job: Job): Settled {
  return { job, became: each => each };
}

class Sharing {
  /** What each new object became. Met again, it has to become the same. */
  private readonly became = new Map<object, unknown>();
  /** Where the places that are kept stand now. */
  private readonly moves = new Map<Place, Place>();

  /** The old value where it says the same as the new one; else the new one, with whatever of the old is in it. */
  of<T>(old: unknown, now: T): T {
    if (Object.is(old, now) || typeof now !== 'object' || now === null) return now;
    const known = this.became.get(now);
    if (known !== undefined) return known as T;
    const shared = this.shared(old, now);
    this.became.set(now, shared);
    return shared as T;
  }

  /** Blocks paired by their ids. */
  list<T extends BlockHead>(old: readonly T[] | undefined, now: readonly T[]): readonly T[] {
    const byId = new Map(old?.map(block => [block.id, block]));
    return this.same(
      old,
      now.map(block => this.of(byId.get(block.id), block)),
    );
  }

  /** The old list where it has the same objects. */
  same<T>(old: readonly T[] | undefined, now: readonly T[]): readonly T[] {
    return old?.length === now.length && now.every((each, i) => each === old[i]) ? old : now;
  }

  resultOf<T extends object>(now: T): T {
    return (this.became.get(now) ?? now) as T;
  }

  movePlaces(): void {
    for (const [old, { start, end }] of this.moves) Object.assign(old, { start, end });
  }

  private shared(old: unknown, now: object): unknown {
    if (typeof old !== 'object' || old === null || Object.getPrototypeOf(old) !== Object.getPrototypeOf(now))
      return now;
    if (Array.isArray(now)) {
      const items = now.map((each, i) => this.of((old as unknown[])[i], each));
      return this.same(old as unknown[], items);
    }
    if (now instanceof Map) return this.map(old as Map<unknown, unknown>, now);
    if (now instanceof Set) return sameSet(old as Set<unknown>, now) ? old : now;
    // Anything but plain data is what it is.
    if (Object.getPrototypeOf(now) !== Object.prototype || '$type' in now) return now;
    if (isPlace(now)) return this.place(old as Place, now);
    return this.record(old as Record<string, unknown>, now as Record<string, unknown>);
  }

  private record(old: Record<string, unknown>, now: Record<string, unknown>): unknown {
    // Two blocks that only stand at the same place of a list: the old one is still there, and its places are its own.
    if (typeof now.id === 'string' && old.id !== now.id) return now;
    const keys = Object.keys(now);
    let same = keys.length === Object.keys(old).length;
    let changed: Record<string, unknown> | undefined;
    for (const key of keys) {
      const value = this.of(old[key], now[key]);
      if (value !== old[key] || !(key in old)) same = false;
      if (value === now[key]) continue;
      changed ??= {};
      changed[key] = value;
    }
    return same ? old : changed ? { ...now, ...changed } : now;
  }

  private map(old: ReadonlyMap<unknown, unknown>, now: ReadonlyMap<unknown, unknown>): unknown {
    let same = old.size === now.size;
    const values = new Map<unknown, unknown>();
    for (const [key, each] of now) {
      const value = this.of(old.get(key), each);
      if (value !== old.get(key)) same = false;
      values.set(key, value);
    }
    return same ? old : values;
  }

  /** One place can't be in two: where it would have to, the second one stays new. */
  private place(old: Place, now: Place): Place {
    if (!isPlace(old) || old.file !== now.file) return now;
    const move = this.moves.get(old);
    if (move && (move.start !== now.start || move.end !== now.end)) return now;
    this.moves.set(old, now);
    return old;
  }
}

function sameSet(old: ReadonlySet<unknown>, now: ReadonlySet<unknown>): boolean {
  return old.size === now.size && [...now].every(each => old.has(each));
}
