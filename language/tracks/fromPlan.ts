/**
 * From a planned work to the tracks of its machines in one bay: which legs each takes, in what order, how fast, with
 * which turns and trips. Every activity is timed from its own start at 0; placing the activities against each other is
 * the next stage's (language/exposure/fromTracks.ts), because it hangs on what each point of the pavement goes through.
 *
 * What a step asks of its machines is read from the typed job alone: speeds, widths, rates, coats, cycles, the build-up
 * classes that lie in the bay, the water points and stores of the airport. Total: counts that would explode come back as
 * a problem and an activity without passes.
 */
import { coats as coatsFor } from '../formulas/application.ts';
import { nozzleFlow } from '../formulas/jets.ts';
import type { Airport, BuildUp, Jet, Job, Machine, Plan, PlannedStep, Product, Step, Sweeper } from '../job/job.ts';
import { type Keep, nothingKept } from '../job/memory.ts';
import { advanceOf, sweptWidth } from './lanes.ts';
import type { ConvoyPattern, Pattern, PatternProblem } from './patterns.ts';
import { circuitPattern, oneWayPattern, rinsePattern, sideBySidePattern, sprayPattern } from './patterns.ts';
import type { ConvoyRun, Mover, Run, Tank } from './timing.ts';
import { timeConvoy } from './timing.ts';
import type { Does, Heading, Leg, Range, Track } from './track.ts';
import { lengthOf } from './track.ts';

/** What a step does, in the words of the language. */
export type StepDoes = NonNullable<Step['does']>['value'];

/** A stretch of the runway that goes through all steps together. Metres, in the frame of the work. */
export interface Bay {
  /** Counted from 1 in the order of the work. */
  readonly number: number;
  readonly s: Range;
  /** Direction of the first pass: that in which the bays follow each other. */
  readonly heading: Heading;
  /** Lateral extent of the deposits in it. */
  readonly t: Range;
  /** Area of the deposits in it, m². */
  readonly area: number;
  /** Build-up blocks of the method for the deposits that lie in it; undefined for deposits of a class without one. */
  readonly classes: readonly (BuildUp | undefined)[];
}

/** One machine in one activity. */
export interface MachineRun {
  readonly machine: Machine;
  /** `Broom1`, or `Broom1 (2)` where several of the same kind are bound by one name. */
  readonly name: string;
  /** Width of its strip of pavement, m. */
  readonly width: number;
  readonly speed: number;
  readonly run: Run;
  /** One for each thing its passes do to the pavement. */
  readonly tracks: readonly Track[];
}

/** Why an activity has no passes. The check `count-explodes` words it. */
export type EngineProblem = (PatternProblem | NonNullable<ConvoyRun['problem']> | NoBays) & {
  readonly work: string;
  readonly step?: Step;
};
interface NoBays {
  readonly kind: 'too many bays' | 'no bay fits';
  readonly value: number;
}

/** A step in a bay: what the machines do, or a plain duration. Seconds. */
export interface Activity {
  /** `North/1/Spray`; a repetition of a keep-wet step `North/1/KeepWet/2`. */
  readonly id: string;
  readonly bay: number;
  readonly planned: PlannedStep;
  readonly does: StepDoes;
  readonly machines: readonly MachineRun[];
  /** Start of the first movement and end of the last. */
  readonly start: number;
  readonly end: number;
  /** Circuits driven in one run, for steps that go in circuits. */
  readonly circuits?: number;
  /** Distance of neighbouring lanes of circuits, m. */
  readonly advance?: number;
  /** How often the ground is gone over: coats, passes, runs of circuits. */
  readonly rounds: number;
  /** Liquid put on by the whole activity, mm, where it puts on any. */
  readonly depth?: number;
  readonly problem?: EngineProblem;
}

/**
 * The activities of a bay in order, each timed from 0. Soak is no activity; keep-wet is listed once.
 *
 * @param keep keeps what each step does from one text to the next, as long as all that it is made from is the same
 */
