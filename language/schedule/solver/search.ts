/**
 * The search: decide, propagate, learn from each conflict, restart now and then, and tighten the objective with each schedule
 * found, until nothing is left to try. Lazy clause generation after Schutt, Feydy, Stuckey, Wallace, J. Scheduling 16 (2013).
 *
 * It can be stopped after any conflict and goes on from there as if it had not been stopped: nothing depends on time or chance.
 */
import { ActivityHeap } from './activityHeap.ts';
import { rootBound } from './bounds.ts';
import { ConflictAnalysis } from './conflict.ts';
import type { Network } from './network.ts';
import { Clauses } from './propagators/clauses.ts';
import { Frames } from './propagators/frames.ts';
import { Lags } from './propagators/lags.ts';
import { Machine, machineSets } from './propagators/machines.ts';
import { Orders } from './propagators/orders.ts';
import { Timetable } from './propagators/timetable.ts';
import { Reason, Store } from './store.ts';

/**
 * After a schedule is found the next one is asked to be a good step better, or this little work is spent on it: otherwise a large
 * problem gets better by one unit at a time.
 */
const STEP_SHARE = 0.75;
const STEP_CONFLICTS = 20;

/** How the next variable and its value are chosen. */
type Branching = 'earliest' | 'busiest' | 'guided';

export class Search {
  /** Starts of the best schedule so far. */
  best: Int32Array | undefined;
  bestObjective = Infinity;
  conflicts = 0;
  decisions = 0;
  restarts = 0;
  /** No schedule better than the best (or none at all) is left. */
  exhausted = false;

  private readonly network: Network;
  private readonly improve: (starts: Int32Array) => Int32Array;
  private readonly store: Store;
  private readonly lags: Lags;
  private readonly frames: Frames;
  private readonly orders: Orders;
  private readonly timetables: readonly Timetable[];
  private readonly machines: readonly Machine[];
  /** For each variable of a start: what looks at many starts at once and has to look again when this one moves. */
  private readonly watching: readonly (readonly (Timetable | Machine)[])[];
  private readonly clauses: Clauses;
  private readonly analysis: ConflictAnalysis;
  private readonly busy: ActivityHeap;
  private proved: number;
  private branching: Branching = 'earliest';
  /** What to assume of the objective before anything else: nothing, its lower bound, or the middle. */
  private assume: 'nothing' | 'bound' | 'middle' | 'step' = 'nothing';
  private stepEnds = 0;
  private stride = 0;
  private sinceRestart = 0;
  private restartAfter = 100;

  /**
   * @param network what to search
   * @param improve turns a schedule into one at least as good (for instance by moving all work forward, order kept)
   */
  constructor(network: Network, improve: (starts: Int32Array) => Int32Array) {
    this.network = network;
    this.improve = improve;
    const { count, pairs } = network;
    const variables = count + 1 + pairs.length;
    const lower = new Int32Array(variables);
    const upper = new Int32Array(variables).fill(1);
    lower.set(network.earliest);
    upper.set(network.latest);
    this.store = new Store(lower, upper);
    this.lags = new Lags(this.store, network.arcs);
    this.frames = new Frames(this.store, network);
    this.orders = new Orders(this.store, network);
    this.timetables = network.pools.filter(p => !p.allPairs).map(pool => new Timetable(this.store, network, pool));
    this.machines = machineSets(network).map(tasks => new Machine(this.store, network, tasks));
    const watching: (Timetable | Machine)[][] = Array.from({ length: count + 1 }, () => []);
    for (const whole of [...this.timetables, ...this.machines]) {
      for (const i of whole.tasks) watching[i]!.push(whole);
    }
    this.watching = watching;
    this.clauses = new Clauses(this.store, 6000);
    this.busy = new ActivityHeap(variables);
    this.analysis = new ConflictAnalysis(this.store, x => this.busy.bump(x));
    this.proved = network.earliest[count]!;
    this.prepare();
  }

  /** Proved so far: no schedule has a smaller objective. */
  get bound(): number {
    return this.exhausted ? this.bestObjective : Math.min(this.proved, this.bestObjective);
  }

