/**
 * Computed quantities that need no tracks: areas, rates, product, water, loads, flow, pressure, coverage, film life, cost.
 *
 * Each is explained down to lines of the text. The order is that of the text: block by block, the job's own file first,
 * then the totals. Total and deterministic: whatever the job lacks, the quantities that depend on it are absent, and
 * `missingFor` says what they lack.
 */
import type { Explained } from '../explain/explain.ts';
import type { Doubts, InDoubt } from '../job/doubts.ts';
import type {
  Broom,
  Closure,
  Crew,
  Deposit,
  Jet,
  Job,
  Lookup,
  Machine,
  Plan,
  Runway,
  Sprayer,
  Survey,
} from '../job/job.ts';
import { type Keeper, withoutMemory } from '../job/memory.ts';
import { camel } from '../vocabulary/define.ts';
import type { BlockHead } from '../vocabulary/given.ts';
import { applicationQuantities } from './application.ts';
import { areaQuantities, workArea } from './area.ts';
import { costQuantities } from './cost.ts';
import { coverageQuantities } from './coverage.ts';
import { depositArea, depositQuantities, depositRubber } from './deposits.ts';
import { broomQuantities, jetQuantities, sprayerQuantities } from './machines.ts';
import { applyStepProduct, productQuantities } from './product.ts';
import { type Context, isMissing, leaf, type Missing, type Quantity, quantity } from './quantity.ts';
import { runwayQuantities, surveyQuantities } from './runways.ts';
import { closureSchedule, crewSchedule, jobSchedule, machineSchedule, workSchedule } from './scheduled.ts';
import { type StepOf, stepsOf } from './steps.ts';
import { costTotals, totalQuantities } from './totals.ts';
import { type Engine, trackedQuantities } from './tracked.ts';
import { stepWaterQuantities, waterQuantities } from './water.ts';
import { filmLife, weatherQuantities } from './weather.ts';

/** All quantities that can be computed, by path, in the order of the text. */
export function computeQuantities(job: Job): ReadonlyMap<string, Explained> {
  return analyseQuantities(job).known;
}

/** What a named quantity lacks; undefined where it is known or where nothing of that name exists. */
export function missingFor(job: Job, path: string): Missing | undefined {
  const { missing } = analyseQuantities(job);
  return missing.get(path) ?? missing.get(camelLast(path));
}

/** A quantity by path, also one that only stands inside another: an input of the text, a part of an area. */
export function findQuantity(quantities: ReadonlyMap<string, Explained>, path: string): Explained | undefined {
  const found = quantities.get(path) ?? quantities.get(camelLast(path));
  if (found) return found;
  const seen = new Set<Explained>();
  const queue = [...quantities.values()];
  for (let each = queue.pop(); each; each = queue.pop()) {
    if (each.path === path) return each;
    for (const input of each.inputs) {
      if (seen.has(input)) continue;
      seen.add(input);
      queue.push(input);
    }
  }
  return undefined;
}

/** The quantities that can be computed, and those that can't with what they lack. Both in the order of the text. */
export interface Quantities {
  readonly known: ReadonlyMap<string, Explained>;
  readonly missing: ReadonlyMap<string, Missing>;
  /** What a quantity hangs on that can't be read; of a name that there is not, what the quantities of its block hang on. */
  readonly inDoubt: (path: string) => InDoubt;
}

/**
 * @param engine tracks and exposure of the job, for the quantities that come from them
 * @param keeper remembers those of each block from one text to the next
 */
export function analyseQuantities(job: Job, engine?: Engine, keeper: Keeper = withoutMemory(job)): Quantities {
  const known = new Map<string, Explained>();
  const lacking = new Map<string, Missing>();
  const { doubts } = keeper;
  for (const each of allQuantities(contextOf(job, namesOf(job), doubts), engine, keeper)) {
    if (known.has(each.path) || lacking.has(each.path)) continue;
    if (isMissing(each)) lacking.set(each.path, each);
    else known.set(each.path, each);
  }
  const all = new Map<string, Quantity>([...known, ...lacking]);
  return { known, missing: lacking, inDoubt: doubts ? doubtsIn(job, all, doubts) : () => new Set() };
}