export function activitiesOf(job: Job, plan: Plan, bay: Bay, keep: Keep = nothingKept(job)): readonly Activity[] {
  const lastOfPlant = plan.steps.findLastIndex(({ step }) => step.does?.value === 'wash-down');
  return plan.steps.flatMap((planned, i) => {
    const does = planned.step.does?.value;
    if (does === undefined || does === 'soak' || !isDone(job, planned.step)) return [];
    const only: Activity = {
      id: `${plan.work.name}/${bay.number}/${stepName(plan, i)}`,
      bay: bay.number,
      planned,
      does,
      machines: [],
      start: 0,
      end: 0,
      rounds: 1,
    };
    if (does === 'inspect' || does === 'hand-clean') return [{ ...only, end: planned.step.takes?.value ?? 0 }];
    if (does === 'wash-down') return i === lastOfPlant ? [{ ...only, end: washing(job, plan, planned) }] : [];
    const { product } = plan;
    const work = plan.work.name;
    const waterPoint = plan.work.waterPoint?.value;
    const liquid = does === 'pick-up' ? liquidOn(job, plan, bay) : 0;
    return [
      keep(only.id, [planned, bay, product, work, waterPoint, liquid], known =>
        driven({ job: known, planned, bay, product, work, waterPoint, liquid, does, only }),
      ),
    ];
  });
}

/** Name of a step within its work; the second one of a name is told apart, as in the paths of quantities. */
export function stepName(plan: Plan, index: number): string {
  const nameAt = (i: number): string => plan.steps[i]!.step.name || (plan.steps[i]!.step.does?.value ?? '');
  const named = nameAt(index);
  let earlier = 0;
  for (let i = 0; i < index; i++) if (nameAt(i) === named) earlier++;
  return `${named}${earlier > 0 ? earlier + 1 : ''}`;
}

/** Whether a step bound to pavement temperatures is done under the conditions the job is planned for. */
export function isDone(job: Job, step: Step): boolean {
  const conditions = job.blocks.conditions[0];
  const surface = conditions?.surface?.value ?? conditions?.air?.value;
  const range = step.when?.value;
  if (!range || surface === undefined) return true;
  const slack = 1e-9 * Math.abs(surface);
  return surface >= (range.least ?? -Infinity) - slack && surface <= (range.most ?? Infinity) + slack;
}

/** Rate of mix that the bay gets altogether, mm: that of its heaviest class of build-up. */
export function mixDepth(
  plan: Pick<Plan, 'product'>,
  step: Step,
  bay: Bay,
  job: Job,
): { depth: number; buildUp: BuildUp | undefined } {
  const own = step.product?.value;
  const found = own && job.byId.get(own.id);
  const product = found?.kind === 'product' ? (found as Product) : plan.product;
  let depth = 0;
  let buildUp: BuildUp | undefined;
  for (const each of bay.classes.length > 0 ? bay.classes : [undefined]) {
    const rate = (each?.rate ?? step.rate)?.value;
    if (!rate) continue;
    const mix = rate.of === 'product' ? rate.rate / (product?.dilution?.value.share ?? Number.NaN) : rate.rate;
    if (1000 * mix > depth) [depth, buildUp] = [1000 * mix, each];
  }
  return { depth, buildUp };
}

/** Coats of an apply step in a bay: as its build-up or the step says, else as many as the surface takes, else one. */
export function coatsIn(step: Step, depth: number, buildUp: BuildUp | undefined): number {
  const said = (buildUp?.coats ?? step.coats)?.value;
  if (said !== undefined) return said;
  return step.passRate ? coatsFor(depth / 1000, step.passRate.value) : 1;
}

/** Shortest soak that the method asks for in a bay, s; the longest of its classes. */
export function leastSoak(plan: Plan, bay: Bay): number | undefined {
  const soak = plan.steps.find(({ step }) => step.does?.value === 'soak')?.step;
  const said = (bay.classes.length > 0 ? bay.classes : [undefined]).flatMap(
    each => (each?.soak ?? soak?.atLeast)?.value ?? [],
  );
  return soak && said.length > 0 ? Math.max(...said) : undefined;
}

// ── steps that drive ─────────────────────────────────────────────────────────────────────────────────────────────

/** All that the tracks of a step are made from. */
interface Setting {
  readonly job: Job;
  readonly planned: PlannedStep;
  readonly bay: Bay;
  /** That of the method. */
  readonly product: Product | undefined;
  /** Name of the work. */
  readonly work: string;
  /** Name of the water point that the work says. */
  readonly waterPoint: string | undefined;
  /** What lies on the bay to be picked up, mm. */
  readonly liquid: number;
  readonly does: StepDoes;
  readonly only: Activity;
}