  /**
   * Goes on until nothing is left to try or until the totals of conflicts or decisions reach the limits.
   * With `firstOnly` also stops at the first schedule.
   */
  run(conflicts: number, decisions: number, firstOnly: boolean): void {
    while (!this.exhausted && !(firstOnly && this.best !== undefined)) {
      if (!this.propagate()) {
        this.conflicts++;
        this.sinceRestart++;
        if (!this.learn()) this.exhausted = true;
        if (this.conflicts >= conflicts) return;
        continue;
      }
      if (this.store.level === 0) this.atRoot();
      if (this.sinceRestart >= this.restartAfter) {
        this.restart();
      } else if (this.assume === 'step' && this.conflicts >= this.stepEnds) {
        this.assume = 'nothing';
        this.backTo(0);
      } else if (!this.decide()) {
        this.accept(this.store.value);
      } else if (this.decisions >= decisions) {
        return;
      }
    }
  }

  /** Takes a schedule known to keep all constraints as the one to beat. Only before or between runs. */
  offer(starts: Int32Array): void {
    const improved = this.improve(starts);
    const objective = this.objectiveOf(improved);
    if (objective >= this.bestObjective || objective > -this.store.root[2 * this.network.count + 1]!) return;
    this.best = improved;
    this.bestObjective = objective;
    this.backTo(0);
    if (!this.demandBetter()) this.exhausted = true;
  }

  /** Propagates the root and raises the objective to what can be shown without search. */
  private prepare(): void {
    const { store, network } = this;
    if (network.hopeless) {
      this.exhausted = true;
      return;
    }
    store.enqueueAll();
    if (!this.propagate()) {
      this.exhausted = true;
      return;
    }
    store.keepRoot();
    const bound = rootBound(network, store.root);
    if (!store.raise(2 * network.count, bound, Reason.none, 0, 0) || !this.propagate()) this.exhausted = true;
    else this.atRoot();
  }

  private propagate(): boolean {
    const { store, lags, frames, orders, clauses, timetables, machines, watching, network } = this;
    const starts = 2 * network.count;
    for (;;) {
      for (let d = store.dequeue(); d >= 0; d = store.dequeue()) {
        if (d < starts) {
          if (!frames.propagate(d)) return this.fail();
          const own = watching[d >> 1]!;
          for (let k = 0; k < own.length; k++) own[k]!.dirty = true;
        }
        if (!lags.propagate(d) || !orders.note(d) || !clauses.propagate(d)) return this.fail();
      }
      if (orders.hasWaiting) {
        if (!orders.propagate()) return this.fail();
        continue;
      }
      for (let k = 0; k < timetables.length && !store.hasQueued; k++) {
        const timetable = timetables[k]!;
        if (timetable.dirty && !timetable.propagate()) {
          timetable.dirty = true;
          return this.fail();
        }
      }
      for (let k = 0; k < machines.length && !store.hasQueued; k++) {
        const machine = machines[k]!;
        if (machine.dirty && !machine.propagate(store.level === 0)) {
          machine.dirty = true;
          return this.fail();
        }
      }
      if (!store.hasQueued) return true;
    }
  }

  private fail(): false {
    this.store.clearQueue();
    this.orders.forget();
    return false;
  }

  /** Learns from the conflict and goes back. False when there is nowhere to go back to. */
  private learn(): boolean {
    const lesson = this.analysis.analyze();
    if (lesson === undefined) return false;
    this.backTo(lesson.level);
    this.busy.decay();
    this.clauses.decay();
    return this.clauses.learn(lesson.literals, lesson.levels);
  }

  private backTo(level: number): void {
    const { store, busy } = this;
    if (store.level <= level) return;
    for (let t = store.firstEntry(level + 1); t < store.entries; t++) busy.insert(store.entryBound[t]! >> 1);
    store.backTo(level);
    // What a table showed above this level is gone, but bounds have only loosened: nothing new follows until one rises.
  }

  /** Everything at level 0 has been propagated: keep it, and note what it proves. */
  private atRoot(): void {
    this.store.keepRoot();
    this.proved = Math.max(this.proved, this.store.root[2 * this.network.count]!);
  }

  private restart(): void {
    this.backTo(0);
    this.restarts++;
    this.sinceRestart = 0;
    this.stride = 0;
    this.restartAfter = Math.floor(this.restartAfter * 1.15) + 10;
    if (!this.clauses.reduce()) {
      this.exhausted = true;
      return;
    }
    const known: readonly Branching[] = ['guided', 'earliest', 'busiest'];
    const unknown: readonly Branching[] = ['busiest', 'earliest'];
    const choices = this.best === undefined ? unknown : known;
    this.branching = choices[this.restarts % choices.length]!;
    this.assume = this.restarts % 4 === 1 ? 'bound' : this.restarts % 4 === 3 ? 'middle' : 'nothing';
  }