/** Tells what quantities are in doubt for, those included from which they are computed. */
function doubtsIn(job: Job, all: ReadonlyMap<string, Quantity>, doubts: Doubts): Quantities['inDoubt'] {
  const seen = new Map<Quantity, InDoubt>();
  const of = (each: Quantity): InDoubt => {
    const before = seen.get(each);
    if (before) return before;
    const ids = new Set(doubts.of(each));
    for (const part of isMissing(each) ? (each.parts ?? []) : each.inputs) for (const id of of(part)) ids.add(id);
    seen.set(each, ids);
    return ids;
  };
  return path => {
    const found = all.get(path) ?? all.get(camelLast(path));
    if (found) return of(found);
    // There may be one of that name once all that is said of its block can be read.
    const [owner] = path.split('.');
    const blocks = [...job.byId.values()].filter(each => each.name === owner && each.doubts);
    const plans = job.plans.filter(plan => plan.work.name === owner && (plan.doubts ?? plan.method?.doubts));
    return new Set([...blocks.map(each => each.id), ...plans.map(plan => plan.work.id)]);
  };
}

/**
 * Looks quantities up by path for the author's requirements. A property may also be written as the language writes words
 * of two parts: `North.dilution-water`.
 */
export function lookupIn({ known, missing }: Pick<Quantities, 'known' | 'missing'>): Lookup {
  return path => {
    const found = known.get(path) ?? known.get(camelLast(path));
    if (found) return { value: found.value, kind: found.kind };
    return missing.has(path) || missing.has(camelLast(path)) ? 'missing' : 'unknown';
  };
}

/** Names may hold hyphens, so only the last part is turned: `North-East.dilution-water` → `North-East.dilutionWater`. */
function camelLast(path: string): string {
  const at = path.lastIndexOf('.') + 1;
  return path.slice(0, at) + camel(path.slice(at));
}

function allQuantities(ctx: Context, engine: Engine | undefined, keeper: Keeper): readonly Quantity[] {
  const { job } = ctx;
  const plans = new Map(job.plans.map(plan => [plan.work.id, plan]));
  const blocks = inTextOrder(job);
  const names = blocks.map(ctx.nameOf).join('\n');
  /**
   * The quantities of one block, from what they are made of and what of the job they read. They are worked out among
   * themselves: a part that another block had made already would hide what it was made from.
   */
  const kept: Kept = (name, inputs, make) => {
    const { doubts } = keeper;
    const own = keeper.keep(`quantities ${name}`, [names, ...inputs], known => {
      const inside = contextOf(known, ctx.nameOf, doubts);
      return topic(inside, () => make(inside));
    });
    for (const each of own) ctx.once(each.path, () => each);
    return own;
  };
  const ofBlocks = blocks.flatMap(block => {
    const plan = plans.get(block.id);
    if (block.kind === 'work') return plan ? ofWork(ctx, plan, engine, kept) : [];
    return kept(block.id, [block], own => ofBlock(own, block));
  });
  // These hang on times of steps, which have to be there first.
  const scheduled = inDoubtWith(ctx, engine?.schedule);
  const ofSchedule = scheduled(blocks.flatMap(block => scheduleOfBlock(ctx, block, engine)));
  return [
    ...ofBlocks,
    ...ofSchedule,
    ...totalQuantities(ctx),
    ...costTotals(ctx, ofBlocks),
    ...scheduled(jobSchedule(ctx, engine, ofSchedule)),
  ];
}