/** A machine as one of several: its name in the tracks. */
interface Member {
  readonly machine: Machine;
  readonly name: string;
}

function driven(setting: Setting): Activity {
  switch (setting.does) {
    case 'sweep':
    case 'pick-up':
      return swept(setting);
    case 'apply':
      return applied(setting);
    case 'pre-wet':
    case 'keep-wet':
      return wetted(setting);
    case 'agitate':
      return agitated(setting);
    case 'rinse':
      return rinsed(setting);
    default:
      return jetted(setting);
  }
}

/** Dry sweeping and picking up: lanes side by side, one way with empty returns where the direction is given. */
function swept(setting: Setting): Activity {
  const { planned, bay, does, liquid, job } = setting;
  const { step } = planned;
  const leaders = membersOf(planned.machines);
  const followers = membersOf(planned.with);
  const width = leastWidth([...leaders, ...followers]);
  const rounds = step.passes?.value ?? 1;
  const options = { ...wayOf(bay), across: bay.t, width, overlap: step.overlap?.value ?? 0, rounds };
  const direction = step.direction?.value;
  const pattern =
    direction === undefined || direction === 'both ways'
      ? sideBySidePattern(options)
      : oneWayPattern({ ...options, heading: direction === 'with landing' ? 1 : -1 });
  const sums = perLitre(pattern.legs, bay.area);
  const tankOf = ({ machine }: Member): Tank | undefined => {
    if (machine.kind !== 'sweeper' || liquid === 0) return undefined;
    const { hopper, recovers } = machine as Sweeper;
    if (!hopper || !recovers) return undefined;
    return emptying(job, machine, 1000 * hopper.value, liquid * recovers.value * sums);
  };
  return shared(setting, pattern, leaders, followers, does === 'sweep' ? 'sweep' : 'pickup', { rounds, tankOf });
}

/** Spraying: either side of the centreline in turn, coat after coat, loads from the store. */
function applied(setting: Setting): Activity {
  const { planned, bay, job } = setting;
  const { step } = planned;
  const leaders = membersOf(planned.machines);
  const { depth, buildUp } = mixDepth(setting, step, bay, job);
  const rounds = coatsIn(step, depth, buildUp);
  const pattern = across(setting, leaders, rounds, true);
  const coat = depth / rounds;
  const tankOf = ({ machine }: Member): Tank | undefined => filling(setting, machine, coat, 'product');
  return { ...shared(setting, pattern, leaders, [], 'apply', { rounds, tankOf, depth: coat }), depth };
}

/** Water before the product, or to keep it wet. */
function wetted(setting: Setting): Activity {
  const { planned } = setting;
  const { step } = planned;
  const leaders = membersOf(planned.machines);
  const rounds = step.passes?.value ?? 1;
  const depth = 1000 * (step.rate?.value.rate ?? 0);
  const pattern = across(setting, leaders, rounds, true);
  const tankOf = ({ machine }: Member): Tank | undefined => filling(setting, machine, depth / rounds, 'water');
  return { ...shared(setting, pattern, leaders, [], 'wet', { rounds, tankOf }), depth };
}

function jetted(setting: Setting): Activity {
  const { planned, bay, job } = setting;
  const { step } = planned;
  const leaders = membersOf(planned.machines);
  const said = (bay.classes.length > 0 ? bay.classes : [undefined]).map(each => (each?.passes ?? step.passes)?.value);
  const rounds = Math.max(1, ...said.map(each => each ?? 1));
  const pattern = across(setting, leaders, rounds, false);
  const tankOf = ({ machine }: Member): Tank | undefined => {
    if (machine.kind !== 'jet') return undefined;
    const jet = machine as Jet;
    const flow = deliveredBy(jet, step);
    const speed = step.speed?.value ?? Number.NaN;
    const depth = step.rate
      ? (1000 * step.rate.value.rate) / rounds
      : flow === undefined
        ? 0
        : (1000 * flow) / (speed * (jet.width?.value ?? Number.NaN));
    const tank = filling(setting, jet, depth, 'water');
    return tank && withRecovery(job, jet, tank);
  };
  return shared(setting, pattern, leaders, [], 'jet', { rounds, tankOf });
}