  /** Makes a decision. False when all is decided: the bounds are a schedule. */
  private decide(): boolean {
    const { store, network } = this;
    const { value } = store;
    if (store.level === 0 && this.assume !== 'nothing') {
      const d = 2 * network.count;
      const [low, high] = [value[d]!, -value[d + 1]!];
      if (low < high) {
        return this.choose(d + 1, -this.aim(low, high));
      }
    }
    return this.branching === 'earliest' ? this.decideEarliest() : this.decideBusiest();
  }

  /** What the objective is assumed to be at most, given its bounds. */
  private aim(low: number, high: number): number {
    const gap = high - low;
    if (this.assume === 'step') return low + Math.floor(gap * STEP_SHARE);
    if (this.assume === 'middle') return low + (gap >> 1);
    // Each refutation doubles the stride: where time is counted in seconds, going on by one would take for ever.
    const stride = Math.min(this.stride, gap >> 1);
    this.stride = Math.max(1, gap >> 6, 2 * this.stride);
    return low + stride;
  }

  private decideEarliest(): boolean {
    const { value } = this.store;
    const { count } = this.network;
    let chosen = -1;
    let early = Infinity;
    let late = Infinity;
    for (let i = 0; i <= count; i++) {
      const [low, high] = [value[2 * i]!, -value[2 * i + 1]!];
      if (low === high || low > early || (low === early && high >= late)) continue;
      chosen = i;
      early = low;
      late = high;
    }
    return chosen >= 0 && this.choose(2 * chosen + 1, -early);
  }

  private decideBusiest(): boolean {
    const { store, network, busy, best } = this;
    const { value } = store;
    for (let x = busy.pop(); x >= 0; x = busy.pop()) {
      const [low, high] = [value[2 * x]!, -value[2 * x + 1]!];
      if (low === high) continue;
      if (x > network.count) return this.choose(this.likelierOrder(x), x);
      const aim = this.branching === 'guided' && best !== undefined && x < network.count ? best[x]! : low;
      if (aim > low && aim < high && this.branching === 'guided') busy.insert(x);
      if (aim >= high) return this.choose(2 * x, high);
      return this.choose(2 * x + 1, -Math.max(low, aim));
    }
    return this.decideEarliest();
  }

  /** The order literal to decide for the pair of variable x: as in the best schedule, else by the middle of the bounds. */
  private likelierOrder(x: number): number {
    const { network, best } = this;
    const { value } = this.store;
    const { first, second } = network.pairs[x - network.count - 1]!;
    const firstLeads =
      this.branching === 'guided' && best !== undefined
        ? best[first]! < best[second]!
        : value[2 * first]! - value[2 * first + 1]! <= value[2 * second]! - value[2 * second + 1]!;
    return firstLeads ? 2 * x : 2 * x + 1;
  }

  private choose(d: number, v: number): boolean {
    this.decisions++;
    this.store.decide(d, d > 2 * this.network.count + 1 ? 1 - (d & 1) : v);
    return true;
  }

  /** All starts are fixed: improve the schedule, keep it, and ask for a better one. */
  private accept(value: Int32Array): void {
    const starts = this.improve(Int32Array.from({ length: this.network.count }, (_, i) => value[2 * i]!));
    this.best = starts;
    this.bestObjective = this.objectiveOf(starts);
    if (this.assume === 'nothing') this.assume = 'step';
    this.stepEnds = this.conflicts + STEP_CONFLICTS;
    this.backTo(0);
    if (!this.demandBetter()) this.exhausted = true;
  }

  private demandBetter(): boolean {
    return this.store.raise(2 * this.network.count + 1, 1 - this.bestObjective, Reason.none, 0, 0);
  }

  private objectiveOf(starts: Int32Array): number {
    const { count, arcs, earliest } = this.network;
    let latest = -Infinity;
    for (const { from, to, weight } of arcs) if (to === count) latest = Math.max(latest, starts[from]! + weight);
    return latest === -Infinity ? earliest[count]! : latest;
  }
}