function ofBlock(ctx: Context, block: BlockHead): readonly Quantity[] {
  switch (block.kind) {
    case 'runway':
      return runwayQuantities(ctx, block as Runway);
    case 'deposit':
      return depositQuantities(ctx, block as Deposit);
    case 'sprayer':
      return sprayerQuantities(ctx, block as Sprayer);
    case 'broom':
      return broomQuantities(ctx, block as Broom);
    case 'jet':
      return jetQuantities(ctx, block as Jet);
    case 'survey':
      return surveyQuantities(ctx, block as Survey);
    default:
      return [];
  }
}

function scheduleOfBlock(ctx: Context, block: BlockHead, engine: Engine | undefined): readonly Quantity[] {
  switch (block.kind) {
    case 'sprayer':
    case 'broom':
    case 'water-truck':
    case 'sweeper':
    case 'magnet':
    case 'jet':
      return machineSchedule(ctx, block as Machine, engine);
    case 'crew':
      return crewSchedule(ctx, block as Crew, engine);
    case 'closure':
      return closureSchedule(ctx, block as Closure, engine);
    default:
      return [];
  }
}

type Kept = (
  name: string,
  inputs: readonly unknown[],
  make: (ctx: Context) => readonly Quantity[],
) => readonly Quantity[];

function ofWork(ctx: Context, plan: Plan, engine: Engine | undefined, kept: Kept): readonly Quantity[] {
  const { id } = plan.work;
  const tracks = engine?.works.find(each => each.plan === plan);
  const unscheduled = engine?.schedule?.built.works.find(each => each.plan === plan);
  return [
    ...kept(id, [plan, tracks, unscheduled], own => [
      ...topic(own, () => areaQuantities(own, plan)),
      ...topic(own, () => rubber(own, plan)),
      ...topic(own, () => productQuantities(own, plan)),
      ...topic(own, () => waterQuantities(own, plan)),
      ...topic(own, () => weatherQuantities(own, plan)),
      ...stepsOf(own, plan).flatMap(of => ofStep(own, of)),
      ...inDoubtWith(own, tracks, unscheduled)(topic(own, () => trackedQuantities(own, plan, engine))),
    ]),
    ...inDoubtWith(ctx, engine?.schedule)(workSchedule(ctx, plan, engine)),
    ...kept(`${id} cost`, [plan], own => costQuantities(own, plan)),
  ];
}

/** Quantities that are made together: what was read for them, and for no single one of them, counts for all of them. */
function topic({ doubts }: Context, make: () => readonly Quantity[]): readonly Quantity[] {
  if (!doubts) return make();
  const { value, direct } = doubts.noting(make);
  return direct.size > 0 ? value.map(each => inDoubtFor(doubts, each, direct)) : value;
}

function inDoubtFor(doubts: Doubts, quantity: Quantity, read: InDoubt): Quantity {
  doubts.mark(quantity, new Set([...doubts.of(quantity), ...read]));
  return quantity;
}

/** What is made from results of other stages is in doubt where they are. */
function inDoubtWith({ doubts }: Context, ...from: readonly unknown[]) {
  return (quantities: readonly Quantity[]): readonly Quantity[] => {
    const read = doubts?.of(...from);
    return doubts && read?.size ? quantities.map(each => inDoubtFor(doubts, each, read)) : quantities;
  };
}

function ofStep(ctx: Context, of: StepOf): readonly Quantity[] {
  return [
    ...(of.does === 'apply'
      ? [...topic(ctx, () => applyStepProduct(ctx, of)), ...topic(ctx, () => applicationQuantities(ctx, of))]
      : []),
    ...topic(ctx, () => stepWaterQuantities(ctx, of)),
    ...topic(ctx, () => filmLife(ctx, of)),
    ...topic(ctx, () => coverageQuantities(ctx, of)),
  ];
}