/** Brooming circuits: out, and in again over the same ones, as often as the cycles say. */
function agitated(setting: Setting): Activity {
  const { planned, bay } = setting;
  const { step } = planned;
  const members = membersOf(planned.machines);
  const widths = members.map(({ machine }) => sweptBy(machine));
  const advance = advanceIn(step, members, widths);
  const cycles = Math.max(
    1,
    ...(bay.classes.length > 0 ? bay.classes : [undefined]).map(each => (each?.cycles ?? step.cycles)?.value ?? 1),
  );
  const returns = step.returns?.value !== false;
  const pattern = circuitPattern({
    ...wayOf(bay),
    first: nearSide(bay),
    edge: edgeOf(bay),
    swept: widths,
    advance,
    runs: returns ? 2 * cycles : 1,
    followers: step.tandem?.value.lane === 'next' ? 'next lane' : 'same lane',
    extra: step.extraCircuits?.value ?? 0,
  });
  const rounds = returns ? 2 * cycles : cycles;
  const repeated = returns ? pattern : { ...pattern, members: pattern.members.map(legs => again(legs, cycles)) };
  const turned = step.faces?.value === 'edge' ? { ...repeated, members: repeated.members.map(facingAbout) } : repeated;
  return convoy(setting, turned, members, widths, {
    rounds,
    headway: step.tandem?.value.headway ?? usualHeadway,
    does: () => 'contact',
  });
}

/** Rinsing: a convoy of trucks and brooms, circuits outward only, the first one and each wider one repeated. */
function rinsed(setting: Setting): Activity {
  const { planned, bay } = setting;
  const { step } = planned;
  const members = [...membersOf(planned.machines), ...membersOf(planned.with)];
  const widths = members.map(({ machine }) => sweptBy(machine));
  const brooms = members.flatMap(({ machine }, j) => (machine.kind === 'broom' ? [widths[j]!] : []));
  const advance = advanceIn(step, members, brooms.length > 0 ? brooms : widths);
  const laid = rinsePattern({
    ...wayOf(bay),
    first: nearSide(bay),
    edge: edgeOf(bay),
    widths,
    advance,
    firstRepeats: step.firstCircuit?.value.usual ?? 3,
    repeats: step.eachCircuit?.value.usual ?? 1,
    extra: step.extraCircuits?.value ?? 0,
  });
  const travel = step.travel?.value;
  const inward = laid.members.map(legs => legs.toReversed());
  const ordered =
    travel === 'inward'
      ? inward
      : travel === 'out and in'
        ? laid.members.map((legs, j) => [...legs, ...inward[j]!])
        : laid.members;
  const faced = step.faces?.value === 'centreline' ? ordered.map(facingAbout) : ordered;
  // The water of the step lasts for all its circuits: so much for each metre driven, shared by the trucks.
  const trucks = members.filter(({ machine }) => machine.kind === 'water-truck').length;
  const driven = (ordered[0] ?? []).reduce((sum, leg) => sum + lengthOf(leg), 0);
  const litres = 1000 * (step.rate?.value.rate ?? 0) * bay.area;
  const depth = 1000 * (step.rate?.value.rate ?? 0);
  const activity = convoy(setting, { ...laid, members: faced }, members, widths, {
    rounds: 1,
    headway: step.headway?.value ?? usualHeadway,
    // Water that no broom pushes on has rinsed nothing yet: with a broom in the convoy it is the broom that rinses.
    does: ({ machine }) => (brooms.length > 0 && machine.kind !== 'broom' ? 'wet' : 'rinse'),
    tankOf: ({ machine }, width) =>
      machine.kind === 'water-truck' && driven > 0
        ? filling(setting, machine, litres / trucks / driven / width, 'water')
        : undefined,
  });
  return { ...activity, depth };
}

/** The bay and the direction in which it is begun; lanes side by side are taken from the near side on. */
function wayOf(bay: Bay): Pick<Parameters<typeof sideBySidePattern>[0], 'bay' | 'heading' | 'order'> {
  return { bay: bay.s, heading: bay.heading, order: bay.heading === 1 ? 'left to right' : 'right to left' };
}