/** W.rubber, where the thickness of every deposit is given: mean thickness of the deposits over the area of the work. */
function rubber(ctx: Context, plan: Plan): readonly Quantity[] {
  if (plan.deposits.length === 0 || plan.deposits.some(deposit => !deposit.thickness)) return [];
  const path = `${ctx.nameOf(plan.work)}.rubber`;
  const volumes = plan.deposits.map(deposit => depositRubber(ctx, deposit));
  const areas = plan.deposits.map(deposit => depositArea(ctx, deposit));
  const { method } = plan;
  const degree = method?.degree ? [leaf({ path: ctx.nameOf(method), block: method }, 'degree', 'k')] : [];
  const total = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
  return [
    ctx.once(path, () =>
      quantity({
        path,
        label: degree.length > 0 ? 'rubber to be removed' : 'rubber in the area of the work',
        symbol: 'V_r',
        kind: 'volume',
        formula: `V_r = ${degree.length > 0 ? 'k · ' : ''}A · Σ V_r of the deposits / Σ A of the deposits`,
        inputs: [workArea(ctx, plan), ...volumes, ...areas, ...degree],
        compute: (size, ...parts) => {
          const n = volumes.length;
          const share = parts[2 * n] ?? 1;
          return (share * size! * total(parts.slice(0, n))) / total(parts.slice(n, 2 * n));
        },
        source: 'geometry',
        place: plan.work.heading,
      }),
    ),
  ];
}

// Names and order

function contextOf(job: Job, nameOf = namesOf(job), doubts?: Doubts): Context {
  return {
    job,
    nameOf,
    once: memory<Quantity>(doubts, true),
    keep: memory<unknown>(doubts, false) as Context['keep'],
    ...(doubts && { doubts }),
  };
}

/** @param arePartsMarked what is made carries itself what it is in doubt for */
function memory<T>(doubts: Doubts | undefined, arePartsMarked: boolean): (key: string, make: () => T) => T {
  const made = new Map<string, T>();
  const reads = new Map<string, InDoubt>();
  return (key, make) => {
    const found = made.get(key);
    if (found !== undefined || made.has(key)) {
      doubts?.note(reads.get(key) ?? [], arePartsMarked);
      return found as T;
    }
    if (!doubts) {
      const value = make();
      made.set(key, value);
      return value;
    }
    const { value, read } = doubts.noting(make);
    made.set(key, value);
    if (read.size > 0) {
      reads.set(key, read);
      if (arePartsMarked) doubts.mark(value, new Set([...doubts.of(value), ...read]));
      else doubts.note(read);
    }
    return value;
  };
}

/**
 * Paths of blocks: the given name; a block without one by its kind. Where two files hold blocks of the same name, the
 * first keeps it and the others get the name of their file in front.
 */
function namesOf(job: Job): (block: BlockHead) => string {
  const names = new Map<string, string>();
  const taken = new Set<string>();
  for (const block of inTextOrder(job)) {
    const plain = block.name || camel(block.kind);
    const stem =
      block.place.file
        .split('/')
        .at(-1)
        ?.replace(/\.broom$/, '') ?? '';
    let name = plain;
    for (let i = 1; taken.has(name); i++) name = i === 1 ? `${stem}.${plain}` : `${stem}.${plain}${i}`;
    taken.add(name);
    names.set(block.id, name);
  }
  return block => names.get(block.id) ?? (block.name || camel(block.kind));
}

/** Top-level blocks by file, the job's own first, and by place in it. */
function inTextOrder(job: Job): readonly BlockHead[] {
  const blocks = (Object.values(job.blocks) as (readonly BlockHead[])[]).flat();
  const libraries = [...new Set(blocks.map(block => block.place.file))].filter(file => file !== job.file).sort();
  const rank = new Map([job.file, ...libraries].map((file, i) => [file, i]));
  return blocks.toSorted(
    (a, b) =>
      rank.get(a.place.file)! - rank.get(b.place.file)! || a.place.start - b.place.start || (a.id < b.id ? -1 : 1),
  );
}