/** The first pass keeps right of the centreline, as one drives: so the same work described from the other end is the same. */
function nearSide(bay: Bay): 'right' | 'left' {
  return bay.heading === 1 ? 'right' : 'left';
}

/** Lanes of a step that goes over the whole width with a boom or bar. */
function across({ planned, bay }: Setting, members: readonly Member[], rounds: number, closes: boolean): Pattern {
  const { step } = planned;
  const options = { ...wayOf(bay), across: bay.t, width: leastWidth(members), overlap: step.overlap?.value ?? 0 };
  const direction = step.direction?.value;
  if (direction === 'against landing' || direction === 'with landing') {
    return oneWayPattern({ ...options, rounds, heading: direction === 'with landing' ? 1 : -1 });
  }
  return step.pattern?.value === 'lane by lane'
    ? sideBySidePattern({ ...options, rounds })
    : sprayPattern({
        ...options,
        coats: rounds,
        closeOutside: closes,
        first: nearSide(bay),
      });
}

// ── placing legs in time ─────────────────────────────────────────────────────────────────────────────────────────

/** Headway where the method gives none, m. Common practice, no source. */
export const usualHeadway = 20;

/** Machines that share the lanes of a step: each takes its own; followers keep behind the first one. */
function shared(
  setting: Setting,
  pattern: Pattern,
  leaders: readonly Member[],
  followers: readonly Member[],
  does: Does,
  options: {
    readonly rounds: number;
    readonly depth?: number;
    readonly tankOf: (member: Member) => Tank | undefined;
  },
): Activity {
  const { only, planned } = setting;
  const { step } = planned;
  if (pattern.problem) return { ...only, rounds: options.rounds, problem: { ...pattern.problem, ...whose(setting) } };
  const headway = (step.headway?.value ?? usualHeadway) / (step.speed?.value ?? Number.NaN);
  const machines: MachineRun[] = [];
  let problem: EngineProblem | undefined;
  leaders.forEach((leader, j) => {
    const legs = leaders.length > 1 ? dealt(pattern.legs, leaders.length, j) : pattern.legs;
    const members = j === 0 ? [leader, ...followers] : [leader];
    const movers = members.map((member, k) => ({
      ...moverOf(member.machine, step, k === 0 ? options.tankOf(member) : undefined),
      ...(k > 0 && { headway }),
    }));
    const timed = timeConvoy(
      members.map(() => legs),
      movers,
      0,
      members.map(() => options.depth),
    );
    if (timed.problem) problem ??= { ...timed.problem, ...whose(setting) };
    members.forEach((member, k) => {
      machines.push(machineRun(member, timed.runs[k]!, does, movers[k]!));
    });
  });
  return {
    ...only,
    ...(problem && { problem }),
    machines,
    rounds: options.rounds,
    end: Math.max(0, ...machines.map(each => each.run.end)),
  };
}

/** Machines that go together, lane for lane. */
function convoy(
  setting: Setting,
  pattern: ConvoyPattern,
  members: readonly Member[],
  widths: readonly number[],
  options: {
    readonly rounds: number;
    readonly headway: number;
    readonly does: (member: Member) => Does;
    readonly tankOf?: (member: Member, width: number) => Tank | undefined;
  },
): Activity {
  const { only, planned } = setting;
  const { step } = planned;
  const { rounds } = options;
  if (pattern.problem) return { ...only, rounds, problem: { ...pattern.problem, ...whose(setting) } };
  const movers = members.map(
    (member, j): Mover => ({
      ...moverOf(member.machine, step, options.tankOf?.(member, widths[j]!)),
      ...(j > 0 && { headway: options.headway / (step.speed?.value ?? Number.NaN) }),
    }),
  );
  const timed = timeConvoy(pattern.members, movers, 0);
  const machines = members.map((member, j) => machineRun(member, timed.runs[j]!, options.does(member), movers[j]!));
  return {
    ...only,
    ...(timed.problem && { problem: { ...timed.problem, ...whose(setting) } }),
    machines,
    rounds,
    circuits: pattern.circuits,
    advance: pattern.advance,
    end: Math.max(0, ...machines.map(each => each.run.end)),
  };
}

function whose({ work, planned }: Setting): { work: string; step: Step } {
  return { work, step: planned.step };
}

function machineRun({ machine, name }: Member, run: Run, does: Does, mover: Mover): MachineRun {
  return {
    machine,
    name,
    width: sweptBy(machine),
    speed: mover.speed,
    run,
    tracks: [{ does, passes: run.passes }],
  };
}

/** The legs of one of several machines that share lanes: every so many-th lane, up and down in turn where all go so. */
function dealt(legs: readonly Leg[], among: number, which: number): readonly Leg[] {
  const mine = legs.filter(leg => ((leg.lane ?? 1) - 1) % among === which);
  const oneWay = legs.length > 1 && legs.every(leg => headingSign(leg) === headingSign(legs[0]!));
  if (oneWay) return mine;
  const first = mine[0] && headingSign(mine[0]);
  return mine.map((leg, i) => (headingSign(leg) === (i % 2 === 0 ? first : -first!) ? leg : reversed(leg)));
}

function headingSign(leg: Leg): Heading {
  return leg.to.s >= leg.from.s ? 1 : -1;
}

function reversed(leg: Leg): Leg {
  return { ...leg, from: leg.to, to: leg.from };
}

/** The same circuits again: outward runs only, one after another. */
function again(legs: readonly Leg[], times: number): readonly Leg[] {
  return Array.from({ length: times }, (_, k) => legs.map(leg => ({ ...leg, round: k + 1 }))).flat();
}

function facingAbout(legs: readonly Leg[]): readonly Leg[] {
  return legs.map(leg => ({ ...leg, facing: leg.facing === 'edge' ? ('centreline' as const) : ('edge' as const) }));
}

// ── machines ─────────────────────────────────────────────────────────────────────────────────────────────────────

function membersOf(bound: PlannedStep['machines']): readonly Member[] {
  return bound.flatMap(({ machine, count }) =>
    Array.from({ length: Math.min(count, 50) }, (_, i) => ({
      machine,
      name: i === 0 ? machine.name : `${machine.name} (${i + 1})`,
    })),
  );
}

/** Width of the strip of pavement a machine works on, m: of a broom what it sweeps at its angle. */
export function sweptBy(machine: Machine): number {
  const width = machine.width?.value ?? Number.NaN;
  return 'angle' in machine && machine.angle ? sweptWidth(width, machine.angle.value * 2 * Math.PI) : width;
}

function leastWidth(members: readonly Member[]): number {
  return members.length === 0 ? Number.NaN : Math.min(...members.map(({ machine }) => sweptBy(machine)));
}

/** How much wider each circuit is: by the narrowest broom. */
function advanceIn(step: Step, members: readonly Member[], widths: readonly number[]): number {
  const rule = step.advance?.value ?? { of: 'swept' as const, share: 0.5 };
  if (rule.of === 'length') return rule.length;
  const swept = Math.min(...widths);
  if (rule.of === 'swept') return rule.share * swept;
  const brooms = members.filter(({ machine }) => machine.kind === 'broom');
  const nominal = (brooms.length > 0 ? brooms : members).map(({ machine }) => machine.width?.value ?? Number.NaN);
  return 2 * rule.share * advanceOf('half nominal', Math.min(...nominal), 0);
}

/** Greatest distance of the deposits from the centreline, m. */
function edgeOf(bay: Bay): number {
  return Math.max(Math.abs(bay.t[0]), Math.abs(bay.t[1]));
}

function moverOf(machine: Machine, step: Step, tank: Tank | undefined): Mover {
  return {
    speed: step.speed?.value ?? Number.NaN,
    turning: {
      radius: machine.turningRadius?.value ?? 0,
      speed: machine.turnSpeed?.value ?? Number.NaN,
      fixed: machine.turnTime?.value ?? 0,
      style: { narrow: machine.turns?.value === 'reverse' ? 'fishtail' : 'loop' },
    },
    ...(machine.travelSpeed && { returnSpeed: machine.travelSpeed.value }),
    ...(tank && { tank }),
  };
}

// ── tanks, points and stores ─────────────────────────────────────────────────────────────────────────────────────

export function airportOf(job: Job): Airport | undefined {
  const named = job.blocks.jobs[0]?.airport?.value;
  const found = named && job.byId.get(named.id);
  return found?.kind === 'airport' ? (found as Airport) : job.blocks.airports[0];
}

/** The tank of a machine that puts liquid on, mm a pass; sprayers load at the store, or at the water point without one. */
function filling(
  { job, waterPoint }: Setting,
  machine: Machine,
  depth: number,
  what: 'product' | 'water',
): Tank | undefined {
  const tank = 'tank' in machine ? machine.tank : undefined;
  if (!tank || !(depth > 0)) return undefined;
  const airport = airportOf(job);
  const store = what === 'product' ? airport?.productStores[0] : undefined;
  const point = airport?.waterPoints.find(each => each.name === waterPoint) ?? airport?.waterPoints[0];
  const stand = store ?? point;
  return {
    kind: 'empties',
    capacity: 1000 * tank.value,
    perArea: depth,
    trip: { seconds: stand ? there(stand, machine) : 0 },
    service: stand && 'hookUp' in stand ? (stand.hookUp?.value ?? 0) : 0,
    ...(stand?.flow && { flow: 1000 * stand.flow.value }),
  };
}

function emptying(job: Job, machine: Machine, capacity: number, perArea: number): Tank {
  const point = airportOf(job)?.emptyingPoints[0];
  return {
    kind: 'fills',
    capacity,
    perArea,
    trip: { seconds: point ? there(point, machine) : 0 },
    service: point?.takes?.value ?? 0,
  };
}

/** A jetting unit that takes its water up again has to empty where it fills: whichever tank ends first sends it. */
function withRecovery(job: Job, jet: Jet, tank: Tank): Tank {
  const share = jet.recovers?.value ?? 0;
  if (!jet.recoveryTank || share === 0) return tank;
  const empty = emptying(job, jet, 0, 0);
  const way = (trip: Tank['trip']): number => ('seconds' in trip ? trip.seconds : 0);
  return {
    ...tank,
    capacity: Math.min(tank.capacity, (1000 * jet.recoveryTank.value) / share),
    trip: { seconds: way(tank.trip) + way(empty.trip) },
    service: tank.service + empty.service,
  };
}

/** Time to a stand and back, s. */
function there(
  stand: { readonly distance: { value: number } | undefined; readonly speed: { value: number } | undefined },
  machine: Machine,
): number {
  const speed = Math.min(stand.speed?.value ?? Infinity, machine.travelSpeed?.value ?? Infinity);
  return (2 * (stand.distance?.value ?? 0)) / speed;
}

/** Flow of a jetting unit's nozzles at the pressure of the step, m³/s; undefined where it can't be known. */
function deliveredBy(jet: Jet, step: Step): number | undefined {
  if (!jet.nozzles || !jet.bore || !step.pressure) return undefined;
  return jet.nozzles.value * nozzleFlow(jet.bore.value, step.pressure.value, jet.discharge?.value ?? 1);
}

/** Liquid that stands on a bay when it is picked up, mm: all that was put on. Upper bound: nothing dries or soaks in. */
function liquidOn(job: Job, plan: Plan, bay: Bay): number {
  let sum = 0;
  for (const { step } of plan.steps) {
    const does = step.does?.value;
    if (!isDone(job, step)) continue;
    if (does === 'apply') sum += mixDepth(plan, step, bay, job).depth;
    else if (does === 'pre-wet' || does === 'rinse') sum += 1000 * (step.rate?.value.rate ?? 0);
  }
  return sum;
}

/** Makes litres for each square metre of band out of litres for each square metre of deposit. */
function perLitre(legs: readonly Leg[], area: number): number {
  const gone = legs.reduce((sum, leg) => sum + lengthOf(leg) * (leg.band[1] - leg.band[0]), 0);
  return gone > 0 ? area / gone : 0;
}

/** Time of a wash-down: as the step or the pad says, and the way there. */
function washing(job: Job, plan: Plan, { step, machines }: PlannedStep): number {
  const pad = airportOf(job)?.washPads[0];
  const machine = machines[0]?.machine ?? plan.steps.flatMap(each => each.machines)[0]?.machine;
  const way = pad && machine ? there(pad, machine) / 2 : 0;
  return (step.takes ?? pad?.takes)?.value === undefined ? way : way + (step.takes ?? pad!.takes)!.value;
}
